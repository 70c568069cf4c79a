/** Full examples of what is answered about bookings; the OpenAPI works their schemas out. */
import type {
  BookingRulesView,
  BookingView,
  ClosureView,
  ImportedBookingsView,
  ImportedClosuresView,
} from '../../../shared/contract/bookings.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const service = { serviceId: id, name: 'Half head of lights' };

const booking: BookingView = {
  id,
  day: '2026-03-05',
  startsAt: '2026-03-05T10:00:00.000Z',
  endsAt: '2026-03-05T12:30:00.000Z',
  who: 'Ada B.',
  clientId: id,
  what: 'Half head of lights + gloss',
  services: [service],
  state: 'booked',
  visitId: id,
};

export const bookingsExample = { items: [booking] };
export const bookingsShape = {
  nullable: ['startsAt', 'endsAt', 'who', 'clientId', 'visitId'].map((name) => `/items/${name}`),
};

export const begunExample = { bookingId: id, visitId: id, dry: true };

export const importedExample: ImportedBookingsView = {
  found: 42,
  added: 40,
  changed: 1,
  calledOff: 2,
  same: 1,
  older: 0,
  unread: 3,
  examples: [
    { day: '2026-03-05', who: 'Ada B.', what: 'Half head of lights', services: [service.name] },
  ],
  dry: true,
};
export const importedShape = { nullable: ['/examples/who'], optional: ['/dry'] };

export const rulesExample: BookingRulesView = {
  rules: [{ words: 'half head', serviceIds: [id] }],
  words: [
    {
      what: 'Half head + gloss',
      bookings: 12,
      upcoming: 4,
      services: [service],
      found: ['half head'],
      notAVisit: false,
    },
  ],
  dry: true,
};
export const rulesShape = { optional: ['/dry'] };

export const closureExample: ClosureView = {
  ...{ id, from: '2026-12-24', to: '2027-01-02', name: 'Between the years' },
};

export const importedClosuresExample: ImportedClosuresView = {
  found: 12,
  added: 11,
  same: 1,
  closures: [{ from: '2026-12-25', to: '2026-12-25', name: 'Christmas Day' }],
  dry: true,
};

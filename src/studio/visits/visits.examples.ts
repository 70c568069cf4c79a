/** Visits as the OpenAPI shows them. */
import type { VisitView } from '../../../shared/contract/visits.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';

export const visitExample: VisitView = {
  id,
  kind: 'client',
  clientId: id,
  client: { number: 192, name: 'Ada Brook' },
  personId: id,
  redoOf: id,
  redoneBy: [id],
  startedAt: '2026-03-02T09:15:00.000Z',
  closedAt: '2026-03-02T11:20:00.000Z',
  services: [
    {
      serviceId: id,
      name: 'Half head of lights',
      price: '85',
      handsOnMinutes: 75,
      chairMinutes: 120,
    },
  ],
  minutes: [{ personId: id, minutes: 75 }],
  chairMinutes: 120,
  bowls: [
    { id, purpose: 'front', state: 'settled', mark: 'triangle', estimated: false, late: false },
  ],
  money: {
    discount: { label: 'Discount', of: 'menu', share: '0.1', amount: '5' },
    payments: [{ method: 'card', amount: '76.5' }],
    deposits: [{ label: 'Deposit', amount: '20' }],
    tip: { amount: '5', method: 'card', personId: id },
  },
};

/** Which fields of a visit may be missing or null; `at` is where the visit is. */
export function visitShape(at = '') {
  return {
    optional: [
      'client',
      'services/price',
      'money',
      'money/discount/share',
      'money/discount/amount',
    ].map((name) => `${at}/${name}`),
    nullable: [
      'clientId',
      'client',
      'personId',
      'redoOf',
      'closedAt',
      'bowls/mark',
      'money/discount',
      'money/tip',
      'money/tip/personId',
    ].map((name) => `${at}/${name}`),
  };
}

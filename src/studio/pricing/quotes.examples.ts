/** Quotes as the OpenAPI shows them. */
import type { ClientQuoteView, QuoteView } from '../../../shared/contract/quotes.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const points = (low: string, likely: string, high: string) => ({ low, likely, high });

export const quoteExample: QuoteView = {
  id,
  madeAt: '2026-03-02T09:15:00.000Z',
  validUntil: '2026-04-01',
  expired: false,
  clientId: id,
  hairLength: 'long',
  hairDensity: 'thick',
  currency: 'EUR',
  services: [
    {
      serviceId: id,
      name: 'Half head of lights',
      price: '120',
      handsOnMinutes: 75,
      chairMinutes: 120,
      inThePrice: [{ kind: 'lightener', grams: '60', bowls: '2' }],
    },
  ],
  basis: 'services and hair',
  visits: 31,
  enough: true,
  menu: { net: '97.56', tax: '22.44', gross: '120.00' },
  price: points('120.00', '126.15', '148.00'),
  grams: points('96', '138', '204'),
  bowls: points('2', '3', '4'),
  minutes: points('110', '125', '160'),
  handsOnMinutes: points('70', '80', '105'),
  held: { visits: 22, atOrUnder: 20, inside: 18 },
  onTop: ['Another bowl: €9.50 for each further bowl, without tax'],
  onTopRules: [{ kind: 'lightener', label: 'Another bowl', by: 'bowl', rate: '9.5' }],
  dry: true,
};

/** Which fields of a quote may be missing or null; `at` is where it is. */
export function quoteShape(at = '') {
  const absent = [
    ...['dry', 'services/inThePrice/grams', 'services/inThePrice/bowls'],
    ...['onTopRules', 'onTopRules/label'],
  ];
  const nulls = [
    ...['clientId', 'hairLength', 'hairDensity'],
    ...['grams', 'bowls', 'minutes', 'handsOnMinutes'],
  ];
  return {
    optional: absent.map((name) => `${at}/${name}`),
    nullable: nulls.map((name) => `${at}/${name}`),
  };
}

export const clientQuoteExample: ClientQuoteView = {
  currency: 'EUR',
  services: ['Half head of lights'],
  minutes: { from: 110, to: 160 },
  price: { from: '120.00', to: '148.00' },
  inThePrice: ['lightener, up to 60 g'],
  promise: 'We ask you before going above €148.00.',
  validUntil: '2026-04-01',
  expired: false,
};

/** Closings and price sheets as the OpenAPI shows them. */
import type { PriceSheetView } from '../../../shared/contract/pricing.js';
import type { ClosedVisitView } from '../../../shared/contract/visits.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';

export const closedVisitExample: ClosedVisitView = {
  id,
  kind: 'client',
  clientId: id,
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
  settledBowls: [id],
  uses: [{ productId: id, quantity: '30', unit: 'piece' }],
  price: {
    currency: 'EUR',
    net: '62.20',
    tax: '14.30',
    gross: '76.50',
    due: '76.50',
    cashRounding: '0.00',
    tip: '5.00',
    toTheTill: '81.50',
  },
  dry: true,
};

export const closedVisitShape = {
  optional: [
    ...['/services/price', '/money', '/money/discount/share', '/money/discount/amount'],
    ...['/price', '/dry'],
  ],
  nullable: [
    ...['/clientId', '/personId', '/redoOf', '/closedAt', '/bowls/mark'],
    ...['/money/discount', '/money/tip', '/money/tip/personId'],
  ],
};

export const sheetExample: PriceSheetView = {
  id,
  visitId: id,
  visitKind: 'client',
  state: 'final',
  version: 2,
  replaces: id,
  madeAt: '2026-03-02T11:20:00.000Z',
  currency: 'EUR',
  ledger: {
    product: '1.260000',
    leftOver: '0.120000',
    sundries: '1.500000',
    notCharged: '0.000000',
  },
  lines: [
    {
      kind: 'product',
      label: 'Tide lightener, front',
      inputs: [
        { name: 'quantity', value: '30', unit: 'g' },
        { name: 'value', value: '0.9', unit: 'EUR' },
      ],
      formula: 'value of what went to head and bin',
      amount: '0.90',
      replacementAmount: '1.02',
    },
  ],
  totals: {
    product: '1.26',
    sundries: '1.50',
    time: '30.00',
    overhead: '30.00',
    cost: '62.76',
    net: '69.11',
    tax: '15.89',
    gross: '85.00',
    fee: '1.33',
    commission: '6.91',
    contribution: '28.11',
    profit: '-1.89',
    margin: '-0.027348',
    notCharged: '0.00',
    replacementProduct: '1.40',
    due: '85.00',
    tip: '5.00',
    cashRounding: '0.00',
    toTheTill: '90.00',
  },
  noCost: [{ productId: id, label: 'Tide lightener, front' }],
  notes: [{ code: 'not_weighed', text: '1 bowl was not weighed at the end.' }],
  target: {
    price: '98.00',
    net: '79.67',
    tax: '18.33',
    gross: '98.00',
    contribution: '37.00',
    profit: '7.00',
    margin: '0.0879',
    contributionPerHour: '18.50',
    productMarkup: '62.23',
  },
  redone: { visits: [{ visitId: id, contribution: '-31.20' }], contributionAfter: '-3.09' },
};

/** Which fields of a sheet may be missing or null; `at` is where the sheet is. */
export function sheetShape(at = '') {
  const absent = ['replaces', 'lines/replacementAmount', 'target', 'redone'];
  const nulls = [
    ...['id', 'version', 'madeAt', 'lines/replacementAmount'],
    ...['totals/margin', 'totals/replacementProduct', 'noCost/productId'],
    ...['target/margin', 'target/contributionPerHour', 'target/productMarkup'],
  ];
  return {
    optional: absent.map((name) => `${at}/${name}`),
    nullable: nulls.map((name) => `${at}/${name}`),
  };
}

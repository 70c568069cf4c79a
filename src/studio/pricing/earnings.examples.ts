/** Earnings and statements as the OpenAPI shows them. */
import type {
  EarningsReportView,
  EarningsView,
  StatementView,
} from '../../../shared/contract/earnings.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';

const ledger = {
  product: '8.340000',
  leftOver: '1.120000',
  sundries: '1.500000',
  notCharged: '0.000000',
};

const sums: EarningsView = {
  visits: 31,
  noCost: 1,
  gross: '3720.00',
  net: '3024.39',
  product: '258.54',
  sundries: '46.50',
  time: '930.00',
  fee: '57.35',
  commission: '302.44',
  contribution: '1429.56',
  overhead: '930.00',
  profit: '499.56',
  margin: '0.165177',
  ledger,
};

const redone = { visits: 1, contribution: '-31.20', ledger };

export const earningsExample: EarningsReportView = {
  from: '2025-03-04',
  to: '2026-03-04',
  currency: 'EUR',
  rows: [{ key: id, label: 'Half head of lights', ...sums, redone }],
  totals: sums,
  redone,
  house: {
    bowls: 2,
    rows: [{ kind: 'training', bowls: 2, value: '1.680000' }],
    uses: '3.200000',
    discards: '0.900000',
  },
  running: 2,
};

export const earningsShape = {
  optional: ['/rows/redone'],
  nullable: ['/rows/margin', '/totals/margin'],
};

export const statementExample: StatementView = {
  personId: id,
  person: 'Tern Ashby',
  month: '2026-03',
  currency: 'EUR',
  markup: '0.1',
  rows: [
    {
      productId: id,
      product: 'Tide lightener',
      quantity: '480',
      unit: 'g',
      value: '14.400000',
      charge: '15.84',
    },
  ],
  value: '14.400000',
  charge: '15.84',
  notCharged: '0.600000',
  openBowls: 1,
};

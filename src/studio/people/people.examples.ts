/** Answers about people as the OpenAPI shows them. */
import type {
  BenchView,
  PersonView,
  RulesVersionView,
  SessionView,
  StudioView,
  TokenView,
} from '../../../shared/contract/people.js';
import type { PricingSettings } from '../../../shared/contract/pricing.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';

export const personExample: PersonView = {
  id,
  name: 'Wren Tallis',
  role: 'stylist',
  kind: 'employed',
  hasPin: true,
  hourRate: '24',
  commission: { share: '0.1', on: 'net_less_product' },
  retiredAt: '2026-03-31T18:00:00.000Z',
};

export const benchExample: BenchView = {
  id,
  name: 'Bench by the window',
  retiredAt: '2026-03-31T18:00:00.000Z',
};

export const tokenExample: TokenView = {
  id,
  name: 'Tablet by the window',
  role: 'bench',
  benchId: id,
  madeAt: '2026-03-02T09:00:00.000Z',
  usedAt: '2026-03-02T09:15:00.000Z',
  revokedAt: '2026-03-31T18:00:00.000Z',
};

export const sessionExample: SessionView = {
  studio: { id, name: 'Saltmarsh Row', currency: 'EUR', timeZone: 'Europe/Lisbon', demo: true },
  role: 'stylist',
  person: { id, name: 'Wren Tallis' },
  bench: { id, name: 'Bench by the window' },
  expiresAt: '2026-03-02T21:15:00.000Z',
};

const pricingExample: PricingSettings = {
  priceMode: 'inclusive',
  taxes: [{ label: 'VAT', rate: '0.23' }],
  taxBasis: 'invoice',
  rounding: 'half_up',
  priceStep: '1',
  overheadPerChairMinute: '0.25',
  hourRate: '24',
  commission: { share: '0.1', on: 'net' },
  cardFee: { share: '0.015', fixed: '0.05', onTip: 'studio' },
  onTop: [{ kind: 'lightener', label: 'More lightener', by: 'bowl', rate: '12' }],
  measuredOn: 'applied',
};

export const studioExample: StudioView = {
  id,
  name: 'Saltmarsh Row',
  currency: 'EUR',
  timeZone: 'Europe/Lisbon',
  country: 'PT',
  costingMethod: 'fifo',
  demo: true,
  lockedBefore: '2026-02-01',
  supplierPrices: { are: 'tax got back', taxRate: '0.23' },
  pricing: pricingExample,
};

export const rulesVersionExample: RulesVersionView = {
  ...{ id, startsOn: '2026-04-01', state: 'planned', rules: pricingExample },
  ...{ madeAt: '2026-03-02T09:15:00.000Z', madeBy: 'Marlow Teasel' },
};

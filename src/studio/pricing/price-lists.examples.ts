/** Price lists as the OpenAPI shows them. */
import type {
  AcceptedPricesView,
  ChangedPriceView,
  PriceEffectView,
  PriceHistoryView,
} from '../../../shared/contract/price-lists.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';

const changed: ChangedPriceView = {
  packId: id,
  productId: id,
  product: 'Tide lightener',
  pack: '500 g tub',
  before: '15',
  after: '16.5',
  change: '0.1',
};

export const effectExample: PriceEffectView = {
  currency: 'EUR',
  months: 3,
  prices: [changed],
  services: [
    {
      key: id,
      label: 'Half head of lights',
      visits: 31,
      visitsPerMonth: '10.33',
      product: { before: '9.84', after: '10.02' },
      margin: { before: '0.165', after: '0.1631' },
      target: '0.165',
      price: { menu: '120.00', before: '120.00', after: '120.31' },
      perMonth: '1.86',
    },
  ],
  perMonth: '1.86',
};

export const effectShape = {
  nullable: [
    ...['/prices/before', '/prices/change', '/services/margin/before', '/services/margin/after'],
    ...['/services/target', '/services/price/before', '/services/price/after'],
  ],
};

export const acceptedExample: AcceptedPricesView = {
  id,
  startsOn: '2026-03-02',
  prices: [changed],
  dry: true,
};

export const acceptedShape = {
  optional: ['/dry'],
  nullable: ['/prices/before', '/prices/change'],
};

export const historyExample: PriceHistoryView = {
  rows: [{ packId: id, pack: '500 g tub', price: '16.5', startsOn: '2026-03-02', supplierId: id }],
};

export const historyShape = { nullable: ['/rows/startsOn', '/rows/supplierId'] };

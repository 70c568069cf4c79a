/** Full examples of order plans and terms; the OpenAPI works their schemas out from them. */

const productId = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const supplierId = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d72';

const column = {
  words: 'Short about one order in 20.',
  goods: '45.00',
  freight: '6.00',
  total: '51.00',
  orders: [
    {
      supplierId,
      supplier: 'Harbour Wholesale',
      orderDay: '2026-03-03',
      goods: '45.00',
      freight: '6.00',
      words: 'Freight would be free from 100.00 on.',
    },
  ],
  lines: [
    {
      productId,
      name: 'Tide lightener',
      supplierId,
      orderDay: '2026-03-03',
      packLabel: '500 g tub',
      packs: 3,
      packPrice: '15.00',
      cost: '45.00',
      quantity: { quantity: '1500', unit: 'g' },
      shortRisk: '0.021',
      why: '420 g on the shelf and on order. About 1350 g are used by 2026-03-14, …',
      onePackFewer: {
        shortRisk: '0.17',
        words: 'One pack fewer: short about one order in 6, instead of about one order in 48.',
      },
    },
  ],
  short: [
    {
      productId,
      name: 'Dune toner 9',
      missing: { quantity: '60', unit: 'g' },
      shortRisk: '0.31',
      words: 'Short about one order in 3.',
    },
  ],
  proof: { gap: '0.0004', seconds: '0.62' },
};

export const planExample = {
  today: '2026-03-02',
  orderDays: 1,
  currency: 'EUR',
  budget: '500.00',
  bare: column,
  comfortable: column,
  difference: {
    cost: '15.00',
    words:
      'Comfortable costs 15.00 EUR more: a product is short about one order in 50 ' +
      'instead of one order in 20.',
  },
  remarks: [{ productId, words: 'Foil has no pack, so it cannot be planned. Enter its packs.' }],
};

const columnNulls = [
  ...['/orders/supplierId', '/orders/supplier'],
  ...['/lines/supplierId', '/lines/packPrice'],
];
export const planShape = {
  nullable: [
    ...['/budget', '/remarks/productId'],
    ...columnNulls.flatMap((path) => [`/bare${path}`, `/comfortable${path}`]),
  ],
};

export const orderTermsExample = {
  productId,
  mostPacks: 12,
  priceBreaks: [{ packLabel: '500 g tub', fromPacks: 6, packPrice: '13.8' }],
};
export const orderTermsShape = { nullable: ['/mostPacks'] };

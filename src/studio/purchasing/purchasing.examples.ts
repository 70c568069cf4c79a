/** Full examples of purchasing's answers; the OpenAPI works their schemas out from them. */

const month = {
  month: '2026-03',
  running: true,
  mean: '4210.5',
  notEntered: '60',
  booked: { visits: '34', use: '1870' },
  low80: '3350',
  high80: '5120',
  low95: '2900',
  high95: '5600',
  quantiles: [{ p: '0.9', quantity: '5120' }],
};

const forecast = {
  productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
  name: 'Tide developer 20',
  kind: 'developer',
  strength: '20',
  unit: 'ml',
  method: 'combination',
  demandClass: 'smooth',
  monthsUsed: 24,
  usedThisMonth: '310',
  months: [month],
  backtest: { kind: 'mean', error: '410', naive: '655', forecasts: 36 },
  sentence: 'Used steadily (used in 24 of 24 months): …',
  history: [{ month: '2026-02', quantity: '3980' }],
};

export const forecastsExample = { today: '2026-03-02', items: [forecast] };
export const forecastsShape = {
  optional: ['/items/productId', '/items/months/booked'],
  nullable: ['/items/strength', '/items/backtest'],
};

export const demandExample = {
  rows: [
    {
      productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
      period: '2026-02',
      quantity: { quantity: '3980', unit: 'ml' },
    },
  ],
};

export const reorderPointsExample = {
  items: [
    {
      productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
      name: 'Tide developer 20',
      rule: 'forecast',
      point: { quantity: '2140', unit: 'ml' },
      upTo: { quantity: '3140', unit: 'ml' },
      madeAt: '2026-03-02T09:00:00.000Z',
      basis: {
        serviceLevel: '0.95',
        leadTimeDays: '4',
        leadTimeFrom: 'deliveries',
        receipts: 8,
        reviewDays: 7,
        days: '11',
        meanUse: '1480',
        safetyStock: '660',
      },
      sentence: 'Looked at every 7 days, and a delivery takes 4 days …',
    },
  ],
};
export const reorderPointsShape = {
  nullable: ['point', 'upTo', 'madeAt', 'basis'].map((name) => `/items/${name}`),
};

const tub = (quantity: string) => ({ quantity, unit: 'g' });

export const orderExample = {
  id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d71',
  number: '12',
  supplierId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d72',
  supplier: 'Harbour Wholesale',
  state: 'partly received',
  orderedOn: '2026-03-02',
  note: 'Ring the bell at the side door.',
  lines: [
    {
      productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70',
      name: 'Tide lightener',
      packLabel: '500 g tub',
      packQuantity: tub('500'),
      orderCode: 'L-500',
      packs: 3,
      packPrice: '15.00',
      quantity: tub('1500'),
      received: tub('1000'),
      awaited: tub('500'),
    },
  ],
  goods: '45.00',
  freight: '6.00',
  currency: 'EUR',
  deliveries: ['0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d73'],
  cancelledAt: '2026-03-05T09:00:00.000Z',
  dry: true,
};
export function orderShape(at: string) {
  const nulls = ['supplierId', 'supplier', 'note', 'goods', 'cancelledAt'];
  const ofLines = ['/lines/orderCode', '/lines/packPrice'];
  return {
    nullable: [...nulls.map((name) => `/${name}`), ...ofLines].map((path) => `${at}${path}`),
    optional: [`${at}/dry`],
  };
}

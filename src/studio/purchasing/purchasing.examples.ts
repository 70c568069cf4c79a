/** Full examples of purchasing's answers; the OpenAPI works their schemas out from them. */

const month = {
  month: '2026-03',
  running: true,
  mean: '4210.5',
  notEntered: '60',
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
  optional: ['/items/productId'],
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

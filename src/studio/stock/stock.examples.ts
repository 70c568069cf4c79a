/** Full answers about the shelf, as the OpenAPI shows them: two bottles of 20 vol, one free. */
import type {
  ArrivalAnswer,
  AuditView,
  CostCorrectionAnswer,
  CountAnswer,
  DeliveryView,
  LotView,
  MovementView,
  ReversalAnswer,
  ShelfItemView,
  ShelfStrengthView,
  ShelfValueView,
  TakenAnswer,
  UsageRowView,
} from '../../../shared/contract/stock.js';

const ids = {
  journal: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d01',
  product: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d02',
  lot: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d03',
  visit: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d04',
  bowl: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d05',
  movement: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d06',
  supplier: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d07',
  person: '0193a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d08',
};
const millilitres = (quantity: string) => ({ quantity, unit: 'ml' as const });

const entry = {
  id: ids.journal,
  happenedAt: '2026-03-02T09:15:00.000Z',
  flags: [{ productId: ids.product, flag: 'reorder' as const }],
  marks: ['late'],
};

export const arrivalExample: ArrivalAnswer = {
  ...entry,
  lots: [
    {
      id: ids.lot,
      productId: ids.product,
      quantity: '3000',
      unit: 'ml',
      cost: '21.600000',
      costFrom: 'given',
      expiresOn: '2028-03-31',
      lotCode: 'L26-118',
      givenBack: '30',
    },
  ],
  cost: '21.600000',
  dry: true,
};

export const deliveryExample: DeliveryView = {
  id: ids.journal,
  supplierId: ids.supplier,
  orderId: ids.visit,
  orderedOn: '2026-02-26',
  deliveredOn: '2026-03-02',
  invoiceNo: '2026-0418',
  freight: '2.000000',
  otherCost: '0.000000',
  discount: '0.000000',
  nonRecoverableTax: '0.000000',
  reversed: false,
  lines: [
    {
      productId: ids.product,
      lotId: ids.lot,
      packLabel: '1 l bottle',
      packs: 2,
      freePacks: 1,
      packPrice: '9.800000',
      quantity: '3000',
      unit: 'ml',
      cost: '21.600000',
      expiresOn: '2028-03-31',
    },
  ],
};

export const lotExample: LotView = {
  id: ids.lot,
  productId: ids.product,
  name: 'Developer 20 vol',
  source: 'delivery',
  receivedOn: '2026-03-02',
  expiresOn: '2028-03-31',
  lotCode: 'L26-118',
  received: '3000',
  onHand: '2940.5',
  unit: 'ml',
  cost: '21.600000',
  value: '21.171600',
  expired: false,
};

export const countExample: CountAnswer = {
  ...entry,
  countedAt: '2026-03-02T18:30:00.000Z',
  lines: [
    {
      productId: ids.product,
      counted: millilitres('2900'),
      book: millilitres('2940.5'),
      difference: '-40.5',
      value: '-0.291600',
      stands: true,
    },
  ],
  warnings: [
    {
      productId: ids.product,
      code: 'counted_since',
      text: 'Developer 20 vol was counted later, at 2026-03-03T08:00:00.000Z: that count stands.',
    },
  ],
  dry: true,
};

export const takenExample: TakenAnswer = {
  ...entry,
  lines: [
    {
      productId: ids.product,
      quantity: '60',
      unit: 'ml',
      assumedDensity: false,
      value: '0.432000',
      lots: [{ lotId: ids.lot, quantity: '60', value: '0.432000' }],
    },
  ],
  dry: true,
};

export const costCorrectionExample: CostCorrectionAnswer = {
  ...entry,
  lines: [
    {
      productId: ids.product,
      lotId: ids.lot,
      unitCost: '0.0072',
      shelf: '21.171600',
      used: '0.428400',
    },
  ],
  visitIds: [ids.visit],
  dry: true,
};

export const movementExample: MovementView = {
  seq: '4180',
  id: ids.movement,
  journalId: ids.journal,
  journalKind: 'pour',
  productId: ids.product,
  lotId: ids.lot,
  from: 'shelf',
  to: 'bowl',
  fromBowlId: ids.bowl,
  toBowlId: ids.bowl,
  visitId: ids.visit,
  quantity: '30',
  unit: 'ml',
  value: '0.216000',
  reason: 'shortfall',
  happenedAt: '2026-03-02T09:15:00.000Z',
  recordedAt: '2026-03-02T09:15:01.000Z',
  personId: ids.person,
  benchId: ids.person,
  reversesId: ids.movement,
};

const movementNulls = ['fromBowlId', 'toBowlId', 'visitId', 'reason', 'personId', 'benchId'];

/** Fields of a movement that may be null or missing, below a pointer. */
export function movementShape(at: string) {
  return {
    nullable: [...movementNulls, 'reversesId'].map((name) => `${at}/${name}`),
    optional: [`${at}/value`],
  };
}

export const reversalExample: ReversalAnswer = {
  ...entry,
  reverses: ids.journal,
  kind: 'delivery',
  movements: [movementExample],
  visitIds: [ids.visit],
  dry: true,
};

export const shelfExample: ShelfItemView = {
  productId: ids.product,
  name: 'Developer 20 vol',
  kind: 'developer',
  line: 'Tidewater',
  strength: '20',
  onHand: millilitres('2940.5'),
  sealed: 2,
  started: 1,
  startedHolds: millilitres('940.5'),
  value: '21.171600',
  reorderPoint: millilitres('1650'),
  daysOfCover: '29',
  nextExpiry: '2028-03-31',
  lastCountedAt: '2026-03-02T18:30:00.000Z',
  entered: true,
  namedLater: false,
  flags: ['expiring'],
};

export const shelfShape = {
  nullable: [
    'line',
    'strength',
    'sealed',
    'started',
    'startedHolds',
    'reorderPoint',
    'nextExpiry',
    'lastCountedAt',
  ].map((name) => `/items/${name}`),
  optional: ['/items/value', '/items/daysOfCover'],
};

export const strengthExample: ShelfStrengthView = {
  strength: '20',
  onHand: millilitres('2940.5'),
  value: '21.171600',
  products: [{ productId: ids.product, onHand: millilitres('2940.5') }],
};

export const shelfValueExample: ShelfValueView = {
  at: '2026-02-28',
  value: '412.380000',
  currency: 'EUR',
  rows: [
    {
      productId: ids.product,
      name: 'Developer 20 vol',
      onHand: millilitres('2940.5'),
      value: '21.171600',
    },
  ],
};

export const usageExample: UsageRowView = {
  productId: ids.product,
  name: 'Developer 20 vol',
  strength: '20',
  month: '2026-02',
  quantity: '4120.5',
  unit: 'ml',
  value: '29.667600',
};

export const auditExample: AuditView = {
  ok: false,
  checks: [
    {
      name: 'lots hold what moved',
      ok: false,
      rows: 214,
      firstBreach: `lot ${ids.lot}: holds 10.000 for 0.200000, moved 12.000 for 0.240000`,
    },
  ],
  seq: '4180',
};

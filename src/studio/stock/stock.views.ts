/** Rows of the shelf as they travel. */
import type {
  DeliveryLineView,
  DeliveryView,
  LotView,
  MovementView,
} from '../../../shared/contract/stock.js';
import type { StockUnit } from '../../../shared/amount.js';
import { canonical, decimal, fixed } from '../../../shared/decimal.js';
import type { Place } from '../../../shared/moving/movement.js';

/** A row of the movements' statements. */
export interface MovementRow {
  seq: string;
  id: string;
  journal_id: string;
  journal_kind: string;
  product_id: string;
  lot_id: string;
  from_place: Place;
  to_place: Place;
  from_bowl_id: string | null;
  to_bowl_id: string | null;
  visit_id: string | null;
  quantity: string;
  value: string;
  unit: StockUnit;
  name: string;
  reason: string | null;
  happened_at: Date;
  happened_on: string;
  recorded_at: Date;
  person_id: string | null;
  bench_id: string | null;
  reverses_id: string | null;
}

const quantityText = (text: string) => canonical(decimal(text));
const valueText = (text: string) => fixed(decimal(text), 6);

/** @param money whether the caller may see values */
export function movementView(row: MovementRow, money: boolean): MovementView {
  return {
    seq: row.seq,
    id: row.id,
    journalId: row.journal_id,
    journalKind: row.journal_kind,
    productId: row.product_id,
    lotId: row.lot_id,
    from: row.from_place,
    to: row.to_place,
    fromBowlId: row.from_bowl_id,
    toBowlId: row.to_bowl_id,
    visitId: row.visit_id,
    quantity: quantityText(row.quantity),
    unit: row.unit,
    ...(money ? { value: valueText(row.value) } : {}),
    reason: row.reason,
    happenedAt: row.happened_at.toISOString(),
    recordedAt: row.recorded_at.toISOString(),
    personId: row.person_id,
    benchId: row.bench_id,
    reversesId: row.reverses_id,
  };
}

/** A row of the deliveries' statements. */
export interface DeliveryRow {
  id: string;
  supplier_id: string | null;
  order_id: string | null;
  ordered_on: string | null;
  delivered_on: string;
  invoice_no: string | null;
  freight: string;
  other_cost: string;
  discount: string;
  non_recoverable_tax: string;
  reversed: boolean;
  lines: DeliveryLineView[];
}

/** A delivery with its lines. */
export function deliveryView(row: DeliveryRow): DeliveryView {
  return {
    id: row.id,
    supplierId: row.supplier_id,
    orderId: row.order_id,
    orderedOn: row.ordered_on,
    deliveredOn: row.delivered_on,
    invoiceNo: row.invoice_no,
    freight: valueText(row.freight),
    otherCost: valueText(row.other_cost),
    discount: valueText(row.discount),
    nonRecoverableTax: valueText(row.non_recoverable_tax),
    reversed: row.reversed,
    lines: row.lines.map((line) => ({
      ...line,
      quantity: quantityText(line.quantity),
      packPrice: line.packPrice === null ? null : valueText(line.packPrice),
    })),
  };
}

/** A row of READ_LOT_LIST. */
export interface LotListRow {
  id: string;
  product_id: string;
  name: string;
  source: LotView['source'];
  received_on: string;
  expires_on: string | null;
  lot_code: string | null;
  quantity: string;
  cost: string;
  unit: StockUnit;
  on_hand: string;
  value: string | null;
  expired: boolean;
}

/** @param money whether the caller may see values */
export function lotView(row: LotListRow, money: boolean): LotView {
  return {
    id: row.id,
    productId: row.product_id,
    name: row.name,
    source: row.source,
    receivedOn: row.received_on,
    expiresOn: row.expires_on,
    lotCode: row.lot_code,
    received: quantityText(row.quantity),
    onHand: quantityText(row.on_hand),
    unit: row.unit,
    ...(money
      ? { cost: valueText(row.cost), value: row.value === null ? null : valueText(row.value) }
      : {}),
    expired: row.expired,
  };
}

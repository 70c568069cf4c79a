/** Orders as they travel, and as a slip that is sent to the supplier. */
import { stringify } from 'csv-stringify/sync';
import type { StockUnit } from '../../../shared/amount.js';
import type { OrderState, OrderView } from '../../../shared/contract/purchasing.js';
import { minorDigits } from '../../../shared/currency.js';
import {
  canonical,
  count,
  decimal,
  fixed,
  sum,
  zero,
  type Decimal,
} from '../../../shared/decimal.js';

/** A row of READ_ORDER. */
export interface OrderRow {
  id: string;
  seq: string;
  supplier_id: string | null;
  supplier: string | null;
  freight: string | null;
  free_freight_from: string | null;
  ordered_on: string;
  recorded_at: Date;
  note: string | null;
  cancelled_at: Date | null;
  currency: string;
  studio: string;
  state: OrderState;
  lines: {
    productId: string;
    name: string;
    unit: StockUnit;
    packLabel: string;
    packQuantity: string;
    orderCode: string | null;
    packs: number;
    packPrice: string | null;
    quantity: string;
    received: string;
    awaited: string;
  }[];
  deliveries: string[];
}

/** What an order's packs cost before freight; null while a line has no price. */
function goodsOf(row: OrderRow): Decimal | null {
  if (row.lines.some((line) => line.packPrice === null)) return null;
  return sum(row.lines.map((line) => decimal(line.packPrice ?? '0').times(count(line.packs))));
}

/** Freight by the supplier's terms: none from its step on, or where none is known. */
function freightOf(row: OrderRow, goods: Decimal | null): Decimal {
  if (row.freight === null) return zero;
  const free = row.free_freight_from;
  return free !== null && goods?.greaterThanOrEqualTo(free) ? zero : decimal(row.freight);
}

/** An order, its money in the currency's minor digits, prices as they were entered. */
export function orderView(row: OrderRow): OrderView {
  const digits = minorDigits(row.currency);
  const goods = goodsOf(row);
  return {
    id: row.id,
    number: row.seq,
    supplierId: row.supplier_id,
    supplier: row.supplier,
    state: row.state,
    orderedOn: row.ordered_on,
    note: row.note,
    lines: row.lines.map(({ unit, ...line }) => {
      const q = (quantity: string) => ({ quantity: canonical(decimal(quantity)), unit });
      return {
        productId: line.productId,
        name: line.name,
        packLabel: line.packLabel,
        packQuantity: q(line.packQuantity),
        orderCode: line.orderCode,
        packs: line.packs,
        packPrice: line.packPrice === null ? null : priceText(line.packPrice, digits),
        quantity: q(line.quantity),
        received: q(line.received),
        awaited: q(line.awaited),
      };
    }),
    goods: goods === null ? null : fixed(goods, digits),
    freight: fixed(freightOf(row, goods), digits),
    currency: row.currency,
    deliveries: row.deliveries,
    cancelledAt: row.cancelled_at?.toISOString() ?? null,
  };
}

/** At least the currency's digits, more only where the price has them. */
function priceText(price: string, digits: number): string {
  const value = decimal(price);
  return fixed(value, Math.max(digits, value.decimalPlaces()));
}

/** Slip lines by the supplier's number, then by name: as a voice on the phone reads them. */
export function slipLines(order: OrderView): OrderView['lines'] {
  const key = (line: OrderView['lines'][number]) => `${line.orderCode ?? '\uffff'} ${line.name}`;
  return [...order.lines].sort((a, b) => (key(a) < key(b) ? -1 : 1));
}

/** The slip as CSV. */
export function slipCsv(order: OrderView): string {
  const lines = slipLines(order).map((line) => ({
    order_code: plainCell(line.orderCode ?? ''),
    product: plainCell(line.name),
    pack: plainCell(line.packLabel),
    packs: `${line.packs}`,
    pack_price: line.packPrice ?? '',
    price:
      line.packPrice === null
        ? ''
        : fixed(decimal(line.packPrice).times(count(line.packs)), minorDigits(order.currency)),
  }));
  return stringify(lines, { header: true, record_delimiter: '\r\n' });
}

/** A spreadsheet would calculate a cell that begins like a formula. */
function plainCell(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

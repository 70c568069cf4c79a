/** A count: what was found less or more than the book said at that instant. */
import { ledgerPlaces, valueOfPart } from '../costing.js';
import { round, smaller, sum, zero, type Decimal } from '../decimal.js';
import { draw } from './drawing.js';
import type { LotDraft, MovementDraft, StockFlag } from './movement.js';
import {
  oldestFirst,
  unitCostNow,
  withLot,
  type OpenShortfall,
  type ProductStock,
} from './stock.js';
import type { TakenByCount } from './taken.js';

export interface CountOrder {
  readonly counted: Decimal;
  /** What the book said at `countedAt`, by the time things happened. */
  readonly book: Decimal;
  readonly countedAt: string;
  readonly day: string;
  readonly taken: readonly TakenByCount[];
  /** Id for a lot that may have to be made. */
  readonly foundLotId: string;
}

export interface CountResult {
  readonly stock: ProductStock;
  readonly movements: readonly MovementDraft[];
  readonly lots: readonly LotDraft[];
  readonly flags: readonly StockFlag[];
  /** False where a later count stands already, so that this one changes nothing. */
  readonly stands: boolean;
}

/**
 * Books a count. Below the book: lots are drawn as for a pour, to `correction`. Above: first
 * it explains pours beyond the book that happened after it and were recorded before; then what
 * earlier counts took comes back at the value it left with, newest first; the rest is a new lot
 * `found` at the cost known now. Shortfalls from before it are closed. A count older than one
 * that stands changes nothing.
 * Example: book 100, counted 80 -> 20 to correction; book 80, counted 90 after it -> 10 of those
 * 20 come back at their value.
 */
export function settleCount(stock: ProductStock, order: CountOrder): CountResult {
  if (stock.lastCountedAt !== null && order.countedAt < stock.lastCountedAt) {
    return { stock, movements: [], lots: [], flags: [], stands: false };
  }
  const later = stock.shortfalls.filter((shortfall) => shortfall.at >= order.countedAt);
  const closed = { ...stock, shortfalls: later, lastCountedAt: order.countedAt };
  const difference = order.counted.minus(order.book);
  if (difference.isZero()) {
    return { stock: closed, movements: [], lots: [], flags: [], stands: true };
  }
  return difference.isNegative()
    ? below(closed, difference.negated(), order)
    : above(closed, difference, order);
}

function below(stock: ProductStock, missing: Decimal, order: CountOrder): CountResult {
  const drawn = draw(stock, {
    quantity: missing,
    to: 'correction',
    happenedAt: order.countedAt,
    day: order.day,
    reason: 'counted',
  });
  const flags = drawn.flags.filter((flag) => flag === 'recount');
  return { stock: drawn.stock, movements: drawn.movements, lots: [], flags, stands: true };
}

function above(stock: ProductStock, found: Decimal, order: CountOrder): CountResult {
  const explained = explainLater(stock, found);
  const back = putBack(explained.stock, found.minus(explained.quantity), order.taken);
  const movements = [...explained.movements, ...back.movements];
  if (back.left.isZero()) {
    return { stock: back.stock, movements, lots: [], flags: [], stands: true };
  }
  const unitCost = unitCostNow(back.stock);
  const lot: LotDraft = {
    id: order.foundLotId,
    productId: stock.productId,
    source: 'found',
    receivedOn: order.day,
    expiresOn: null,
    lotCode: null,
    quantity: back.left,
    cost: round((unitCost ?? zero).times(back.left), ledgerPlaces, 'half_even'),
  };
  movements.push(onto(stock, lot.id, { quantity: back.left, value: lot.cost }));
  const next = withLot(back.stock, lot, { quantity: back.left, value: lot.cost });
  const flags: StockFlag[] = unitCost === null ? ['no_cost'] : [];
  return { stock: next, movements, lots: [lot], flags, stands: true };
}

/** What was found explains pours that happened after the count, recorded before it as short. */
function explainLater(stock: ProductStock, found: Decimal) {
  const quantity = smaller(found, sum(stock.shortfalls.map((each) => each.quantity)));
  if (quantity.isZero()) return { stock, quantity, movements: [] };
  const there = onto(stock, stock.shortfallLotId, { quantity, value: zero });
  const movements: MovementDraft[] = [there];
  const shortfalls: OpenShortfall[] = [];
  let left = quantity;
  for (const { at, on, quantity: open } of oldestFirst(stock.shortfalls)) {
    const part = smaller(left, open);
    left = left.minus(part);
    if (part.greaterThan(zero)) {
      const way = { from: 'shelf', to: 'correction', reason: 'shortfall given back' } as const;
      movements.push({ ...there, ...way, quantity: part, happened: { at, on } });
    }
    if (open.greaterThan(part)) shortfalls.push({ at, on, quantity: open.minus(part) });
  }
  return { stock: { ...stock, shortfalls }, quantity, movements };
}

/** What earlier counts took comes back on its lots, at the value it left with. */
function putBack(stock: ProductStock, found: Decimal, takenBefore: readonly TakenByCount[]) {
  const movements: MovementDraft[] = [];
  let next = stock;
  let left = found;
  for (const taken of takenBefore) {
    const quantity = smaller(taken.quantity, left);
    if (quantity.isZero()) break;
    const value = valueOfPart(taken.value, quantity, taken.quantity);
    movements.push(onto(stock, taken.lotId, { quantity, value }));
    next = withLot(next, { ...taken, id: taken.lotId }, { quantity, value });
    left = left.minus(quantity);
  }
  return { stock: next, movements, left };
}

function onto(
  stock: ProductStock,
  lotId: string,
  what: { readonly quantity: Decimal; readonly value: Decimal },
): MovementDraft {
  const way = { from: 'correction', to: 'shelf' } as const;
  return { productId: stock.productId, lotId, ...way, ...what, reason: 'counted' };
}

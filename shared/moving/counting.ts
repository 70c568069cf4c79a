/** A count: what was found less or more than the book said at that instant. */
import { ledgerPlaces, valueOfPart } from '../costing.js';
import { round, smaller, zero, type Decimal } from '../decimal.js';
import { draw } from './drawing.js';
import type { LotDraft, MovementDraft, StockFlag } from './movement.js';
import { onHand, unitCostNow, withLot, type ProductStock } from './stock.js';

/** What an earlier count took off a lot and no count has put back yet, newest first. */
export interface TakenByCount {
  readonly lotId: string;
  readonly receivedOn: string;
  readonly expiresOn: string | null;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

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
}

/**
 * Books a count. Below the book: lots are drawn as for a pour, to `correction`. Above: first
 * what earlier counts took comes back at the value it left with, newest first; the rest is a
 * new lot `found` at the cost known now. Open shortfalls are closed. A count older than one that
 * stands changes nothing.
 * Example: book 100, counted 80 -> 20 to correction; book 80, counted 90 after it -> 10 of those
 * 20 come back at their value.
 */
export function settleCount(stock: ProductStock, order: CountOrder): CountResult {
  if (stock.lastCountedAt !== null && order.countedAt < stock.lastCountedAt) {
    return { stock, movements: [], lots: [], flags: [] };
  }
  const closed = { ...stock, shortfalls: [], lastCountedAt: order.countedAt };
  const difference = order.counted.minus(order.book);
  if (difference.isZero()) return { stock: closed, movements: [], lots: [], flags: [] };
  return difference.isNegative()
    ? below(closed, difference.negated(), order)
    : above(closed, difference, order);
}

function below(stock: ProductStock, missing: Decimal, order: CountOrder): CountResult {
  const there = smaller(missing, onHand(stock));
  const flags: StockFlag[] = there.lessThan(missing) ? ['recount'] : [];
  if (there.isZero()) return { stock, movements: [], lots: [], flags };
  const drawn = draw(stock, {
    quantity: there,
    to: 'correction',
    happenedAt: order.countedAt,
    day: order.day,
    reason: 'counted',
  });
  return { stock: drawn.stock, movements: drawn.movements, lots: [], flags };
}

function above(stock: ProductStock, found: Decimal, order: CountOrder): CountResult {
  const movements: MovementDraft[] = [];
  const back = { productId: stock.productId, from: 'correction', to: 'shelf' } as const;
  let next = stock;
  let left = found;
  for (const taken of order.taken) {
    const quantity = smaller(taken.quantity, left);
    if (quantity.isZero()) break;
    const value = valueOfPart(taken.value, quantity, taken.quantity);
    movements.push({ ...back, lotId: taken.lotId, quantity, value, reason: 'counted' });
    next = withLot(next, { ...taken, id: taken.lotId }, { quantity, value });
    left = left.minus(quantity);
  }
  if (left.isZero()) return { stock: next, movements, lots: [], flags: [] };
  const unitCost = unitCostNow(stock);
  const lot: LotDraft = {
    id: order.foundLotId,
    productId: stock.productId,
    source: 'found',
    receivedOn: order.day,
    expiresOn: null,
    lotCode: null,
    quantity: left,
    cost: round((unitCost ?? zero).times(left), ledgerPlaces, 'half_even'),
  };
  movements.push({
    ...back,
    lotId: lot.id,
    quantity: left,
    value: lot.cost,
    reason: 'counted',
  });
  next = withLot(next, lot, { quantity: left, value: lot.cost });
  const flags: StockFlag[] = unitCost === null || unitCost.isZero() ? ['no_cost'] : [];
  return { stock: next, movements, lots: [lot], flags };
}

/** Taking a quantity off the shelf: lots in their order, what the book lacks, what was counted. */
import { drawLots, ledgerPlaces } from '../costing.js';
import { round, sum, zero, type Decimal } from '../decimal.js';
import type { MovementDraft, Place, PourAddress, Reason, StockFlag } from './movement.js';
import { isCounted, unitCostNow, withLot, type ProductStock } from './stock.js';

/** Where a draw goes, and when it happened. */
export interface DrawOrder {
  readonly quantity: Decimal;
  readonly to: Exclude<Place, 'shelf'>;
  readonly toPour?: PourAddress;
  /** Instant (UTC, ISO 8601) and studio day (YYYY-MM-DD) on which it happened. */
  readonly happenedAt: string;
  readonly day: string;
  readonly reason?: Reason;
  /** Only this lot, where the person named one. */
  readonly lotId?: string;
}

export interface DrawResult {
  readonly stock: ProductStock;
  readonly movements: readonly MovementDraft[];
  /** What went to its place, lot by lot, the shortfall last. */
  readonly drawn: readonly { lotId: string; quantity: Decimal; value: Decimal }[];
  readonly value: Decimal;
  readonly flags: readonly StockFlag[];
}

/**
 * Draws a quantity off the shelf. What happened is recorded, never refused: what the book does
 * not have comes out of `correction` through the shortfall lot at the last known cost (none:
 * value 0, flag `no_cost`), the product is flagged `recount`; a draw from an expired lot is
 * flagged `expired`. A draw that happened before a standing count is followed by the opposite
 * correction, so that the counted figure stands.
 * Example: 30 of a lot of 20 worth 4.00 -> 20 worth 4.000000 and 10 short worth 2.000000.
 */
export function draw(stock: ProductStock, order: DrawOrder): DrawResult {
  const lots = order.lotId ? stock.lots.filter((lot) => lot.id === order.lotId) : stock.lots;
  const { draws, short } = drawLots(lots, order.quantity, {
    method: stock.method,
    day: order.day,
    productValue: stock.value,
    productQuantity: sum(stock.lots.map((lot) => lot.quantity)),
  });
  const flags = new Set<StockFlag>();
  if (draws.some((part) => part.expired)) flags.add('expired');
  const drawn = draws.map(({ lotId, quantity, value }) => ({ lotId, quantity, value }));
  const movements: MovementDraft[] = drawn.map((part) => leaving(stock, order, part));
  let next = stock;
  for (const part of drawn) next = take(next, part);

  if (short.greaterThan(zero)) {
    const last = drawn.at(-1);
    const unitCost = last ? last.value.dividedBy(last.quantity) : unitCostNow(stock);
    const value = round((unitCost ?? zero).times(short), ledgerPlaces, 'half_even');
    const part = { lotId: stock.shortfallLotId, quantity: short, value };
    movements.push(
      {
        productId: stock.productId,
        ...part,
        from: 'correction',
        to: 'shelf',
        reason: 'shortfall',
      },
      leaving(stock, order, part),
    );
    drawn.push(part);
    flags.add('recount');
    if (unitCost === null || unitCost.isZero()) flags.add('no_cost');
    if (!isCounted(stock, order.happenedAt)) {
      next = { ...next, shortfalls: [...next.shortfalls, { on: order.day, quantity: short }] };
    }
  }

  if (isCounted(stock, order.happenedAt)) {
    flags.delete('recount');
    for (const part of draws) {
      movements.push({
        productId: stock.productId,
        lotId: part.lotId,
        quantity: part.quantity,
        value: part.value,
        from: 'correction',
        to: 'shelf',
        reason: 'already counted',
      });
    }
    next = { ...stock, shortfalls: next.shortfalls };
  }
  return {
    stock: next,
    movements,
    drawn,
    value: sum(drawn.map((part) => part.value)),
    flags: [...flags],
  };
}

function leaving(
  stock: ProductStock,
  order: DrawOrder,
  part: { lotId: string; quantity: Decimal; value: Decimal },
): MovementDraft {
  return {
    productId: stock.productId,
    ...part,
    from: 'shelf',
    to: order.to,
    ...(order.toPour ? { toPour: order.toPour } : {}),
    ...(order.reason ? { reason: order.reason } : {}),
  };
}

function take(
  stock: ProductStock,
  part: { lotId: string; quantity: Decimal; value: Decimal },
): ProductStock {
  const lot = stock.lots.find((each) => each.id === part.lotId);
  if (!lot) return stock;
  return withLot(stock, lot, { quantity: part.quantity.negated(), value: part.value.negated() });
}

/** Taking a quantity off the shelf: lots in their order, what the book lacks, what was counted. */
import { drawLots, ledgerPlaces, valueOfPart, type Draw } from '../costing.js';
import { round, sum, zero, type Decimal } from '../decimal.js';
import { lowered, shortages, type Shortage } from './levels.js';
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

type Part = Pick<Draw, 'lotId' | 'quantity' | 'value'>;

/**
 * Draws a quantity off the shelf. What happened is recorded, never refused: what the book does
 * not have comes out of `correction` through the shortfall lot at the last known cost (none:
 * value 0, flag `no_cost`), the product is flagged `recount`; a draw from an expired lot is
 * flagged `expired`. A draw that comes late finds what the shelf held then and since. A draw
 * that happened before a standing count is followed by the opposite correction, so that the
 * counted figure stands.
 * Example: 30 of a lot of 20 worth 4.00 -> 20 worth 4.000000 and 10 short worth 2.000000.
 */
export function draw(stock: ProductStock, order: DrawOrder): DrawResult {
  const counted = isCounted(stock, order.happenedAt);
  const { draws, missing } = partsOf(stock, order, counted);
  const flags = new Set<StockFlag>();
  if (draws.some((part) => part.expired)) flags.add('expired');
  if (draws.some((part) => isWithoutCost(stock, part))) flags.add('no_cost');
  const drawn: Part[] = draws.map(({ lotId, quantity, value }) => ({ lotId, quantity, value }));
  const movements = drawn.map((part) => leaving(stock, order, part));
  let next = withoutDrawn(stock, order, drawn, missing);
  if (missing.length > 0) {
    const short = beyondTheBook(next, missing);
    movements.push(...short.movements, leaving(stock, order, short.part));
    drawn.push(short.part);
    if (short.unitCost === null) flags.add('no_cost');
    if (!counted) {
      flags.add('recount');
      next = { ...next, shortfalls: [...next.shortfalls, ...missing] };
    }
  }
  if (counted) {
    movements.push(...draws.map((part) => fromCorrection(stock, part, 'already counted')));
    next = { ...stock, fallbackUnitCost: next.fallbackUnitCost };
  }
  const value = sum(drawn.map((part) => part.value));
  return { stock: next, movements, drawn, value, flags: [...flags] };
}

/** What comes from which lot, and what was not there, and when. */
function partsOf(stock: ProductStock, order: DrawOrder, counted: boolean) {
  const moment = { at: order.happenedAt, on: order.day };
  const lots = order.lotId ? stock.lots.filter((lot) => lot.id === order.lotId) : stock.lots;
  const missing = counted ? [] : shortages(stock.levels ?? [], moment, order.quantity);
  const there = order.quantity.minus(sum(missing.map((each) => each.quantity)));
  const { draws, short } = drawLots(lots, there, {
    method: stock.method,
    day: order.day,
    productValue: stock.value,
    productQuantity: sum(stock.lots.map((lot) => lot.quantity)),
  });
  if (short.greaterThan(zero)) missing.push({ ...moment, quantity: short });
  return { draws, missing };
}

/** The shelf after the draw; what it was worth is the last known cost. */
function withoutDrawn(
  stock: ProductStock,
  order: DrawOrder,
  drawn: readonly Part[],
  missing: readonly Shortage[],
): ProductStock {
  const next = drawn.reduce(take, stock);
  const last = drawn.at(-1);
  const fallbackUnitCost = last?.value.greaterThan(zero)
    ? last.value.dividedBy(last.quantity)
    : next.fallbackUnitCost;
  if (!next.levels) return { ...next, fallbackUnitCost };
  const moment = { at: order.happenedAt, on: order.day };
  const levels = lowered(next.levels, moment, order.quantity, missing);
  return { ...next, fallbackUnitCost, levels };
}

/** What the book lacks comes out of `correction`, when it was missing. */
function beyondTheBook(stock: ProductStock, missing: readonly Shortage[]) {
  const unitCost = unitCostNow(stock);
  const quantity = sum(missing.map((each) => each.quantity));
  const value = round((unitCost ?? zero).times(quantity), ledgerPlaces, 'half_even');
  const part: Part = { lotId: stock.shortfallLotId, quantity, value };
  let left = part;
  const movements = missing.map(({ at, on, quantity: short }): MovementDraft => {
    const worth = valueOfPart(left.value, short, left.quantity);
    const piece = { ...part, quantity: short, value: worth };
    left = { ...left, quantity: left.quantity.minus(short), value: left.value.minus(worth) };
    return { ...fromCorrection(stock, piece, 'shortfall'), happened: { at, on } };
  });
  return { unitCost, part, movements };
}

function isWithoutCost(stock: ProductStock, part: Part): boolean {
  if (stock.method === 'average') return stock.value.isZero();
  return stock.lots.some((lot) => lot.id === part.lotId && lot.value.isZero());
}

function fromCorrection(
  stock: ProductStock,
  { lotId, quantity, value }: Part,
  reason: Reason,
): MovementDraft {
  const way = { from: 'correction', to: 'shelf' } as const;
  return { productId: stock.productId, lotId, ...way, quantity, value, reason };
}

function leaving(stock: ProductStock, order: DrawOrder, part: Part): MovementDraft {
  return {
    productId: stock.productId,
    ...part,
    from: 'shelf',
    to: order.to,
    ...(order.toPour ? { toPour: order.toPour } : {}),
    ...(order.reason ? { reason: order.reason } : {}),
  };
}

function take(stock: ProductStock, part: Part): ProductStock {
  const lot = stock.lots.find((each) => each.id === part.lotId);
  if (!lot) return stock;
  return withLot(stock, lot, { quantity: part.quantity.negated(), value: part.value.negated() });
}

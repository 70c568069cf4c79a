/** What the book knows of one product on the shelf, as a value that a posting works on. */
import type { CostingMethod, LotBalance } from '../costing.js';
import { sum, zero, type Decimal } from '../decimal.js';
import type { ShelfLevel } from './levels.js';

/** A pour beyond the book that no delivery or count has explained yet. */
export interface OpenShortfall {
  /** Instant of the pour (UTC, ISO 8601). */
  readonly at: string;
  /** Studio day of the pour, YYYY-MM-DD. */
  readonly on: string;
  readonly quantity: Decimal;
}

/** One product's shelf; quantities in its stock unit, values in the studio's currency. */
export interface ProductStock {
  readonly productId: string;
  readonly method: CostingMethod;
  /** Lots that hold something. */
  readonly lots: readonly LotBalance[];
  /** Value of all of them; under `average` the lots' own values say nothing. */
  readonly value: Decimal;
  readonly shortfalls: readonly OpenShortfall[];
  /** The product's shortfall lot, whose balance is always zero. */
  readonly shortfallLotId: string;
  /** Instant of the last count (UTC, ISO 8601), or null. */
  readonly lastCountedAt: string | null;
  /** Cost of one unit where no lot tells it: last lot drawn, newest delivery, pack's list. */
  readonly fallbackUnitCost: Decimal | null;
  /** What the shelf held at past instants, for entries that come late. */
  readonly levels?: readonly ShelfLevel[];
}

/** How much the book has on the shelf. */
export function onHand(stock: ProductStock): Decimal {
  return sum(stock.lots.map((lot) => lot.quantity));
}

/** How much was poured beyond the book and is not explained yet. */
export function shortfallOpen(stock: ProductStock): Decimal {
  return sum(stock.shortfalls.map((shortfall) => shortfall.quantity));
}

/** Shortfalls in the order in which they are explained. */
export function oldestFirst(shortfalls: readonly OpenShortfall[]): OpenShortfall[] {
  return [...shortfalls].sort((a, b) => (a.at === b.at ? 0 : a.at < b.at ? -1 : 1));
}

/** True when it happened before a count that already stands. */
export function isCounted(stock: ProductStock, happenedAt: string): boolean {
  return stock.lastCountedAt !== null && happenedAt < stock.lastCountedAt;
}

/** The shelf after so much of a lot went or came; empty lots leave the list. */
export function withLot(
  stock: ProductStock,
  lot: Omit<LotBalance, 'quantity' | 'value'>,
  change: { readonly quantity: Decimal; readonly value: Decimal },
): ProductStock {
  const known = stock.lots.find((each) => each.id === lot.id);
  const next: LotBalance = {
    id: lot.id,
    expiresOn: lot.expiresOn,
    receivedOn: lot.receivedOn,
    quantity: (known?.quantity ?? zero).plus(change.quantity),
    value: (known?.value ?? zero).plus(change.value),
  };
  const others = stock.lots.filter((each) => each.id !== lot.id);
  return {
    ...stock,
    lots: next.quantity.isZero() ? others : [...others, next],
    value: stock.value.plus(change.value),
  };
}

/**
 * Cost of one unit now: the average under `average`; else what the book falls back to; else that
 * of the newest lot with a cost; null when nobody has said a price yet.
 */
export function unitCostNow(stock: ProductStock): Decimal | null {
  const quantity = onHand(stock);
  if (stock.method === 'average' && quantity.greaterThan(zero) && !stock.value.isZero()) {
    return stock.value.dividedBy(quantity);
  }
  if (stock.fallbackUnitCost?.greaterThan(zero)) return stock.fallbackUnitCost;
  if (stock.method === 'average') return null;
  const [newest] = stock.lots
    .filter((lot) => lot.value.greaterThan(zero))
    .sort((a, b) => (`${a.receivedOn} ${a.id}` < `${b.receivedOn} ${b.id}` ? 1 : -1));
  return newest ? newest.value.dividedBy(newest.quantity) : null;
}

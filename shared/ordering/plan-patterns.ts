/** Finds the cheapest way to buy one product over the order days, at given prices of coupling. */
import { beyondCost, missingCost, stepsCost, type PlanProduct } from './plan-problem.js';

/** One way of buying a product: steps by order day, and what it costs by itself. */
export interface Pattern {
  readonly steps: readonly number[];
  readonly cost: number;
  /** Price of the goods by order day. */
  readonly goods: readonly number[];
}

/** What coupling adds to a product's own cost, by order day. */
export interface Coupling {
  /** To one unit of money of goods. */
  readonly perGoods: readonly number[];
  /** To ordering anything at all. */
  readonly ordering: readonly number[];
}

/** A pattern from its steps. */
export function patternOf(product: PlanProduct, steps: readonly number[], soft: boolean): Pattern {
  return {
    steps,
    cost: stepsCost(product, steps, soft),
    goods: steps.map((x) => product.prices[x] ?? Infinity),
  };
}

/** Cost of a pattern with its coupling. */
export function coupledCost(pattern: Pattern, { perGoods, ordering }: Coupling): number {
  return pattern.steps.reduce((total, x, day) => {
    const goods = (pattern.goods[day] ?? 0) * (perGoods[day] ?? 0);
    return total + goods + (x > 0 ? (ordering[day] ?? 0) : 0);
  }, pattern.cost);
}

/** Least coupled cost from each order day on, by what has been bought before it. */
interface Ahead {
  /** Coupled price of 0, 1, 2, ... steps, by order day. */
  readonly buying: readonly Float64Array[];
  /** [order day][bought before]; the last row is what is beyond the needs at the end. */
  readonly least: readonly Float64Array[];
}

/**
 * The pattern of least coupled cost among all there are, by dynamic programming over what has
 * been bought before each order day (Wagner & Whitin 1958, with shortages and discounts).
 */
export function cheapestPattern(product: PlanProduct, coupling: Coupling, soft: boolean): Pattern {
  const ahead = lookAhead(product, coupling, soft);
  const steps: number[] = [];
  let bought = 0;
  ahead.buying.forEach((buying, day) => {
    let chosen = 0;
    let least = Infinity;
    for (let x = 0; bought + x < product.prices.length; x++) {
      const cost = onward(product, ahead, soft, day, bought, x, buying[x] ?? Infinity);
      if (cost < least) [least, chosen] = [cost, x];
    }
    steps.push(chosen);
    bought += chosen;
  });
  return patternOf(product, steps, soft);
}

/**
 * Every pattern whose coupled cost is at most `limit`, or the first `most` of them that are
 * found; `all` says which of the two it was.
 */
export function patternsWithin(
  product: PlanProduct,
  coupling: Coupling,
  soft: boolean,
  limit: number,
  most: number,
): { readonly patterns: readonly Pattern[]; readonly all: boolean } {
  const ahead = lookAhead(product, coupling, soft);
  const patterns: Pattern[] = [];
  const days = product.needs.length;
  const search = (steps: readonly number[], bought: number, cost: number): boolean => {
    const day = steps.length;
    if (day === days) {
      patterns.push(patternOf(product, steps, soft));
      return patterns.length < most;
    }
    for (let x = 0; bought + x < product.prices.length; x++) {
      const price = ahead.buying[day]?.[x] ?? Infinity;
      if (cost + onward(product, ahead, soft, day, bought, x, price) > limit) continue;
      const missing = missingCost(product, day, bought + x, soft);
      if (!search([...steps, x], bought + x, cost + price + missing)) return false;
    }
    return true;
  };
  return { all: search([], 0, 0), patterns };
}

/** Cost of buying x steps on a day and of the best that can follow. */
function onward(
  product: PlanProduct,
  ahead: Ahead,
  soft: boolean,
  day: number,
  bought: number,
  x: number,
  price: number,
): number {
  if (price === Infinity) return Infinity;
  const missing = missingCost(product, day, bought + x, soft);
  return price + missing + (ahead.least[day + 1]?.[bought + x] ?? Infinity);
}

function lookAhead(product: PlanProduct, coupling: Coupling, soft: boolean): Ahead {
  const days = product.needs.length;
  const most = product.prices.length - 1;
  const need = product.needs[days - 1] ?? 0;
  const buying = product.needs.map((_, day) => dayPrices(product, coupling, day));
  let next = Float64Array.from({ length: most + 1 }, (_, s) => beyondCost(product, s - need));
  const least = [next];
  for (let day = days - 1; day >= 0; day--) {
    const after = next.map((cost, s) => cost + missingCost(product, day, s, soft));
    const prices = buying[day] ?? new Float64Array(0);
    next = Float64Array.from({ length: most + 1 }, (_, before) => {
      let best = Infinity;
      for (let x = 0; before + x <= most; x++) {
        best = Math.min(best, (prices[x] ?? Infinity) + (after[before + x] ?? Infinity));
      }
      return best;
    });
    least.unshift(next);
  }
  return { buying, least };
}

/** Coupled price of 0, 1, 2, ... steps on one day; fixed ones leave no choice. */
function dayPrices(product: PlanProduct, coupling: Coupling, day: number): Float64Array {
  const last = product.needs.length - 1;
  return Float64Array.from(product.prices, (price, x) => {
    if (day === 0 && product.fixed !== undefined && product.fixed !== x) return Infinity;
    if (price === Infinity) return Infinity;
    const early = (last - day) * product.keepingADay * x;
    const ordering = x > 0 ? (coupling.ordering[day] ?? 0) : 0;
    return price * (1 + (coupling.perGoods[day] ?? 0)) + early + ordering;
  });
}

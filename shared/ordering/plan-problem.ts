/** What an order plan is worked out from: needs by order day, prices, suppliers' terms, limits. */

/**
 * One product. Everything is counted in steps, the largest content that all its packs are whole
 * multiples of; money is in the studio's currency, as float64 (the solver's; sheets and slips
 * are worked out from packs in decimals).
 */
export interface PlanProduct {
  readonly id: string;
  /** Index of its supplier. */
  readonly supplier: number;
  /** Price of buying 0, 1, 2, ... steps on one day; Infinity where packs do not make it up. */
  readonly prices: readonly number[];
  /** Steps that have to be bought up to and with each order day; never falling. */
  readonly needs: readonly number[];
  /** What the 1st, 2nd, ... step of `needs` costs when it is missing, by order day: falling. */
  readonly missing: readonly (readonly number[])[];
  /** What keeping each step beyond the last need costs until it is used: rising. */
  readonly keeping: readonly number[];
  /** What keeping one step from one order day to the next costs. */
  readonly keepingADay: number;
  /** Value of one step that is kept: its price by the list. Steps beyond `keeping` have none. */
  readonly worth: number;
  /** Steps that a person has fixed for the first order day; undefined: free. */
  readonly fixed?: number;
}

/** Terms of one supplier, money in the studio's currency. */
export interface PlanSupplier {
  readonly id: string;
  readonly minimumOrder: number;
  readonly freight: number;
  /** Freight is free from here on; null: never. */
  readonly freeFreightFrom: number | null;
}

export interface PlanProblem {
  readonly orderDays: number;
  readonly products: readonly PlanProduct[];
  readonly suppliers: readonly PlanSupplier[];
  /** Most money for all order days, freight included; null where there is no limit. */
  readonly budget: number | null;
}

/** Steps bought: [product][order day]. */
export type PlanSteps = readonly (readonly number[])[];

/** A step that is missing though it must not be. */
const FORBIDDEN = Infinity;

/**
 * What one product's steps by order day cost, coupling left out: prices, keeping what is early or
 * beyond the last need, less its worth; missing steps at their price where `soft`, else Infinity.
 */
export function stepsCost(product: PlanProduct, steps: readonly number[], soft: boolean): number {
  const last = product.needs.length - 1;
  let bought = 0;
  let cost = 0;
  steps.forEach((x, day) => {
    bought += x;
    cost += (product.prices[x] ?? Infinity) + (last - day) * product.keepingADay * x;
    cost += missingCost(product, day, bought, soft);
  });
  if (product.fixed !== undefined && steps[0] !== product.fixed) return Infinity;
  return cost + beyondCost(product, bought - (product.needs[last] ?? 0));
}

/** Price of what is missing after an order day. */
export function missingCost(
  product: PlanProduct,
  day: number,
  bought: number,
  soft: boolean,
): number {
  let cost = 0;
  const costs = product.missing[day] ?? [];
  for (let n = bought; n < (product.needs[day] ?? 0); n++) {
    cost += soft || product.fixed !== undefined ? (costs[n] ?? costs.at(-1) ?? 0) : FORBIDDEN;
  }
  return cost;
}

/** Keeping what is beyond the last need, less its worth. */
export function beyondCost(product: PlanProduct, beyond: number): number {
  let cost = 0;
  for (let n = 0; n < Math.min(beyond, product.keeping.length); n++) {
    cost += (product.keeping[n] ?? 0) - product.worth;
  }
  return cost;
}

/** Freight of an order with goods of so much: free from the supplier's step on. */
export function freightOf(supplier: PlanSupplier, goods: number, ordered: boolean): number {
  if (!ordered) return 0;
  const free = supplier.freeFreightFrom;
  return free !== null && goods >= free - 1e-6 ? 0 : supplier.freight;
}

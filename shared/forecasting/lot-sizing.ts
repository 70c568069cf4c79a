/** When to order known demand that changes from period to period. */

/** Orders by period, their cost, and the cost of every remainder of the plan. */
export interface LotPlan {
  orders: number[];
  cost: number;
  /** costToGo[t]: cheapest cost of periods t, t+1, ...; the last entry is 0. */
  costToGo: number[];
  /** nextOrder[t]: index of the order after one placed in t. */
  nextOrder: number[];
}

/**
 * Cheapest plan for fixed cost per order and holding cost per unit carried over a period end
 * (Wagner & Whitin 1958). Example: 500, 2, [90, 120, 80, 70] -> [210, 0, 150, 0], cost 1380.
 */
export function wagnerWhitin(
  demand: readonly number[],
  fixedCost: number,
  holdingCost: number,
): LotPlan {
  const n = demand.length;
  const costToGo = new Array<number>(n + 1).fill(0);
  const nextOrder = new Array<number>(n).fill(n);
  for (let t = n - 1; t >= 0; t--) {
    let best = Infinity;
    let carried = 0;
    for (let next = t + 1; next <= n; next++) {
      carried += holdingCost * demand[next - 1]! * (next - 1 - t);
      const cost = fixedCost + carried + costToGo[next]!;
      if (cost < best) {
        best = cost;
        nextOrder[t] = next;
      }
    }
    costToGo[t] = best;
  }
  const orders = new Array<number>(n).fill(0);
  for (let t = 0; t < n; t = nextOrder[t]!) {
    for (let j = t; j < nextOrder[t]!; j++) orders[t]! += demand[j]!;
  }
  return { orders, cost: costToGo[0]!, costToGo, nextOrder };
}

/** Quick rule: extend an order while its cost per period falls (Silver & Meal 1973). */
export function silverMeal(
  demand: readonly number[],
  fixedCost: number,
  holdingCost: number,
): { orders: number[]; cost: number } {
  const orders = new Array<number>(demand.length).fill(0);
  let cost = 0;
  let t = 0;
  while (t < demand.length) {
    let carried = 0;
    let span = 1;
    let average = fixedCost;
    while (t + span < demand.length) {
      const more = carried + holdingCost * span * demand[t + span]!;
      if ((fixedCost + more) / (span + 1) > average) break;
      carried = more;
      span++;
      average = (fixedCost + carried) / span;
    }
    orders[t] = demand.slice(t, t + span).reduce((a, b) => a + b, 0);
    cost += fixedCost + carried;
    t += span;
  }
  return { orders, cost };
}

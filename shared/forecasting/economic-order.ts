/** Order sizes that balance the cost of ordering against the cost of holding. */

/** Fixed cost per order (money), holding cost per unit and year, demand per year (units). */
export interface OrderCosts {
  fixedCost: number;
  holdingCost: number;
  demandRate: number;
}

/** An order size in units and its cost per year (purchase left out unless prices are given). */
export interface OrderSize {
  quantity: number;
  costRate: number;
}

/** Economic order quantity sqrt(2 K D / h) (Harris 1913). Example: 8, 0.225, 1300 -> 304.0468. */
export function economicOrder(of: OrderCosts): OrderSize {
  const quantity = Math.sqrt((2 * of.fixedCost * of.demandRate) / of.holdingCost);
  return { quantity, costRate: orderCostRate(of, quantity) };
}

/** Cost per year K D / Q + h Q / 2 of any order size. Example: Q 250 -> 69.725. */
export function orderCostRate(of: OrderCosts, quantity: number): number {
  return (of.fixedCost * of.demandRate) / quantity + (of.holdingCost * quantity) / 2;
}

/**
 * With shortages that wait at `stockoutCost` per unit and year: Q = sqrt(2KD(h+p)/(hp)), share of
 * the demand that waits h/(h+p) (Snyder & Shen 2019, section 3.5).
 */
export function economicOrderWithBackorders(
  of: OrderCosts,
  stockoutCost: number,
): OrderSize & { waitingShare: number } {
  const both = of.holdingCost + stockoutCost;
  const base = 2 * of.fixedCost * of.demandRate;
  return {
    quantity: Math.sqrt((base * both) / (of.holdingCost * stockoutCost)),
    waitingShare: of.holdingCost / both,
    costRate: Math.sqrt((base * of.holdingCost * stockoutCost) / both),
  };
}

/** Order that arrives at a rate instead of at once: holding cost counts for 1 - D/P of it. */
export function economicProduction(
  of: OrderCosts,
  productionRate: number,
): OrderSize & { cycle: number; runTime: number; mostInStock: number } {
  const idle = 1 - of.demandRate / productionRate;
  const { quantity, costRate } = economicOrder({ ...of, holdingCost: of.holdingCost * idle });
  return {
    quantity,
    costRate,
    cycle: quantity / of.demandRate,
    runTime: quantity / productionRate,
    mostInStock: quantity * idle,
  };
}

/** Price steps: unitCosts[i] holds from breakpoints[i] on (the first breakpoint is 0). */
export interface PriceSteps {
  fixedCost: number;
  /** Holding cost as a share of the unit price per year. */
  holdingRate: number;
  demandRate: number;
  breakpoints: readonly number[];
  unitCosts: readonly number[];
}

/**
 * Best order when a step's price holds for the whole order: each step's economic order moved up to
 * its breakpoint; cost per year includes the purchase (Snyder & Shen 2019, section 3.4.1).
 */
export function allUnitsDiscount(of: PriceSteps): OrderSize & { region: number } {
  let best = { quantity: 0, costRate: Infinity, region: 0 };
  of.unitCosts.forEach((price, region) => {
    const costs = { ...of, holdingCost: of.holdingRate * price };
    const quantity = Math.max(economicOrder(costs).quantity, of.breakpoints[region]!);
    const beyond = of.breakpoints[region + 1] ?? Infinity;
    if (quantity >= beyond) return;
    const costRate = orderCostRate(costs, quantity) + price * of.demandRate;
    if (costRate < best.costRate) best = { quantity, costRate, region };
  });
  return best;
}

/**
 * Best order when a step's price holds only for the units beyond its breakpoint
 * (Snyder & Shen 2019, section 3.4.2).
 */
export function incrementalDiscount(of: PriceSteps): OrderSize & { region: number } {
  let best = { quantity: 0, costRate: Infinity, region: 0 };
  let paidBefore = 0;
  of.unitCosts.forEach((price, region) => {
    const from = of.breakpoints[region]!;
    if (region > 0) {
      paidBefore += of.unitCosts[region - 1]! * (from - of.breakpoints[region - 1]!);
    }
    const extra = paidBefore - price * from;
    const holdingCost = of.holdingRate * price;
    const { quantity } = economicOrder({ ...of, fixedCost: of.fixedCost + extra, holdingCost });
    if (quantity < from || quantity >= (of.breakpoints[region + 1] ?? Infinity)) return;
    const costRate =
      price * of.demandRate +
      (of.holdingRate * extra) / 2 +
      Math.sqrt(2 * (of.fixedCost + extra) * of.demandRate * holdingCost);
    if (costRate < best.costRate) best = { quantity, costRate, region };
  });
  return best;
}

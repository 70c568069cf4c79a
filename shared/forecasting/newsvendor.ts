/** How much to hold for one period when too much and too little both cost. */
import { type Demand, demandLoss, demandQuantile } from './demand-distribution.js';
import { betaRegularised } from './special-functions.js';
import { normalCdf, normalQuantile, normalSurvival } from './normal-distribution.js';

/** Cost of one unit left over and of one unit short. */
export interface MismatchCosts {
  overage: number;
  underage: number;
}

/** Stock for the period, what it is expected to cost and to fall short by. */
export interface NewsvendorAnswer {
  quantity: number;
  criticalRatio: number;
  expectedCost: number;
  expectedShort: number;
}

/** Cu = price - cost + penalty, Co = cost - salvage, ratio Cu/(Cu + Co), money per unit. */
export function mismatchCosts(of: {
  price: number;
  cost: number;
  salvage?: number;
  penalty?: number;
}): MismatchCosts & { criticalRatio: number } {
  const underage = of.price - of.cost + (of.penalty ?? 0);
  const overage = of.cost - (of.salvage ?? 0);
  return { underage, overage, criticalRatio: underage / (underage + overage) };
}

/** Expected cost Co E[(S-D)+] + Cu E[(D-S)+] of any stock S. */
export function mismatchCost(costs: MismatchCosts, demand: Demand, stock: number): number {
  const short = demandLoss(stock, demand);
  return costs.overage * (stock - demand.mean + short) + costs.underage * short;
}

/** Stock at the quantile Cu/(Cu + Co) of demand (Snyder & Shen 2019, section 4.3). */
export function newsvendor(costs: MismatchCosts, demand: Demand): NewsvendorAnswer {
  const criticalRatio = costs.underage / (costs.underage + costs.overage);
  const quantity = demandQuantile(criticalRatio, demand);
  return {
    quantity,
    criticalRatio,
    expectedCost: mismatchCost(costs, demand, quantity),
    expectedShort: demandLoss(quantity, demand),
  };
}

/** Newsvendor with log-normal demand: log demand has mean mu and deviation sigma. */
export function newsvendorLogNormal(
  costs: MismatchCosts,
  mu: number,
  sigma: number,
): NewsvendorAnswer {
  const criticalRatio = costs.underage / (costs.underage + costs.overage);
  const quantity = Math.exp(mu + sigma * normalQuantile(criticalRatio));
  const mean = Math.exp(mu + (sigma * sigma) / 2);
  const z = (Math.log(quantity) - mu) / sigma;
  const expectedShort = mean * normalCdf(sigma - z) - quantity * normalSurvival(z);
  const left = quantity - mean + expectedShort;
  return {
    quantity,
    criticalRatio,
    expectedShort,
    expectedCost: costs.overage * left + costs.underage * expectedShort,
  };
}

/** Newsvendor with listed demands and their probabilities: the smallest demand that covers. */
export function newsvendorListed(
  costs: MismatchCosts,
  chances: readonly { demand: number; probability: number }[],
): NewsvendorAnswer {
  const criticalRatio = costs.underage / (costs.underage + costs.overage);
  const sorted = [...chances].sort((a, b) => a.demand - b.demand);
  let reached = 0;
  let quantity = 0;
  for (const { demand, probability } of sorted) {
    quantity = demand;
    reached += probability;
    if (reached >= criticalRatio - 1e-12) break;
  }
  let expectedShort = 0;
  let left = 0;
  for (const { demand, probability } of sorted) {
    expectedShort += probability * Math.max(0, demand - quantity);
    left += probability * Math.max(0, quantity - demand);
  }
  return {
    quantity,
    criticalRatio,
    expectedShort,
    expectedCost: costs.overage * left + costs.underage * expectedShort,
  };
}

/** Binomial demand: `trials` visits, each asking for one unit with the given probability. */
export interface BinomialDemand {
  trials: number;
  probability: number;
}

/** P(X > k) of a binomial demand. */
function binomialAbove(k: number, of: BinomialDemand): number {
  if (k < 0) return 1;
  if (k >= of.trials) return 0;
  return betaRegularised(k + 1, of.trials - k, of.probability);
}

/** Expected shortage of a whole stock r under binomial demand. */
export function binomialLoss(r: number, of: BinomialDemand): number {
  const mean = of.trials * of.probability;
  const longer = binomialAbove(r - 1, { ...of, trials: of.trials - 1 });
  return Math.max(0, mean * longer - r * binomialAbove(r, of));
}

/** Smallest whole k with P(X <= k) >= p under binomial demand. */
export function binomialQuantile(p: number, of: BinomialDemand): number {
  let low = -1;
  let high = of.trials;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (1 - binomialAbove(middle, of) >= p - 1e-14) high = middle;
    else low = middle;
  }
  return high;
}

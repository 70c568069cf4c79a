/** Reorder point and order size chosen together, when demand over the lead time is uncertain. */
import { countLoss, countProbability } from './count-distributions.js';
import { findRoot } from './find-root.js';
import { normalLoss, normalQuantile, normalSecondLoss } from './normal-distribution.js';

/** Costs per order, per unit and year held and short; demand per year; lead time in years. */
export interface ReviewInput {
  fixedCost: number;
  holdingCost: number;
  stockoutCost: number;
  demandMean: number;
  demandSd: number;
  leadTime: number;
}

/** Order `quantity` whenever the position falls to `reorderPoint`. */
export interface ReviewPolicy {
  reorderPoint: number;
  quantity: number;
}

function leadDemand(of: ReviewInput): { mean: number; sd: number } {
  return { mean: of.demandMean * of.leadTime, sd: of.demandSd * Math.sqrt(of.leadTime) };
}

/** Economic order quantity and the newsvendor stock over the lead time (Snyder & Shen 5.3.1). */
export function orderPlusSafety(of: ReviewInput): ReviewPolicy {
  const { mean, sd } = leadDemand(of);
  const { holdingCost: h, stockoutCost: p } = of;
  return {
    reorderPoint: mean + sd * normalQuantile(p / (h + p)),
    quantity: Math.sqrt((2 * of.fixedCost * of.demandMean) / h),
  };
}

/** Cost per unit of time of holding and shortage at a position y: h E[(y-D)+] + p E[(D-y)+]. */
function positionCost(of: ReviewInput, y: number): number {
  const { mean, sd } = leadDemand(of);
  const short = sd * normalLoss((y - mean) / sd);
  return of.holdingCost * (y - mean + short) + of.stockoutCost * short;
}

/** Order size with backorders, and the r at which r and r + Q cost the same (5.3.3). */
export function orderWithBackorders(of: ReviewInput): ReviewPolicy {
  const { mean, sd } = leadDemand(of);
  const { holdingCost: h, stockoutCost: p } = of;
  const quantity = Math.sqrt((2 * of.fixedCost * of.demandMean * (h + p)) / (h * p));
  const gap = (r: number): number => positionCost(of, r) - positionCost(of, r + quantity);
  return { quantity, reorderPoint: findRoot(gap, mean - quantity - 10 * sd, mean + 10 * sd) };
}

/**
 * Iterates Q = sqrt(2D(K + p n(r))/h) and r = quantile 1 - hQ/(pD) of the lead-time demand, with
 * n(r) the expected shortage of a cycle (Hadley & Whitin 1963; Snyder & Shen 2019, 5.3.2).
 */
export function expectedShortagePolicy(of: ReviewInput): ReviewPolicy & { costRate: number } {
  const { mean, sd } = leadDemand(of);
  const { holdingCost: h, stockoutCost: p, demandMean: d, fixedCost: k } = of;
  let quantity = Math.sqrt((2 * k * d) / h);
  let reorderPoint = mean;
  let short = 0;
  for (let i = 0; i < 500; i++) {
    const z = normalQuantile(Math.max(1e-12, 1 - (h * quantity) / (p * d)));
    reorderPoint = mean + sd * z;
    short = sd * normalLoss(z);
    const next = Math.sqrt((2 * d * (k + p * short)) / h);
    const moved = Math.abs(next - quantity);
    quantity = next;
    if (moved < 1e-13 * quantity) break;
  }
  const costRate = h * (reorderPoint - mean + quantity / 2) + (d * (k + p * short)) / quantity;
  return { reorderPoint, quantity, costRate };
}

/** Iterates n(r) = hQ/(h+p) and Q = sqrt(2(KD + (h+p) n2(r))/h) (Snyder & Shen 2019, 5.3.4). */
export function lossFunctionPolicy(of: ReviewInput): ReviewPolicy {
  const { mean, sd } = leadDemand(of);
  const { holdingCost: h, stockoutCost: p, demandMean: d, fixedCost: k } = of;
  let quantity = Math.sqrt((2 * k * d) / h);
  let reorderPoint = mean;
  for (let i = 0; i < 500; i++) {
    const wanted = (h * quantity) / (h + p);
    const z = findRoot((x) => sd * normalLoss(x) - wanted, -wanted / sd - 1, 38);
    reorderPoint = mean + sd * z;
    const second = sd * sd * normalSecondLoss(z);
    const next = Math.sqrt((2 * (k * d + (h + p) * second)) / h);
    const moved = Math.abs(next - quantity);
    quantity = next;
    if (moved < 1e-13 * quantity) break;
  }
  return { reorderPoint, quantity };
}

/** Exact cost per year of any policy under normal demand: (KD + integral of g over (r, r+Q])/Q. */
export function reviewCostRate(of: ReviewInput, policy: ReviewPolicy): number {
  const { mean, sd } = leadDemand(of);
  const { reorderPoint: r, quantity: q } = policy;
  const second = (y: number): number => sd * sd * normalSecondLoss((y - mean) / sd);
  const held = of.holdingCost * q * (r + q / 2 - mean);
  const short = (of.holdingCost + of.stockoutCost) * (second(r) - second(r + q));
  return (of.fixedCost * of.demandMean + held + short) / q;
}

/** Costs and Poisson demand per period; lead time in periods. */
export interface PoissonReview {
  fixedCost: number;
  holdingCost: number;
  stockoutCost: number;
  demandMean: number;
  leadTime: number;
}

function countCost(of: PoissonReview, mean: number, y: number): number {
  const short = y >= 0 ? countLoss(y, { mean, variance: mean }) : mean - y;
  return of.holdingCost * (y - mean + short) + of.stockoutCost * short;
}

/** Exact best whole r and Q under Poisson demand (Federgruen & Zheng 1992). */
export function poissonReviewPolicy(of: PoissonReview): ReviewPolicy & { costRate: number } {
  const mean = of.demandMean * of.leadTime;
  const g = (y: number): number => countCost(of, mean, y);
  let top = 0;
  while (g(top + 1) < g(top)) top++;
  let reorderPoint = top - 1;
  let quantity = 1;
  let sum = of.fixedCost * of.demandMean + g(top);
  for (;;) {
    const below = g(reorderPoint);
    const above = g(reorderPoint + quantity + 1);
    if (Math.min(below, above) >= sum / quantity) break;
    sum += Math.min(below, above);
    if (below <= above) reorderPoint--;
    quantity++;
  }
  return { reorderPoint, quantity, costRate: sum / quantity };
}

/** Order up to `top` when the position at review is at or below `bottom`. */
export interface TwoLevelPolicy {
  bottom: number;
  top: number;
  costRate: number;
}

/** Exact best (s, S) under Poisson demand, reviewed every period, no lead time (by search). */
export function poissonTwoLevel(of: Omit<PoissonReview, 'leadTime'>): TwoLevelPolicy {
  const mean = of.demandMean;
  const g = (y: number): number => countCost({ ...of, leadTime: 1 }, mean, y);
  let low = 0;
  while (g(low + 1) < g(low)) low++;
  const best: TwoLevelPolicy = { bottom: low - 1, top: low, costRate: Infinity };
  const reach = Math.ceil(
    low + 6 * Math.sqrt(mean) + Math.sqrt((2 * of.fixedCost * mean) / of.holdingCost) * 2,
  );
  const renewals = renewalCounts(mean, 2 * reach + 2);
  for (let top = low; top <= reach; top++) {
    let cost = of.fixedCost;
    let cycle = 0;
    for (let bottom = top - 1; bottom >= -low - 1; bottom--) {
      const m = renewals[top - bottom - 1]!;
      cost += m * g(bottom + 1);
      cycle += m;
      const costRate = cost / cycle;
      if (costRate < best.costRate)
        [best.bottom, best.top, best.costRate] = [bottom, top, costRate];
    }
  }
  return best;
}

/** Expected number of reviews at which a drop of exactly j has been reached. */
function renewalCounts(mean: number, size: number): number[] {
  const p = Array.from({ length: size }, (_, k) => countProbability(k, { mean, variance: mean }));
  const out: number[] = [];
  for (let j = 0; j < size; j++) {
    let sum = j === 0 ? 1 : 0;
    for (let l = 1; l <= j; l++) sum += p[l]! * out[j - l]!;
    out.push(sum / (1 - p[0]!));
  }
  return out;
}

/**
 * Power approximation of (s, S) for normal demand and no lead time (Ehrhardt & Mosier 1984):
 * Q = 1.30 mu^0.494 (K/h)^0.506 (1 + sd^2/mu^2)^0.116,
 * s = 0.973 mu + sd (0.183/z + 1.063 - 2.192 z), z = sqrt(Q h/(p sd)), S = s + Q.
 */
export function powerApproximation(of: Omit<ReviewInput, 'leadTime'>): {
  bottom: number;
  top: number;
} {
  const { demandMean: mu, demandSd: sd, holdingCost: h, stockoutCost: p } = of;
  const quantity =
    1.3 * mu ** 0.494 * (of.fixedCost / h) ** 0.506 * (1 + (sd * sd) / (mu * mu)) ** 0.116;
  const z = Math.sqrt((quantity * h) / (p * sd));
  const bottom = 0.973 * mu + sd * (0.183 / z + 1.063 - 2.192 * z);
  return { bottom, top: bottom + quantity };
}

/** Share of demand served from the shelf, and the stock that reaches a wanted share. */
import { type Demand, type DemandFamily, demandLoss } from './demand-distribution.js';
import { findRoot } from './find-root.js';

/** Fill rates of an order size Q at a reorder point, continuous review. */
export interface FillRates {
  /** Expected units short per order. */
  shortPerOrder: number;
  /** 1 - shortage per order / Q. */
  simple: number;
  /** The same without counting a shortage twice that outlasts the next order. */
  exact: number;
  /** When demand not served is lost: Q / (Q + shortage). */
  lostSales: number;
}

/** Fill rates for normal or gamma demand over the lead time (Silver, Pyke & Thomas 2017). */
export function fillRates(reorderPoint: number, orderSize: number, demand: Demand): FillRates {
  const shortPerOrder = demandLoss(reorderPoint, demand);
  const later = demandLoss(reorderPoint + orderSize, demand);
  return {
    shortPerOrder,
    simple: 1 - shortPerOrder / orderSize,
    exact: 1 - (shortPerOrder - later) / orderSize,
    lostSales: orderSize / (orderSize + shortPerOrder),
  };
}

/** Smallest stock whose `rate` reaches `target` (0 to below 1), searched around the demand. */
function smallestStock(rate: (stock: number) => number, target: number, demand: Demand): number {
  const sd = Math.sqrt(Math.max(demand.variance, 1e-300));
  let low = demand.mean - 4 * sd;
  let high = demand.mean + 4 * sd;
  while (rate(low) > target && low > -1e12) low -= 4 * sd + demand.mean;
  while (rate(high) < target && high < 1e12) high += 4 * sd + demand.mean;
  return findRoot((stock) => rate(stock) - target, low, high);
}

/** Reorder point whose fill rate of the wanted kind is `target`. */
export function reorderPointForFill(
  target: number,
  orderSize: number,
  demand: Demand,
  kind: 'simple' | 'exact' | 'lostSales',
): number {
  return smallestStock((r) => fillRates(r, orderSize, demand)[kind], target, demand);
}

/** Demand per period that adds up over periods: mean d t, variance sd^2 t. */
export interface PeriodDemand {
  mean: number;
  sd: number;
  family: DemandFamily;
}

function over(of: PeriodDemand, periods: number): Demand {
  return { family: of.family, mean: of.mean * periods, variance: of.sd ** 2 * periods };
}

/**
 * Fill rate of ordering up to S every R periods with lead time L, shortages waiting:
 * 1 - (E[(D_{L+R} - S)+] - E[(D_L - S)+]) / E[D_R] (Silver, Pyke & Thomas 2017; Teunter 2009).
 */
export function periodicFillRate(
  orderUpTo: number,
  of: PeriodDemand,
  leadTime: number,
  review: number,
): number {
  const late = demandLoss(orderUpTo, over(of, leadTime + review));
  const early = leadTime > 0 ? demandLoss(orderUpTo, over(of, leadTime)) : Math.max(0, -orderUpTo);
  return 1 - (late - early) / (of.mean * review);
}

/** Order-up-to level whose periodic fill rate is `target`. */
export function orderUpToForFill(
  target: number,
  of: PeriodDemand,
  leadTime: number,
  review: number,
): number {
  const demand = over(of, leadTime + review);
  return smallestStock((s) => periodicFillRate(s, of, leadTime, review), target, demand);
}

/** Places and weights of the 20-point Gauss-Legendre rule on [0, 1], found by Newton's method. */
const GAUSS = gaussLegendre(20);

/** Pieces of the order quantity the average is taken over. */
const PIECES = 16;

/**
 * Fill rate of ordering whole packs of q at or below s every R periods: the average of the
 * periodic fill rate over S uniform in (s, s + q] (Hadley & Whitin 1963), by Gauss-Legendre
 * quadrature of 16 pieces.
 */
export function packFillRate(
  reorderPoint: number,
  pack: number,
  of: PeriodDemand,
  leadTime: number,
  review: number,
): number {
  let sum = 0;
  for (let piece = 0; piece < PIECES; piece++) {
    for (const { x, weight } of GAUSS) {
      const s = reorderPoint + (pack * (piece + x)) / PIECES;
      sum += (weight * periodicFillRate(s, of, leadTime, review)) / PIECES;
    }
  }
  return sum;
}

/** Smallest reorder point whose pack fill rate is `target`. */
export function reorderPointForPackFill(
  target: number,
  pack: number,
  of: PeriodDemand,
  leadTime: number,
  review: number,
): number {
  const demand = over(of, leadTime + review);
  return smallestStock((s) => packFillRate(s, pack, of, leadTime, review), target, demand);
}

/** Whole packs to order at an inventory position: floor((s - IP)/q) + 1 at or below s, else 0. */
export function packsToOrder(reorderPoint: number, position: number, pack: number): number {
  return position <= reorderPoint ? Math.floor((reorderPoint - position) / pack) + 1 : 0;
}

function gaussLegendre(n: number): { x: number; weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let z = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let p = 1;
      let before = 0;
      for (let j = 0; j < n; j++) {
        [p, before] = [((2 * j + 1) * z * p - j * before) / (j + 1), p];
      }
      slope = (n * (z * p - before)) / (z * z - 1);
      const next = z - p / slope;
      if (Math.abs(next - z) < 1e-16) break;
      z = next;
    }
    return { x: (1 - z) / 2, weight: 1 / ((1 - z * z) * slope * slope) };
  });
}

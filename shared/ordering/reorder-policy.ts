/** When to order a product and up to what, from its demand until the order after next is there. */
import type { Demand } from '../forecasting/demand-distribution.js';
import { cautiousQuantile } from '../forecasting/protection-demand.js';
import { Problem } from '../problems/problem.js';
import type { LeadTime } from './lead-time.js';
import { oneIn, plainQuantity } from './words.js';

/** What a product's policy is asked for with. */
export interface PolicyTerms {
  /** Probability that an order cycle goes by without running out, 0 to 1 (exclusive). */
  readonly serviceLevel: number;
  readonly leadTime: LeadTime;
  /** Days between orders. */
  readonly reviewDays: number;
  /** Content of the pack that is bought, in the stock unit; null: none is known. */
  readonly pack: number | null;
  readonly unit: string;
}

/** A reorder point with what it rests on; quantities in the stock unit. */
export interface ReorderPolicy {
  readonly point: number;
  /** Where an order brings it: one pack above the point. */
  readonly upTo: number;
  readonly safetyStock: number;
  readonly days: number;
  readonly mean: number;
  readonly sentence: string;
}

/** Where a product and the studio name none. Common practice, no source. */
export const USUAL_SERVICE_LEVEL = 0.95;
/** An order is thought about once a week. Common practice, no source. */
export const USUAL_REVIEW_DAYS = 7;
/** Above this no stock is enough for long, below this none is kept. */
const HIGHEST_LEVEL = 0.9999;
const LOWEST_LEVEL = 0.5;

/**
 * A service level that stock can reach.
 * @throws Problem `service_level_out_of_reach` below 0.5 or above 0.9999
 */
export function reachableLevel(level: number): number {
  if (level >= LOWEST_LEVEL && level <= HIGHEST_LEVEL) return level;
  throw new Problem(
    'service_level_out_of_reach',
    { serviceLevel: `${level}`, lowest: `${LOWEST_LEVEL}`, highest: `${HIGHEST_LEVEL}` },
    '/serviceLevel',
  );
}

/**
 * The reorder point is the quantile of demand over lead time and review at the service level
 * (Silver, Pyke & Thomas 2017: periodic review); safety stock is point - mean.
 */
export function reorderPolicy(demand: Demand, terms: PolicyTerms): ReorderPolicy {
  const level = Math.min(HIGHEST_LEVEL, Math.max(LOWEST_LEVEL, terms.serviceLevel));
  const days = terms.leadTime.days + terms.reviewDays;
  const point = demand.mean > 0 ? cautiousQuantile(level, demand) : 0;
  return {
    point,
    upTo: point + (terms.pack ?? 0),
    safetyStock: Math.max(0, point - demand.mean),
    days,
    mean: demand.mean,
    sentence: explained(demand.mean, point, days, { ...terms, serviceLevel: level }),
  };
}

function explained(mean: number, point: number, days: number, terms: PolicyTerms): string {
  const { leadTime, unit, reviewDays, serviceLevel } = terms;
  if (!(mean > 0)) return 'No use is expected, so nothing is reordered by itself.';
  const spread = Math.sqrt(leadTime.variance);
  const give = spread >= 0.5 ? `, give or take ${plainQuantity(spread)}` : '';
  const learned = {
    deliveries: `learned from ${leadTime.receipts} deliveries`,
    declared: 'as declared',
    usual: 'assumed, since nobody has declared it',
  }[leadTime.from];
  return (
    `Looked at every ${reviewDays} days, and a delivery takes ${plainQuantity(leadTime.days)} ` +
    `days${give} (${learned}). In such ${plainQuantity(days)} days about ` +
    `${plainQuantity(mean)} ${unit} are used, and more than ${plainQuantity(point)} ${unit} ` +
    `only about one time in ${oneIn(1 - serviceLevel)}: order at ${plainQuantity(point)} ${unit}.`
  );
}

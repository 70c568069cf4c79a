/** Backtest errors of all products together: what a single short history cannot show. */
import { scaleOf } from './accuracy-scale.js';
import type { Ensemble, Origin } from './ensemble.js';
import { normalQuantile } from './normal-distribution.js';

/**
 * Errors (actual - forecast) / scale of many products by lead, sorted; index 0 = one period
 * ahead. `rms` is their root mean square over all leads.
 */
export interface ErrorPool {
  byLead: Float64Array[];
  rms: number;
}

/** Fewer pooled errors than this say nothing about a tail. */
const FEWEST = 20;
/** Own errors worth as much as the pool's in the width of a product. */
const OWN_WEIGHT = 12;

/** Gathers the scaled errors of the backtests of many products. */
export function poolErrors(backtests: Iterable<readonly Origin[]>): ErrorPool {
  const leads: number[][] = [];
  let squares = 0;
  let count = 0;
  for (const origins of backtests) {
    for (const { forecast, actual, scale } of origins) {
      if (!(scale > 0)) continue;
      forecast.forEach((f, j) => {
        const error = (actual[j]! - f) / scale;
        (leads[j] ??= []).push(error);
        squares += error * error;
        count++;
      });
    }
  }
  return {
    byLead: leads.map((errors) => Float64Array.from(errors).sort()),
    rms: count > 0 ? Math.sqrt(squares / count) : 0,
  };
}

/** Quantile with linear interpolation between the sorted values (Hyndman & Fan type 7). */
export function sortedQuantile(sorted: ArrayLike<number>, p: number): number {
  const at = (sorted.length - 1) * Math.min(1, Math.max(0, p));
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
}

/**
 * Pooled quantile at a lead (0 = next period) from the errors of that lead and its two
 * neighbours; beyond the longest lead of the backtest the last one. NaN when there are too few.
 */
export function poolQuantile(pool: ErrorPool, lead: number, p: number): number {
  const at = Math.min(lead, pool.byLead.length - 1);
  if (at < 0) return NaN;
  const near = [at - 1, at, at + 1].flatMap((j) => {
    const errors = pool.byLead[j];
    return errors ? [errors] : [];
  });
  const count = near.reduce((a, e) => a + e.length, 0);
  if (count < FEWEST) return NaN;
  const merged = new Float64Array(count);
  let place = 0;
  for (const errors of near) {
    merged.set(errors, place);
    place += errors.length;
  }
  return sortedQuantile(merged.sort(), p);
}

/** Pooled quantiles of every lead for some probabilities, worked out once for all products. */
export function poolTable(
  pool: ErrorPool,
  h: number,
  probabilities: readonly number[],
): number[][] {
  return Array.from({ length: h }, (_, j) => probabilities.map((p) => poolQuantile(pool, j, p)));
}

/** How wide a product's errors are beside the pool's: own share n/(n + 12). */
export function ownWidth(origins: readonly Origin[], pool: ErrorPool): number {
  let squares = 0;
  let count = 0;
  for (const { forecast, actual, scale } of origins) {
    if (!(scale > 0)) continue;
    forecast.forEach((f, j) => {
      squares += ((actual[j]! - f) / scale) ** 2;
      count++;
    });
  }
  if (!(pool.rms > 0)) return 1;
  const share = count / (count + OWN_WEIGHT);
  const own = count > 0 ? squares / count : 0;
  return Math.sqrt((share * own + (1 - share) * pool.rms ** 2) / pool.rms ** 2);
}

/**
 * Quantiles of each lead: f + z sd/2 + scale r Q/2, the average of the smoothing model's normal
 * quantile and the pooled one (`table` from poolTable; NaN there, or no table, leaves the model
 * alone). Never falling with the probability, never below 0 for a history that never was.
 * Result: [lead][probability] in units of the series.
 */
export function ensembleQuantiles(
  y: Float64Array,
  m: number,
  of: Ensemble,
  probabilities: readonly number[],
  pool: ErrorPool | null,
  table: readonly (readonly number[])[] = [],
): number[][] {
  const scale = scaleOf(y, m);
  const width = pool ? ownWidth(of.origins, pool) : 1;
  const floor = y.some((v) => v < 0) ? -Infinity : 0;
  return of.mean.map((f, j) => {
    let previous = -Infinity;
    return probabilities.map((p, k) => {
      const model = normalQuantile(p) * of.sd[j]!;
      const pooled = scale * width * (table[j]?.[k] ?? NaN);
      const reach = Number.isFinite(pooled) ? (model + pooled) / 2 : model;
      previous = Math.max(previous, floor, f + reach);
      return previous;
    });
  });
}

/** Interval widths that need no assumption about the shape of errors. */
import { sortedQuantile } from './error-pool.js';

/**
 * Split conformal half width: the k-th smallest |error|, k = ceil((n+1)(1-alpha)); Infinity when
 * k > n, because so few errors cannot bear so high a level (Vovk, Gammerman & Shafer 2005).
 */
export function conformalHalfWidth(errors: ArrayLike<number>, alpha: number): number {
  const sorted = Float64Array.from(errors, (e) => Math.abs(e)).sort();
  const k = Math.ceil((sorted.length + 1) * (1 - alpha) - 1e-12);
  return k > sorted.length ? Infinity : (sorted[Math.max(0, k - 1)] ?? Infinity);
}

/** Interpolated quantile 1 - alpha of |error|, for comparison with libraries that use it. */
export function interpolatedHalfWidth(errors: ArrayLike<number>, alpha: number): number {
  const sorted = Float64Array.from(errors, (e) => Math.abs(e)).sort();
  return sorted.length > 0 ? sortedQuantile(sorted, 1 - alpha) : Infinity;
}

/** Whether a series repeats itself season after season. */
import { normalQuantile } from './normal-distribution.js';

/** Autocorrelations at lags 1 to `lags` around the overall mean; all 0 for a constant series. */
export function autocorrelations(y: ArrayLike<number>, lags: number): number[] {
  const n = y.length;
  let mean = 0;
  for (let t = 0; t < n; t++) mean += y[t]! / n;
  let spread = 0;
  for (let t = 0; t < n; t++) spread += (y[t]! - mean) ** 2;
  return Array.from({ length: lags }, (_, i) => {
    const lag = i + 1;
    let sum = 0;
    for (let t = lag; t < n; t++) sum += (y[t]! - mean) * (y[t - lag]! - mean);
    return spread > 0 ? sum / spread : 0;
  });
}

/**
 * 90 % test of the autocorrelation at one season against Bartlett's error
 * sqrt((1 + 2 sum r_k^2)/n), k below the season (Fiorucci et al. 2016). False with two seasons
 * or less.
 */
export function hasSeason(y: ArrayLike<number>, m: number): boolean {
  if (m < 2 || y.length <= 2 * m) return false;
  const r = autocorrelations(y, m);
  const before = r.slice(0, -1).reduce((a, x) => a + x * x, 0);
  const error = Math.sqrt((1 + 2 * before) / y.length);
  return Math.abs(r[m - 1]!) / error > normalQuantile(0.95);
}

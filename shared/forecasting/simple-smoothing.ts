/** Simple exponential smoothing of any series, with its best alpha and first level. */
import { lowestOver } from './alpha-profile.js';

/** Level after the last observation, the alpha used and the sum of squared one-step errors. */
export interface Smoothed {
  alpha: number;
  first: number;
  level: number;
  squares: number;
}

/** One pass with a given alpha and first level (the forecast of the first observation). */
export function smoothLevel(y: ArrayLike<number>, alpha: number, first: number): Smoothed {
  let level = first;
  let squares = 0;
  for (let t = 0; t < y.length; t++) {
    const error = y[t]! - level;
    squares += error * error;
    level += alpha * error;
  }
  return { alpha, first, level, squares };
}

/**
 * The first level that makes the sum of squared errors lowest for a given alpha: errors are
 * e0_t - (1 - alpha)^t (first - y_0), linear in it.
 */
function bestFirst(y: ArrayLike<number>, alpha: number): number {
  const from = y[0] ?? 0;
  let level = from;
  let weight = 1;
  let cross = 0;
  let spread = 0;
  for (let t = 0; t < y.length; t++) {
    const error = y[t]! - level;
    cross += weight * error;
    spread += weight * weight;
    level += alpha * error;
    weight *= 1 - alpha;
  }
  return spread > 0 ? from + cross / spread : from;
}

/**
 * Sum of squared errors with the best first level, in one pass: ee - ew^2/ww, measured from the
 * first value so that no digits are lost.
 */
function leastSquares(y: ArrayLike<number>, alpha: number): number {
  let level = y[0] ?? 0;
  let weight = 1;
  let ee = 0;
  let ew = 0;
  let ww = 0;
  const rest = 1 - alpha;
  for (let t = 0; t < y.length; t++) {
    const error = y[t]! - level;
    ee += error * error;
    ew += weight * error;
    ww += weight * weight;
    level += alpha * error;
    weight *= rest;
  }
  return ww > 0 ? ee - (ew * ew) / ww : ee;
}

/**
 * Simple exponential smoothing with alpha in [low, high] and the first level by least squares,
 * or the first observation when `fromFirst` (Hyndman et al. 2008, section 5.2).
 */
export function bestSmoothing(
  y: ArrayLike<number>,
  low: number,
  high: number,
  fromFirst = false,
): Smoothed {
  const first = y[0] ?? 0;
  const squares = fromFirst
    ? (alpha: number): number => smoothLevel(y, alpha, first).squares
    : (alpha: number): number => leastSquares(y, alpha);
  const alpha = lowestOver(squares, low, high);
  return smoothLevel(y, alpha, fromFirst ? first : bestFirst(y, alpha));
}

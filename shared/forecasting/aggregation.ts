/** Forecasts from the same series added up over several periods. */
import { meanInterval } from './intermittent.js';
import { lowestOver } from './alpha-profile.js';

/** Range of alpha on the added-up series (Nikolopoulos et al. 2011 as commonly implemented). */
const ALPHA_LOW = 0.1;
const ALPHA_HIGH = 0.3;

/** Sums of `size` consecutive periods, the oldest incomplete block dropped. */
export function blockSums(y: ArrayLike<number>, size: number): Float64Array {
  const count = Math.floor(y.length / size);
  const out = new Float64Array(count);
  let t = y.length - count * size;
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let k = 0; k < size; k++) sum += y[t++]!;
    out[i] = sum;
  }
  return out;
}

/** Sum of squared one-step errors from the second value on, the first being the first level. */
function squaresFromFirst(y: Float64Array, alpha: number): number {
  let level = y[0]!;
  let squares = 0;
  for (let t = 1; t < y.length; t++) {
    const error = y[t]! - level;
    squares += error * error;
    level += alpha * error;
  }
  return squares;
}

/** The range of alpha is narrow and the squares nearly a parabola: a coarse grid is enough. */
const GRID = 3;

function rateAt(y: Float64Array, size: number): number {
  const sums = size === 1 ? y : blockSums(y, size);
  if (sums.length === 0) return 0;
  const alpha = lowestOver((a) => squaresFromFirst(sums, a), ALPHA_LOW, ALPHA_HIGH, GRID);
  let level = sums[0]!;
  for (let t = 1; t < sums.length; t++) level += alpha * (sums[t]! - level);
  return level / size;
}

function largestBlock(y: ArrayLike<number>): number {
  const interval = meanInterval(y);
  if (!Number.isFinite(interval)) return 1;
  const even = interval - Math.floor(interval) === 0.5 && Math.floor(interval) % 2 === 0;
  const whole = even ? Math.floor(interval) : Math.floor(interval + 0.5);
  return Math.max(1, Math.min(whole, y.length));
}

/**
 * ADIDA (Nikolopoulos et al. 2011): smooth the sums over the mean interval between demands
 * (ties of the rounding to even) and spread the forecast over the periods; units per period.
 */
export function adida(y: Float64Array): number {
  return rateAt(y, largestBlock(y));
}

/**
 * IMAPA (Petropoulos & Kourentzes 2015): the mean of such forecasts over every block size from
 * one period to the mean interval; units per period.
 */
export function imapa(y: Float64Array): number {
  const largest = largestBlock(y);
  let sum = 0;
  for (let size = 1; size <= largest; size++) sum += rateAt(y, size);
  return sum / largest;
}

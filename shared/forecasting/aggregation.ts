/** Forecasts from the same series added up over several periods. */
import { meanInterval } from './intermittent.js';
import { bestSmoothing } from './simple-smoothing.js';

/** Range of alpha on the added-up series (Nikolopoulos et al. 2011 as commonly implemented). */
const ALPHA_LOW = 0.1;
const ALPHA_HIGH = 0.3;

/** Sums of `size` consecutive periods, the oldest incomplete block dropped. */
export function blockSums(y: ArrayLike<number>, size: number): Float64Array {
  const count = Math.floor(y.length / size);
  const from = y.length - count * size;
  const out = new Float64Array(count);
  for (let i = 0; i < count * size; i++) out[Math.floor(i / size)]! += y[from + i]!;
  return out;
}

function rateAt(y: ArrayLike<number>, size: number): number {
  const sums = size === 1 ? y : blockSums(y, size);
  if (sums.length === 0) return 0;
  return bestSmoothing(sums, ALPHA_LOW, ALPHA_HIGH, true).level / size;
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
export function adida(y: ArrayLike<number>): number {
  return rateAt(y, largestBlock(y));
}

/**
 * IMAPA (Petropoulos & Kourentzes 2015): the mean of such forecasts over every block size from
 * one period to the mean interval; units per period.
 */
export function imapa(y: ArrayLike<number>): number {
  const largest = largestBlock(y);
  let sum = 0;
  for (let size = 1; size <= largest; size++) sum += rateAt(y, size);
  return sum / largest;
}

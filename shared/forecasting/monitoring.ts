/** Whether forecasts made earlier have gone wrong and must be looked at again. */
import { trackingSignal } from './accuracy.js';
import { binomialQuantile } from './newsvendor.js';

/** A forecast made earlier, its 80 % band, and what came. */
export interface StoredForecast {
  forecast: number;
  lower: number;
  upper: number;
  actual: number;
}

/** What is wrong with a product's forecasts; empty when nothing is. */
export type Alarm = 'too low' | 'too high' | 'band too narrow' | 'band too wide';

/** Errors that add up to more than four mean misses are no accident (Trigg 1964). */
const DRIFT = 4;
/** Periods that are judged together. */
const JUDGED = 13;
const BAND = 0.8;
const BAND_RISK = 0.01;

/**
 * Judges the last 13 periods: the tracking signal sum e / MAD beyond 4 either way, and hits of the
 * 80 % band outside the central 99 % of a binomial. Fewer than 6 periods raise nothing.
 */
export function alarms(stored: readonly StoredForecast[]): Alarm[] {
  const last = stored.slice(-JUDGED);
  if (last.length < 6) return [];
  const found: Alarm[] = [];
  const signal = trackingSignal(
    last.map((s) => s.actual),
    last.map((s) => s.forecast),
  );
  if (signal > DRIFT) found.push('too low');
  if (signal < -DRIFT) found.push('too high');
  const hits = last.filter((s) => s.actual >= s.lower && s.actual <= s.upper).length;
  const expected = { trials: last.length, probability: BAND };
  if (hits < binomialQuantile(BAND_RISK / 2, expected)) found.push('band too narrow');
  if (hits > binomialQuantile(1 - BAND_RISK / 2, expected)) found.push('band too wide');
  return found;
}

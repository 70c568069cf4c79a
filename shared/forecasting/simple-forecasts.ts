/** The plain forecasts every other method has to beat. */
import type { Forecast } from './ets-outlook.js';
import { findRoot } from './find-root.js';
import { betaRegularised } from './special-functions.js';

function steps(h: number): number[] {
  return Array.from({ length: h }, (_, j) => j + 1);
}

function meanSquare(errors: readonly number[]): number {
  return errors.length > 0 ? errors.reduce((a, e) => a + e * e, 0) / errors.length : 0;
}

/** Last value; variance h times the mean squared change. */
export function naiveForecast(y: ArrayLike<number>, h: number): Forecast {
  return seasonalNaiveForecast(y, 1, h);
}

/** The value one season earlier; variance grows with every full season ahead. */
export function seasonalNaiveForecast(y: ArrayLike<number>, m: number, h: number): Forecast {
  const n = y.length;
  const errors = Array.from({ length: Math.max(0, n - m) }, (_, i) => y[i + m]! - y[i]!);
  const square = meanSquare(errors);
  return {
    mean: steps(h).map((j) => y[n - m + ((j - 1) % m)]!),
    variance: steps(h).map((j) => square * (Math.floor((j - 1) / m) + 1)),
  };
}

/** Last value plus the mean change; the variance includes that of the mean change. */
export function driftForecast(y: ArrayLike<number>, h: number): Forecast {
  const n = y.length;
  const drift = n > 1 ? (y[n - 1]! - y[0]!) / (n - 1) : 0;
  const errors = Array.from({ length: n - 1 }, (_, i) => y[i + 1]! - y[i]! - drift);
  const square = n > 2 ? (meanSquare(errors) * (n - 1)) / (n - 2) : 0;
  return {
    mean: steps(h).map((j) => y[n - 1]! + drift * j),
    variance: steps(h).map((j) => square * j + (square * j * j) / Math.max(1, n - 1)),
  };
}

/** Mean of the history; variance s^2 (1 + 1/n). */
export function meanForecast(y: ArrayLike<number>, h: number): Forecast {
  const n = y.length;
  let mean = 0;
  for (let t = 0; t < n; t++) mean += y[t]! / n;
  let squares = 0;
  for (let t = 0; t < n; t++) squares += (y[t]! - mean) ** 2;
  const variance = n > 1 ? (squares / (n - 1)) * (1 + 1 / n) : 0;
  return { mean: steps(h).map(() => mean), variance: steps(h).map(() => variance) };
}

/** Quantile of Student's t with `degrees` degrees of freedom, for 0 < p < 1. */
export function studentQuantile(p: number, degrees: number): number {
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const x = findRoot((v) => betaRegularised(degrees / 2, 0.5, v) - 2 * tail, 0, 1);
  const t = Math.sqrt((degrees * (1 - x)) / x);
  return p > 0.5 ? t : -t;
}

/** How far forecasts were from what came: points, quantiles, intervals and distributions. */
import { meanAbsoluteChange, meanSquaredChange } from './accuracy-scale.js';
import { normalCdf, normalDensity } from './normal-distribution.js';

type Numbers = ArrayLike<number>;

function meanOver(n: number, f: (i: number) => number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += f(i);
  return n > 0 ? sum / n : NaN;
}

/** Mean absolute error in units of the series. */
export function meanAbsoluteError(actual: Numbers, forecast: Numbers): number {
  return meanOver(actual.length, (i) => Math.abs(actual[i]! - forecast[i]!));
}

/** Mean squared error in squared units. */
export function meanSquaredError(actual: Numbers, forecast: Numbers): number {
  return meanOver(actual.length, (i) => (actual[i]! - forecast[i]!) ** 2);
}

/** Mean error actual - forecast: positive when forecasts were too low. */
export function meanError(actual: Numbers, forecast: Numbers): number {
  return meanOver(actual.length, (i) => actual[i]! - forecast[i]!);
}

/** Mean absolute percentage error, in per cent; NaN when an actual is 0. */
export function meanPercentageError(actual: Numbers, forecast: Numbers): number {
  const bad = Array.from(actual).some((a) => a === 0);
  if (bad) return NaN;
  return meanOver(
    actual.length,
    (i) => (100 * Math.abs(actual[i]! - forecast[i]!)) / Math.abs(actual[i]!),
  );
}

/** Mean of 200|a-f|/(|a|+|f|), 0 when both are 0; between 0 and 200. */
export function symmetricPercentageError(actual: Numbers, forecast: Numbers): number {
  return meanOver(actual.length, (i) => {
    const both = Math.abs(actual[i]!) + Math.abs(forecast[i]!);
    return both === 0 ? 0 : (200 * Math.abs(actual[i]! - forecast[i]!)) / both;
  });
}

/** 100 sum|a-f| / sum|a|: the error as a share of everything used. */
export function weightedPercentageError(actual: Numbers, forecast: Numbers): number {
  const total = meanOver(actual.length, (i) => Math.abs(actual[i]!));
  return (100 * meanAbsoluteError(actual, forecast)) / total;
}

/** MASE: mean |a-f| over the mean |y_t - y_{t-lag}| of the history (Hyndman & Koehler 2006). */
export function scaledError(
  history: Numbers,
  lag: number,
  actual: Numbers,
  forecast: Numbers,
): number {
  return meanAbsoluteError(actual, forecast) / meanAbsoluteChange(history, lag);
}

/** RMSSE: sqrt(mean (a-f)^2 over the mean (y_t - y_{t-1})^2 of the history). */
export function scaledSquaredError(history: Numbers, actual: Numbers, forecast: Numbers): number {
  return Math.sqrt(meanSquaredError(actual, forecast) / meanSquaredChange(history));
}

/** Pinball loss of quantile forecasts: p (a-q) above, (1-p)(q-a) below, averaged. */
export function pinballLoss(p: number, actual: Numbers, quantile: Numbers): number {
  return meanOver(actual.length, (i) => {
    const miss = actual[i]! - quantile[i]!;
    return miss >= 0 ? p * miss : (p - 1) * miss;
  });
}

/** 2 mean over quantiles of (sum of pinball losses)/sum|a|. */
export function weightedQuantileLoss(
  probabilities: readonly number[],
  actual: Numbers,
  quantiles: readonly Numbers[],
): number {
  const total = meanOver(actual.length, (i) => Math.abs(actual[i]!));
  const mean = meanOver(probabilities.length, (k) =>
    pinballLoss(probabilities[k]!, actual, quantiles[k]!),
  );
  return (2 * mean) / total;
}

/** Share of actuals inside [lower, upper]. */
export function coverage(actual: Numbers, lower: Numbers, upper: Numbers): number {
  return meanOver(actual.length, (i) =>
    actual[i]! >= lower[i]! && actual[i]! <= upper[i]! ? 1 : 0,
  );
}

/** (U-L) + 2/alpha (L-a)+ + 2/alpha (a-U)+, averaged (Gneiting & Raftery 2007). */
export function intervalScore(
  alpha: number,
  actual: Numbers,
  lower: Numbers,
  upper: Numbers,
): number {
  return meanOver(actual.length, (i) => {
    const below = Math.max(0, lower[i]! - actual[i]!);
    const above = Math.max(0, actual[i]! - upper[i]!);
    return upper[i]! - lower[i]! + (2 / alpha) * (below + above);
  });
}

/** CRPS of normal forecasts: sd [z(2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)], averaged. */
export function crpsNormal(actual: Numbers, mean: Numbers, sd: Numbers): number {
  return meanOver(actual.length, (i) => {
    const z = (actual[i]! - mean[i]!) / sd[i]!;
    return sd[i]! * (z * (2 * normalCdf(z) - 1) + 2 * normalDensity(z) - 1 / Math.sqrt(Math.PI));
  });
}

/**
 * CRPS of one actual under a sample: mean|x-a| - sum_ij|x_i-x_j|/(2n^2), or with n(n-1) in place
 * of n^2 when `fair`.
 */
export function crpsSample(actual: number, sample: Numbers, fair = false): number {
  const n = sample.length;
  let pairs = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) pairs += Math.abs(sample[i]! - sample[j]!);
  }
  return meanOver(n, (i) => Math.abs(sample[i]! - actual)) - pairs / (2 * n * (fair ? n - 1 : n));
}

/** Sum of errors over the mean absolute error: beyond 4 either way the forecast has drifted. */
export function trackingSignal(actual: Numbers, forecast: Numbers): number {
  const mad = meanAbsoluteError(actual, forecast);
  return mad > 0 ? (meanError(actual, forecast) * actual.length) / mad : 0;
}

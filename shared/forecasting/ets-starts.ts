/** Where the search for the best exponential smoothing parameters begins. */
import { classicalSeason, seasonAverages, straightLine } from './classical-decomposition.js';
import type { EtsModel, EtsParameters, EtsState } from './ets-model.js';

/**
 * States before the first observation from the first seasons: season by classical decomposition
 * (a line instead of a moving average when there are fewer than three seasons), level and trend
 * by a line through the first deseasonalised observations.
 */
export function heuristicState(model: EtsModel, y: Float64Array): EtsState {
  const m = model.season === 'N' ? 1 : model.period;
  const n = y.length;
  const ratio = model.season === 'M';
  let season: number[] = [];
  let plain = y;
  if (m > 1) {
    season = startSeason(y, m, ratio);
    plain = y.map((v, t) => (ratio ? v / season[t % m]! : v - season[t % m]!));
  }
  const early = plain.subarray(0, Math.min(n, Math.max(10, 2 * m)));
  const line = straightLine(early);
  if (model.trend === 'N') {
    return { level: early.reduce((a, b) => a + b, 0) / early.length, trend: 0, season };
  }
  let level = line.intercept - line.slope;
  let trend = line.slope;
  if (model.error === 'M' && level + trend * n <= 0) {
    level = early.reduce((a, b) => a + b, 0) / early.length;
    trend = 0;
  }
  return { level, trend, season };
}

function startSeason(y: Float64Array, m: number, ratio: boolean): number[] {
  let figure: number[];
  if (y.length >= 3 * m) figure = classicalSeason(y, m, ratio);
  else {
    const line = straightLine(y);
    const trend = y.map((_, t) => line.intercept + line.slope * t);
    figure = seasonAverages(y, trend, m, ratio);
  }
  if (!ratio) return figure;
  const kept = figure.map((f) => Math.max(f, 0.05));
  const mean = kept.reduce((a, b) => a + b, 0) / m;
  return kept.map((f) => f / mean);
}

/** One starting point as shares of the allowed ranges. */
export type Start = readonly [alpha: number, betaShare: number, gammaShare: number, phi: number];

/** A few starts for the nightly run over many products. */
export const QUICK_STARTS: readonly Start[] = [[0.3, 0.1, 0.1, 0.95]];

/** Many starts, for when the highest likelihood matters more than time. */
export const THOROUGH_STARTS: readonly Start[] = [
  [0.3, 0.1, 0.1, 0.95],
  [0.05, 0.02, 0.05, 0.97],
  [0.9, 0.05, 0.3, 0.9],
  [0.7, 0.6, 0.5, 0.85],
  [0.2, 0.5, 0.7, 0.95],
  [0.5, 0.02, 0.9, 0.97],
  [0.95, 0.9, 0.05, 0.82],
  [0.02, 0.9, 0.01, 0.9],
  [0.15, 0.8, 0.3, 0.8],
  [0.6, 0.2, 0.05, 0.8],
  [0.4, 0.95, 0.15, 0.98],
  [0.8, 0.3, 0.8, 0.8],
  [0.1, 0.3, 0.95, 0.88],
  [0.98, 0.02, 0.6, 0.98],
  [0.3, 0.02, 0.4, 0.84],
  [0.03, 0.4, 0.5, 0.82],
  [0.55, 0.9, 0.02, 0.88],
  [0.08, 0.05, 0.2, 0.98],
];

/** Parameters of a start. */
export function startParameters(start: Start): EtsParameters {
  const [alpha, betaShare, gammaShare, phi] = start;
  return { alpha, beta: betaShare * alpha, gamma: gammaShare * (1 - alpha), phi };
}

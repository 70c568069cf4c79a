/** Holt's and Winters' recursions with given constants and textbook starting values. */
import { classicalSeason, centredAverage, straightLine } from './classical-decomposition.js';

/** Constants of the component form; beta or gamma null leaves trend or season out. */
export interface HoltWintersConstants {
  alpha: number;
  beta: number | null;
  gamma: number | null;
}

/** States before the observation with index `from`. */
export interface HoltWintersStart {
  level: number;
  trend: number;
  season: number[];
  from: number;
}

/** One pass: fitted values from `from` on, squared errors and the last states. */
export interface HoltWintersPass {
  fitted: number[];
  residuals: number[];
  squares: number;
  level: number;
  trend: number;
  /** season[0] belongs to the next observation. */
  season: number[];
}

/**
 * l = alpha (y - s) + (1-alpha)(l + b), b = beta (l - l') + (1-beta) b,
 * s = gamma (y - l) + (1-gamma) s; with ratios in place of differences when multiplicative
 * (Winters 1960).
 */
export function holtWinters(
  y: ArrayLike<number>,
  constants: HoltWintersConstants,
  start: HoltWintersStart,
  ratio = false,
): HoltWintersPass {
  const { alpha, beta, gamma } = constants;
  const m = start.season.length;
  const season = start.season.slice();
  let { level, trend } = start;
  const fitted: number[] = [];
  const residuals: number[] = [];
  let squares = 0;
  for (let t = start.from; t < y.length; t++) {
    const slot = (t - start.from) % Math.max(1, m);
    const s = gamma === null ? (ratio ? 1 : 0) : season[slot]!;
    const base = level + (beta === null ? 0 : trend);
    const f = ratio ? base * s : base + s;
    const before = level;
    level = alpha * (ratio ? y[t]! / s : y[t]! - s) + (1 - alpha) * base;
    if (beta !== null) trend = beta * (level - before) + (1 - beta) * trend;
    if (gamma !== null) {
      season[slot] = gamma * (ratio ? y[t]! / level : y[t]! - level) + (1 - gamma) * s;
    }
    fitted.push(f);
    residuals.push(y[t]! - f);
    squares += (y[t]! - f) ** 2;
  }
  const turn = m > 0 ? (y.length - start.from) % m : 0;
  return {
    fitted,
    residuals,
    squares,
    level,
    trend,
    season: [...season.slice(turn), ...season.slice(0, turn)],
  };
}

/** Forecasts of periods 1 to h from the last states. */
export function holtWintersForecast(of: HoltWintersPass, h: number, ratio = false): number[] {
  return Array.from({ length: h }, (_, j) => {
    const base = of.level + (j + 1) * of.trend;
    const m = of.season.length;
    if (m === 0) return base;
    return ratio ? base * of.season[j % m]! : base + of.season[j % m]!;
  });
}

/**
 * Start after the first season: season by classical decomposition of the first two seasons,
 * level and trend by a line through their moving average.
 */
export function seasonalStart(y: ArrayLike<number>, m: number, ratio: boolean): HoltWintersStart {
  const early = Array.from({ length: Math.min(y.length, 2 * m) }, (_, t) => y[t]!);
  const average = centredAverage(early, m).filter((v) => !Number.isNaN(v));
  const line = straightLine(average);
  return {
    level: line.intercept - line.slope,
    trend: line.slope,
    season: classicalSeason(early, m, ratio),
    from: m,
  };
}

/** Theta forecasts: the classic method and the dynamic optimised model. */
import { lowestOver } from './alpha-profile.js';
import { straightLine } from './classical-decomposition.js';
import type { Forecast } from './ets-outlook.js';
import { bestSmoothing } from './simple-smoothing.js';

/** A theta forecast with what it was made of. */
export interface ThetaForecast extends Forecast {
  alpha: number;
  /** Weight of the trend line: 1/2 for the classic method, 1 - 1/theta for the dynamic model. */
  trendShare: number;
  /** Half the slope of the straight line for the classic method, 0 for the dynamic model. */
  drift: number;
  sigma2: number;
}

/**
 * Classic theta method on a series without season: simple exponential smoothing plus half the
 * slope of the straight line (Assimakopoulos & Nikolopoulos 2000; Hyndman & Billah 2003):
 * f_h = level + slope/2 (h - 1 + (1 - (1 - alpha)^n)/alpha). Needs 3 observations.
 */
export function thetaForecast(y: Float64Array, h: number): ThetaForecast {
  const n = y.length;
  const smooth = bestSmoothing(y, 1e-4, 0.9999);
  const drift = straightLine(y).slope / 2;
  const reach = (1 - (1 - smooth.alpha) ** n) / smooth.alpha;
  const sigma2 = smooth.squares / Math.max(1, n - 2);
  const steps = Array.from({ length: h }, (_, j) => j);
  return {
    alpha: smooth.alpha,
    trendShare: 0.5,
    drift,
    sigma2,
    mean: steps.map((j) => smooth.level + drift * (j + reach)),
    variance: steps.map((j) => sigma2 * (1 + j * smooth.alpha ** 2)),
  };
}

interface DynamicPass {
  squares: number;
  share: number;
  level: number;
  intercept: number;
  slope: number;
}

/**
 * One pass of the dynamic theta model for a given alpha. The one-step forecast is
 * level + share (A (1-alpha)^(t-1) + B (1-(1-alpha)^t)/alpha) with A, B the running straight line;
 * first level and share are linear in the errors and solved by least squares, share in [0, 1).
 */
function dynamicPass(y: Float64Array, alpha: number): DynamicPass {
  const n = y.length;
  const rest = 1 - alpha;
  let level = alpha * y[0]!;
  let weight = rest;
  let power = rest;
  let mean = y[0]!;
  let intercept = y[0]!;
  let slope = 0;
  let [ee, ew, el, ww, wl, ll] = [0, 0, 0, 0, 0, 0];
  for (let t = 1; t < n; t++) {
    const line = intercept * power + (slope * (1 - power * rest)) / alpha;
    const error = y[t]! - level;
    if (t >= 3 || n <= 4) {
      ee += error * error;
      ew += error * weight;
      el += error * line;
      ww += weight * weight;
      wl += weight * line;
      ll += line * line;
    }
    level += alpha * error;
    weight *= rest;
    power *= rest;
    slope = ((t - 1) * slope + (6 * (y[t]! - mean)) / (t + 1)) / (t + 2);
    mean = (t * mean + y[t]!) / (t + 1);
    intercept = mean - (slope * (t + 2)) / 2;
  }
  const det = ww * ll - wl * wl;
  let share = det > 1e-12 * ww * ll ? (ww * el - wl * ew) / det : 0;
  share = Math.min(Math.max(share, 0), 1);
  const first = ww > 0 ? (ew - share * wl) / ww : 0;
  const squares =
    ee -
    2 * (first * ew + share * el) +
    first * first * ww +
    2 * first * share * wl +
    share * share * ll;
  return { squares, share, level: level + weight * first, intercept, slope };
}

/**
 * Dynamic optimised theta model on a series without season (Fiorucci, Pellegrini, Louzada,
 * Petropoulos & Koehler 2016): alpha in [0.1, 0.99], theta >= 1 and the first level by least
 * squares of the one-step errors. Needs 4 observations.
 */
export function dynamicTheta(y: Float64Array, h: number): ThetaForecast {
  const n = y.length;
  const alpha = lowestOver((a) => dynamicPass(y, a).squares, 0.1, 0.99);
  const { share, level: last, intercept, slope, squares } = dynamicPass(y, alpha);
  const sigma2 = Math.max(0, squares) / Math.max(1, n - 3);
  const mean: number[] = [];
  const variance: number[] = [];
  let level = last;
  let power = (1 - alpha) ** n;
  for (let j = 0; j < h; j++) {
    const line = intercept * power + (slope * (1 - power * (1 - alpha))) / alpha;
    const f = level + share * line;
    mean.push(f);
    variance.push(sigma2 * (1 + j * alpha * alpha));
    level += alpha * (f - level);
    power *= 1 - alpha;
  }
  return { alpha, trendShare: share, drift: 0, sigma2, mean, variance };
}

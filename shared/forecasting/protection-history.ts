/** What past sums over the protection interval say about the next one. */
import type { Ensemble, Origin } from './ensemble.js';
import { tsb } from './intermittent.js';
import { sortedQuantile } from './error-pool.js';
import {
  cautiousQuantile,
  cumulativeErrors,
  type CumulativeErrors,
  fitPowerLaw,
  protectionDemand,
  type ProtectionPool,
} from './protection-demand.js';
import { withoutSeason } from './seasonal-indices.js';
import { bestSmoothing } from './simple-smoothing.js';

/** Origins left out while the level of a smooth product settles. */
const SETTLING = 3;
/** Backtest sums worth as much as the assumption that variances are right. */
const CALIBRATION_WEIGHT = 20;
/** One sum counts for at most four standard deviations: a near-zero variance proves nothing. */
const LARGEST_RATIO = 16;
/** The quantile that is calibrated, and the backtest sums it takes to believe it half. */
const TAIL = 0.98;
const TAIL_WEIGHT = 100;
const SES_LOW = 0.02;
const SES_HIGH = 0.5;

/** Forecast made before each period by smoothing with the given alpha and first level. */
function oneStepLevels(y: ArrayLike<number>, alpha: number, first: number): Float64Array {
  const out = new Float64Array(y.length);
  let level = first;
  for (let t = 0; t < y.length; t++) {
    out[t] = level;
    level += alpha * (y[t]! - level);
  }
  return out;
}

/** Variance over a fraction of a period in proportion. */
function scaled(of: CumulativeErrors, periods: number, whole: number): CumulativeErrors {
  return { ...of, variance: (of.variance * periods) / whole };
}

/**
 * Past errors of sums over `periods` for a smooth product: level by simple smoothing of the
 * deseasonalised history; the variance is raised for the indices and parameters it was fitted
 * with (n/(n - 2 - w(m-1))) and by what the indices leave open in the coming periods.
 */
export function smoothCumulative(y: Float64Array, of: Ensemble, periods: number): CumulativeErrors {
  const whole = Math.max(1, Math.ceil(periods));
  const indices = of.members.indices;
  const n = y.length;
  if (n < SETTLING + whole) return { variance: 0, effective: 0 };
  const plain = withoutSeason(y, indices);
  const smooth = bestSmoothing(plain, 1e-4, 0.9999);
  const rates = oneStepLevels(plain, smooth.alpha, smooth.first);
  const found = indices.ratio
    ? cumulativeErrors(y, rates, whole, SETTLING, indices.values)
    : cumulativeErrors(plain, rates, whole, SETTLING);
  const fitted = 2 + indices.weight * (indices.values.length - 1);
  let open = 0;
  for (let j = 0; j < whole; j++) {
    const f = of.mean[Math.min(j, of.mean.length - 1)] ?? 0;
    open += indices.ratio ? f * f * indices.variance : indices.variance;
  }
  const variance = (found.variance * n) / Math.max(n / 3, n - fitted) + open;
  return scaled({ ...found, variance }, periods, whole);
}

/** The same for an intermittent product: forecasts by the mean of TSB and simple smoothing. */
export function intermittentCumulative(y: Float64Array, periods: number): CumulativeErrors {
  const whole = Math.max(1, Math.ceil(periods));
  if (y.length < 1 + whole) return { variance: 0, effective: 0 };
  const smooth = bestSmoothing(y, SES_LOW, SES_HIGH);
  const levels = oneStepLevels(y, smooth.alpha, smooth.first);
  const probable = new Float64Array(y.length);
  tsb(y, 0.1, 0.1, probable);
  const rates = probable.map((p, t) => (p + levels[t]!) / 2);
  return scaled(cumulativeErrors(y, rates, whole, 1), periods, whole);
}

/** One product's contribution to the pool. */
export interface ProtectionSample {
  mean: number;
  periods: number;
  wholeUnits: boolean;
  own: CumulativeErrors;
  origins: readonly Origin[];
}

/**
 * The studio's power law of variance against mean, and by how much its variances must be raised:
 * the larger of two ratios over the backtests, squared errors beside variances (shrunk to 1 by 20
 * sums) and the square of how far the 98 % quantile had to be stretched to hold 98 % of the sums
 * (shrunk to 1 by 100); never below 1.
 */
export function gatherProtection(samples: readonly ProtectionSample[]): ProtectionPool {
  const law = fitPowerLaw(samples.map((s) => ({ mean: s.mean, variance: s.own.variance })));
  let ratio = CALIBRATION_WEIGHT;
  let count = CALIBRATION_WEIGHT;
  const stretch: number[] = [];
  for (const { mean, periods, wholeUnits, own, origins } of samples) {
    const whole = Math.max(1, Math.ceil(periods));
    const pool = { law, inflation: 1 };
    const expected = protectionDemand({ mean, periods, wholeUnits, own, pool });
    if (!(expected.variance > 0)) continue;
    const room = cautiousQuantile(TAIL, expected) - expected.mean;
    for (const { forecast, actual } of origins) {
      if (forecast.length < whole) continue;
      let miss = 0;
      for (let j = 0; j < whole; j++) miss += actual[j]! - forecast[j]!;
      const found = (miss * miss * periods) / whole / expected.variance;
      ratio += Math.min(found, LARGEST_RATIO);
      count++;
      if (room > 0) stretch.push((miss * Math.sqrt(periods / whole)) / room);
    }
  }
  const share = stretch.length / (stretch.length + TAIL_WEIGHT);
  const reach = stretch.length > 0 ? sortedQuantile(Float64Array.from(stretch).sort(), TAIL) : 1;
  const tail = 1 + share * (Math.max(1, reach) ** 2 - 1);
  return { law, inflation: Math.max(1, ratio / count, tail) };
}

/** The combined forecast for intermittent and lumpy products. */
import { imapa } from './aggregation.js';
import { tsb } from './intermittent.js';
import { bestSmoothing } from './simple-smoothing.js';

/** Smoothing constants of the TSB member. */
const TSB_ALPHA = 0.1;
const TSB_BETA = 0.1;
/** Range of alpha of the smoothing member. */
const SES_LOW = 0.02;
const SES_HIGH = 0.5;

/** Rates per period of each member and their mean; `dying` when demand has stopped. */
export interface IntermittentForecast {
  rate: number;
  tsb: number;
  imapa: number;
  ses: number;
  dying: boolean;
}

/** True when the last demand is longer ago than three mean intervals and six periods. */
export function isDying(y: ArrayLike<number>): boolean {
  let last = -1;
  let count = 0;
  for (let t = 0; t < y.length; t++) {
    if (y[t]! > 0) {
      last = t;
      count++;
    }
  }
  if (count === 0) return false;
  return y.length - 1 - last > (3 * (last + 1)) / count + 6;
}

/**
 * Mean of TSB(0.1, 0.1), IMAPA and simple exponential smoothing, units per period; when the
 * product is dying the lower of TSB and smoothing, because these two go to 0.
 */
export function intermittentMix(y: Float64Array): IntermittentForecast {
  const rate = tsb(y, TSB_ALPHA, TSB_BETA).rate;
  const dying = isDying(y);
  const multiple = imapa(y);
  const ses = y.length > 0 ? Math.max(0, bestSmoothing(y, SES_LOW, SES_HIGH).level) : 0;
  return {
    rate: dying ? Math.min(rate, ses) : (rate + multiple + ses) / 3,
    tsb: rate,
    imapa: multiple,
    ses,
    dying,
  };
}

/** Demand over an interval as a distribution: the one place where counts and grams part ways. */
import { countCdf, countLoss, countQuantile } from './count-distributions.js';
import { gammaCdf, gammaFromMoments, gammaLoss, gammaQuantile } from './gamma-distribution.js';
import { normalCdf, normalLoss, normalQuantile } from './normal-distribution.js';

/**
 * Family of a distribution: `count` whole units (negative binomial, Poisson when the variance is
 * not above the mean), `gamma` grams, `normal` for textbook comparisons.
 */
export type DemandFamily = 'count' | 'gamma' | 'normal';

/** Demand over an interval, in units of the product. */
export interface Demand {
  family: DemandFamily;
  mean: number;
  variance: number;
}

/** Above this mean whole units are as good as continuous. */
const COUNT_LIMIT = 50;

/** Family for a product: whole units below 50 expected are counted, everything else is gamma. */
export function demandFamily(mean: number, wholeUnits: boolean): DemandFamily {
  return wholeUnits && mean < COUNT_LIMIT ? 'count' : 'gamma';
}

/** True when the distribution is a single point at its mean. */
function certain(of: Demand): boolean {
  return !(of.variance > 0) || !(of.mean > 0 || of.family === 'normal');
}

/** Demand that is exceeded with probability 1 - p. p <= 0 gives the least, p >= 1 Infinity. */
export function demandQuantile(p: number, of: Demand): number {
  if (certain(of) && of.family !== 'count') return Math.max(0, of.mean);
  switch (of.family) {
    case 'count':
      return countQuantile(p, of);
    case 'gamma':
      return gammaQuantile(p, gammaFromMoments(of.mean, of.variance));
    case 'normal':
      return of.mean + normalQuantile(p) * Math.sqrt(of.variance);
  }
}

/** Probability that demand is at most x. */
export function demandCdf(x: number, of: Demand): number {
  if (certain(of) && of.family !== 'count') return x >= Math.max(0, of.mean) ? 1 : 0;
  switch (of.family) {
    case 'count':
      return countCdf(x, of);
    case 'gamma':
      return x <= 0 ? 0 : gammaCdf(x, gammaFromMoments(of.mean, of.variance));
    case 'normal':
      return normalCdf((x - of.mean) / Math.sqrt(of.variance));
  }
}

/** Expected shortage E[(demand - r)+] of a stock r, in units of the product. */
export function demandLoss(r: number, of: Demand): number {
  if (certain(of) && of.family !== 'count') return Math.max(0, Math.max(0, of.mean) - r);
  switch (of.family) {
    case 'count':
      return countLoss(r, of);
    case 'gamma':
      return gammaLoss(r, gammaFromMoments(of.mean, of.variance));
    case 'normal': {
      const sd = Math.sqrt(of.variance);
      return sd * normalLoss((r - of.mean) / sd);
    }
  }
}

/** Expected left over E[(stock - demand)+] of a stock r. */
export function demandLeftOver(r: number, of: Demand): number {
  return r - of.mean + demandLoss(r, of);
}

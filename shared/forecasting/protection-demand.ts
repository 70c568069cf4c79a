/** How much may be used until the order after next arrives: mean, variance and distribution. */
import { type Demand, demandFamily, demandQuantile } from './demand-distribution.js';
import type { EtsModel, EtsParameters } from './ets-model.js';
import { errorWeights } from './ets-forecast.js';

/** Squared errors of sums over the protection interval, seen in the past. */
export interface CumulativeErrors {
  /** Mean squared error of a sum over `periods`. */
  variance: number;
  /** Origins / periods: overlapping sums count as what they are worth. */
  effective: number;
}

/** Effective origins worth as much as the studio's pooled variance. */
const OWN_WEIGHT = 5;

/**
 * Errors of sums over `periods` (a whole number >= 1) with the one-step forecast of each origin
 * held: mean of (sum_j y_{t+j} - sum_j rate_t s_{t+j})^2. `rate[t]` is the deseasonalised forecast
 * made before y[t]; `season` multiplies (all 1 when null). The first `skip` origins are left out.
 */
export function cumulativeErrors(
  y: ArrayLike<number>,
  rate: ArrayLike<number>,
  periods: number,
  skip: number,
  season: readonly number[] | null = null,
): CumulativeErrors {
  let squares = 0;
  let origins = 0;
  for (let t = skip; t + periods <= y.length; t++) {
    let sum = 0;
    let expected = 0;
    for (let j = 0; j < periods; j++) {
      sum += y[t + j]!;
      expected += rate[t]! * (season ? season[(t + j) % season.length]! : 1);
    }
    squares += (sum - expected) ** 2;
    origins++;
  }
  return {
    variance: origins > 0 ? squares / origins : 0,
    effective: origins / periods,
  };
}

/** Variance of demand as a power of its mean, fitted over the products of a studio. */
export interface PowerLaw {
  a: number;
  b: number;
}

/** Exponents outside this range are noise: Poisson at the low end, proportional at the high. */
const EXPONENT_LOW = 1;
const EXPONENT_HIGH = 2;

/**
 * V = exp(a) mean^b over products by least squares of the logarithms; products without use or
 * variance are left out. Null with fewer than 5 products.
 */
export function fitPowerLaw(
  points: readonly { mean: number; variance: number }[],
): PowerLaw | null {
  const usable = points.filter((p) => p.mean > 0 && p.variance > 0);
  if (usable.length < 5) return null;
  const x = usable.map((p) => Math.log(p.mean));
  const z = usable.map((p) => Math.log(p.variance));
  const n = usable.length;
  const mx = x.reduce((s, v) => s + v, 0) / n;
  const mz = z.reduce((s, v) => s + v, 0) / n;
  let cross = 0;
  let spread = 0;
  x.forEach((v, i) => {
    cross += (v - mx) * (z[i]! - mz);
    spread += (v - mx) ** 2;
  });
  const slope = spread > 1e-9 ? cross / spread : EXPONENT_HIGH;
  const b = Math.min(Math.max(slope, EXPONENT_LOW), EXPONENT_HIGH);
  // The mean of the variances, not of their logarithms, is what a shortage costs.
  const total = usable.reduce((s, p) => s + p.variance / p.mean ** b, 0);
  return { a: Math.log(total / n), b };
}

/** What the whole studio teaches about sums over an interval. */
export interface ProtectionPool {
  law: PowerLaw | null;
  /** Squared errors of the backtests beside the variances expected; 1 when they agree. */
  inflation: number;
}

/** What is known about use over the protection interval. */
export interface ProtectionInput {
  /** Forecast use over lead time and review together, in units of the product. */
  mean: number;
  /** Length of that interval in periods (a fraction of a period counts in proportion). */
  periods: number;
  wholeUnits: boolean;
  own: CumulativeErrors;
  pool: ProtectionPool | null;
  /** Variance of the lead time in periods^2; adds (mean/periods)^2 times it. */
  leadVariance?: number;
}

/** The distribution with the parts of its variance, for the explanation. */
export interface ProtectionDemand extends Demand {
  ownVariance: number;
  pooledVariance: number;
  ownShare: number;
  leadTimeVariance: number;
}

/**
 * Demand over the protection interval: own variance of past sums shrunk to the studio's power law,
 * V = w own + (1-w) exp(a) mean^b, w = n/(n + 5), times the studio's inflation and v/(v - 2),
 * v = n + 5, because the variance itself is estimated, plus the lead time's (mean/P)^2 Var(L).
 * Negative binomial or Poisson for whole units below 50, else gamma (Syntetos, Babai & Gardner
 * 2015; Saoud, Kourentzes & Boylan 2022). Without history the mean is as uncertain as itself.
 */
export function protectionDemand(input: ProtectionInput): ProtectionDemand {
  const mean = Math.max(0, input.mean);
  const { own, pool, periods } = input;
  const law = pool?.law ?? null;
  const pooledVariance = law && mean > 0 ? Math.exp(law.a) * mean ** law.b : mean * mean;
  const known = law !== null || own.effective < 1;
  const weight = known ? own.effective / (own.effective + OWN_WEIGHT) : 1;
  const leadTimeVariance =
    periods > 0 ? (mean / periods) ** 2 * Math.max(0, input.leadVariance ?? 0) : 0;
  const degrees = own.effective + OWN_WEIGHT;
  const estimated = (degrees / (degrees - 2)) * (pool?.inflation ?? 1);
  const spread = weight * own.variance + (1 - weight) * pooledVariance;
  return {
    family: demandFamily(mean, input.wholeUnits),
    mean,
    variance: spread * estimated + leadTimeVariance,
    ownVariance: own.variance,
    pooledVariance,
    ownShare: weight,
    leadTimeVariance,
  };
}

/** A variance of so many means already puts nearly everything on zero. */
const MOST_SKEWED = 4096;

/**
 * Stock that covers demand with probability p: the largest quantile over the variance and its
 * halves, because a skewed distribution with a tiny mean puts more and more weight on zero
 * as its variance grows, and less certainty must never ask for less stock.
 */
export function cautiousQuantile(p: number, of: Demand): number {
  const least = of.family === 'count' ? of.mean : (of.mean * of.mean) / 2;
  let variance = Math.min(of.variance, MOST_SKEWED * Math.max(of.mean, of.mean * of.mean));
  let most = demandQuantile(p, { ...of, variance });
  while (variance > 2 * least && most < Infinity) {
    variance /= 2;
    most = Math.max(most, demandQuantile(p, { ...of, variance }));
  }
  return most;
}

/**
 * Variance of the sum of periods 1 to h under an additive smoothing model:
 * sigma^2 sum_{m<h} C_m^2, C_m = 1 + c_1 + ... + c_m (Hyndman et al. 2008, section 6.6).
 */
export function etsCumulativeVariance(
  model: EtsModel,
  parameters: EtsParameters,
  sigma2: number,
  h: number,
): number {
  const c = errorWeights(model, parameters, h);
  let reach = 1;
  let sum = h > 0 ? 1 : 0;
  for (let m = 1; m < h; m++) {
    reach += c[m - 1]!;
    sum += reach * reach;
  }
  return sigma2 * sum;
}

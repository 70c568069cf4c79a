/** Poisson and negative binomial distributions: demand in whole units. */
import { betaRegularised, gammaLower, gammaUpper, logGamma } from './special-functions.js';
import { normalQuantile } from './normal-distribution.js';

/** Demand in whole units with this mean; variance <= mean means Poisson. */
export interface CountShape {
  mean: number;
  variance: number;
}

interface NegativeBinomial {
  n: number;
  p: number;
}

function negativeBinomial(of: CountShape): NegativeBinomial | null {
  if (!(of.variance > of.mean * (1 + 1e-12))) return null;
  const p = of.mean / of.variance;
  return { n: (of.mean * p) / (1 - p), p };
}

/**
 * P(X = k). Negative binomial by moments p = mean/v, n = mean p/(1-p),
 * P(k) = Gamma(n+k)/(Gamma(n) k!) p^n (1-p)^k; Poisson when the variance is not above the mean.
 */
export function countProbability(k: number, of: CountShape): number {
  if (k < 0 || k !== Math.floor(k)) return 0;
  if (of.mean <= 0) return k === 0 ? 1 : 0;
  const nb = negativeBinomial(of);
  if (!nb) return Math.exp(k * Math.log(of.mean) - of.mean - logGamma(k + 1));
  const ways = logGamma(nb.n + k) - logGamma(nb.n) - logGamma(k + 1);
  return Math.exp(ways + nb.n * Math.log(nb.p) + k * Math.log1p(-nb.p));
}

/** P(X <= k). */
export function countCdf(k: number, of: CountShape): number {
  const whole = Math.floor(k);
  if (whole < 0) return 0;
  if (of.mean <= 0) return 1;
  const nb = negativeBinomial(of);
  return nb ? betaRegularised(nb.n, whole + 1, nb.p) : gammaUpper(whole + 1, of.mean);
}

/** P(X > k), precise in the far tail. */
export function countSurvival(k: number, of: CountShape): number {
  const whole = Math.floor(k);
  if (whole < 0) return 1;
  if (of.mean <= 0) return 0;
  const nb = negativeBinomial(of);
  return nb ? betaRegularised(nb.n, whole + 1, nb.p, true) : gammaLower(whole + 1, of.mean);
}

/**
 * Quantile: the smallest whole k with P(X <= k) >= p; p >= 1 gives Infinity.
 * Example: mean 4, variance 9, p 0.95 -> 10.
 */
export function countQuantile(p: number, of: CountShape): number {
  if (!(p > 0) || of.mean <= 0) return 0;
  if (p >= 1) return Infinity;
  // P(X >= 1) is at most the mean (Markov).
  if (of.mean <= 1 - p) return 0;
  const sd = Math.sqrt(Math.max(of.variance, of.mean));
  const reached = (k: number): boolean => countCdf(k, of) >= p - 1e-14;
  let high = Math.max(0, Math.ceil(of.mean + normalQuantile(p) * sd));
  let step = Math.max(1, Math.ceil(sd / 2));
  while (!reached(high)) {
    high += step;
    step *= 2;
  }
  let low = -1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Expected shortage E[(X - r)+] in units; between whole numbers it is linear.
 * Uses E[X; X > r] = mean P(X* >= r) with X* one success (or nothing, Poisson) longer.
 */
export function countLoss(r: number, of: CountShape): number {
  if (r <= 0) return of.mean - r;
  if (of.mean <= 0) return 0;
  const whole = Math.floor(r);
  const above = countSurvival(whole, of);
  const nb = negativeBinomial(of);
  const longer = nb
    ? betaRegularised(nb.n + 1, whole, nb.p, true)
    : whole === 0
      ? 1
      : gammaLower(whole, of.mean);
  const atWhole = whole === 0 ? of.mean : of.mean * longer - whole * above;
  return Math.max(0, atWhole - (r - whole) * above);
}

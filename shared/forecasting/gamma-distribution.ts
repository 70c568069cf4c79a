/** The gamma distribution: demand in grams, never negative, skewed to the right. */
import { gammaLower, gammaUpper } from './special-functions.js';
import { normalQuantile } from './normal-distribution.js';
import { findRoot } from './find-root.js';

/** Shape a and scale s of a gamma distribution: mean a*s, variance a*s^2. */
export interface GammaShape {
  shape: number;
  scale: number;
}

/** Gamma distribution with the given mean and variance (both > 0): a = mean^2/v, s = v/mean. */
export function gammaFromMoments(mean: number, variance: number): GammaShape {
  return { shape: (mean * mean) / variance, scale: variance / mean };
}

/** P(X <= x) of a gamma distribution. */
export function gammaCdf(x: number, of: GammaShape): number {
  return gammaLower(of.shape, x / of.scale);
}

/**
 * Quantile of a gamma distribution: the x with P(X <= x) = p; p <= 0 gives 0, p >= 1 Infinity.
 * Example: shape 2.5, scale 40, p 0.95 -> 221.409953870327.
 */
export function gammaQuantile(p: number, of: GammaShape): number {
  if (!(p > 0)) return 0;
  if (p >= 1) return Infinity;
  const a = of.shape;
  // Wilson-Hilferty start, widened until it brackets the answer.
  const w = 1 - 1 / (9 * a) + normalQuantile(p) / (3 * Math.sqrt(a));
  const start = Math.max(a * w * w * w, Number.MIN_VALUE * 1e10);
  const excess =
    p < 0.5
      ? (x: number): number => gammaLower(a, x) - p
      : (x: number): number => 1 - p - gammaUpper(a, x);
  let low = start / 1.1;
  let high = start * 1.1;
  while (low > 1e-300 && excess(low) > 0) low /= 3;
  while (excess(high) < 0) high *= 1.5;
  return of.scale * findRoot(excess, low, high);
}

/** Expected shortage E[(X - r)+] = a s Q(a+1, r/s) - r Q(a, r/s), in the units of X. */
export function gammaLoss(r: number, of: GammaShape): number {
  const mean = of.shape * of.scale;
  if (r <= 0) return mean - r;
  const x = r / of.scale;
  return Math.max(0, mean * gammaUpper(of.shape + 1, x) - r * gammaUpper(of.shape, x));
}

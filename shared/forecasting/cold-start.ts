/** Forecasts a product with too short a history to speak for itself. */

/** What products of the same family are used like, per period. */
export interface FamilyPrior {
  /** Median use of the family per period, in the unit of the product. */
  mean: number;
  /** Variance of that mean between products of the family. */
  variance: number;
}

/** Rate per period and the variance of one period's use around it. */
export interface ColdStart {
  rate: number;
  variance: number;
  /** Periods the family's experience counts for. */
  priorPeriods: number;
}

/** Without a family, one's own few periods count from the first on. */
const NO_PRIOR = 0;
/** A family counts at most as much as a year of months. */
const MOST_PRIOR = 12;

/**
 * Credibility rate (kappa m0 + sum y)/(kappa + n), kappa = variance within a product / variance
 * between products (gamma-Poisson for whole units; Buhlmann & Straub 1970). A period's own
 * variance is as seen from three periods on, before that a Poisson's for whole units and the
 * square of the mean for grams; what is not known about the rate is added.
 */
export function coldStart(
  y: ArrayLike<number>,
  prior: FamilyPrior | null,
  wholeUnits: boolean,
): ColdStart {
  const n = y.length;
  let sum = 0;
  for (let t = 0; t < n; t++) sum += Math.max(0, y[t]!);
  let squares = 0;
  for (let t = 0; t < n; t++) squares += (y[t]! - sum / n) ** 2;
  const seen = n >= 3 ? squares / (n - 1) : 0;
  const expected = (mean: number): number => (wholeUnits ? mean : mean * mean);
  const m0 = prior ? Math.max(0, prior.mean) : 0;
  const within = Math.max(seen, expected(m0));
  const between = prior && prior.variance > 0 ? prior.variance : 0;
  const priorPeriods = prior
    ? Math.min(MOST_PRIOR, between > 0 ? within / between : MOST_PRIOR)
    : NO_PRIOR;
  const weight = priorPeriods + n;
  const rate = weight > 0 ? (priorPeriods * m0 + sum) / weight : 0;
  const own = n >= 3 ? Math.max(seen, wholeUnits ? rate : 0) : expected(rate);
  return { rate, variance: own * (1 + 1 / Math.max(1, weight)), priorPeriods };
}

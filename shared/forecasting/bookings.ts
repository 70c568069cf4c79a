/** Demand that is already in the diary: booked visits and what each uses. */

/** Booked visits count as so many visits of experience before a studio has its own. */
const KEEP_WEIGHT = 9;
/** A family's use per visit counts for at most so many visits of one's own. */
const MOST_FAMILY = 30;
/** Weight of the newest week in the pick-up. */
const PICK_UP_ALPHA = 0.2;

/**
 * Share of bookings that are kept: (done + 9 usual)/(booked + 9); `usual` is the studio's share
 * over all services.
 */
export function keepShare(done: number, booked: number, usual: number): number {
  return (done + KEEP_WEIGHT * usual) / (booked + KEEP_WEIGHT);
}

/** A number that is not known exactly. */
export interface Uncertain {
  mean: number;
  variance: number;
}

/** One past week, seen at the same distance: visits booked then, visits done in the end. */
export interface PastWeek {
  bookedThen: number;
  done: number;
}

/**
 * Visits still to come at this distance beyond the kept bookings: smoothed mean and variance of
 * done - keep x booked over past weeks, oldest first (additive pick-up, Zakhary, El Gayar &
 * Atiya 2008).
 */
export function pickUp(past: readonly PastWeek[], keep: number): Uncertain {
  const extra = past.map((week) => week.done - keep * week.bookedThen);
  if (extra.length === 0) return { mean: 0, variance: 0 };
  const start = Math.min(extra.length, 4);
  let mean = extra.slice(0, start).reduce((a, x) => a + x, 0) / start;
  let variance = extra.slice(0, start).reduce((a, x) => a + (x - mean) ** 2, 0) / start;
  for (const x of extra.slice(start)) {
    const miss = x - mean;
    mean += PICK_UP_ALPHA * miss;
    variance += PICK_UP_ALPHA * (miss * miss - variance);
  }
  return { mean, variance };
}

/** Visits of a week: kept bookings and pick-up, never below 0. */
export function expectedVisits(booked: number, keep: number, more: Uncertain): Uncertain {
  return {
    mean: Math.max(0, booked * keep + more.mean),
    variance: booked * keep * (1 - keep) + more.variance,
  };
}

/** What weighed visits of a service used of a product, visits without it included as 0. */
export interface UsePerVisit {
  visits: number;
  mean: number;
  variance: number;
}

/** Use per visit with the certainty it has: `weight` = own visits + what the family counts for. */
export interface ShrunkUse extends Uncertain {
  weight: number;
}

/**
 * Use per visit shrunk to the family of the service: (n m + kappa m_family)/(n + kappa),
 * kappa = variance within / variance between services, at most 30.
 */
export function shrunkUse(own: UsePerVisit, family: Uncertain, within: number): ShrunkUse {
  const kappa = family.variance > 0 ? Math.min(MOST_FAMILY, within / family.variance) : MOST_FAMILY;
  const weight = own.visits + kappa;
  const mean = weight > 0 ? (own.visits * own.mean + kappa * family.mean) / weight : family.mean;
  const variance = own.visits >= 3 ? own.variance : within;
  return { mean, variance, weight };
}

/** One service of the coming period: its visits and what each uses of the product. */
export interface ServiceDemand {
  visits: Uncertain;
  use: ShrunkUse;
}

/**
 * Use of a product from visits: sum of V u, variance E[V] v + Var[V] u^2 + V^2 v/(n + kappa)
 * over services: what differs from visit to visit, how many come, and what is not known of u.
 */
export function useFromVisits(services: readonly ServiceDemand[]): Uncertain {
  let mean = 0;
  let variance = 0;
  for (const { visits, use } of services) {
    mean += visits.mean * use.mean;
    variance += visits.mean * use.variance + visits.variance * use.mean ** 2;
    if (use.weight > 0) variance += (visits.mean ** 2 * use.variance) / use.weight;
  }
  return { mean, variance };
}

/** How the two forecasts did at this distance: root mean squared errors and their correlation. */
export interface CombinationRecord {
  statistical: number;
  visits: number;
  correlation: number;
}

/** Without a record the diary never carries more than this. */
const MOST_UNPROVED = 0.8;

/** The combination with its parts, for 'of which booked'. */
export interface CombinedDemand extends Uncertain {
  /** Share of the forecast from visits. */
  weight: number;
  ofWhichBooked: number;
}

/**
 * Weighted mean of the statistical forecast and the one from visits (Bates & Granger 1969):
 * w = (S^2 - r S B)/(S^2 + B^2 - 2 r S B) within [0, 1], half of it shrunk to the share of the
 * usual visits that are booked; without a record that share alone, at most 0.8. Never below the
 * kept bookings' own use.
 */
export function combineWithVisits(of: {
  statistical: Uncertain;
  visits: Uncertain;
  bookedUse: number;
  bookedShare: number;
  record: CombinationRecord | null;
}): CombinedDemand {
  const { statistical, visits, record } = of;
  const share = Math.min(1, Math.max(0, of.bookedShare));
  let weight = Math.min(MOST_UNPROVED, share);
  let [s2, b2, cross] = [statistical.variance, visits.variance, 0];
  if (record) {
    s2 = record.statistical ** 2;
    b2 = record.visits ** 2;
    cross = record.correlation * record.statistical * record.visits;
    const spread = s2 + b2 - 2 * cross;
    const best = spread > 0 ? Math.min(1, Math.max(0, (s2 - cross) / spread)) : share;
    weight = (best + share) / 2;
  }
  const rest = 1 - weight;
  const mean = weight * visits.mean + rest * statistical.mean;
  return {
    weight,
    mean: Math.max(mean, of.bookedUse),
    variance: weight ** 2 * b2 + rest ** 2 * s2 + 2 * weight * rest * cross,
    ofWhichBooked: of.bookedUse,
  };
}

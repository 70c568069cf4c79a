/** Doing the same again: the size of a bowl by what like bowls of the same client took. */
import { decimal, larger, roundToStep, smaller, zero, type Decimal } from './decimal.js';
import { needsOf, sizeStep_g, type BowlTaken } from './sizing.js';

/** A settled bowl of one purpose; `weighed`: what was left of it was weighed. */
export interface TakenBefore extends BowlTaken {
  readonly weighed: boolean;
}

/** What the last visits took, and what to plan. */
export interface SizeAsBefore {
  /** Visits that are looked at, four at most. */
  readonly visits: number;
  readonly low_g: Decimal;
  readonly high_g: Decimal;
  /** The one that took most came back all but empty: it may have needed more. */
  readonly ranOut: boolean;
  /** A multiple of 5 g. */
  readonly plan_g: Decimal;
}

const looksBack_visits = 4;

/**
 * The size for the next time: the most that one of the last four visits took, rounded up to 5 g,
 * and 5 g more where that one ran out. Bowls of one visit add up; those that nobody weighed count
 * only where none was weighed. Null without bowls. Common practice, no source.
 * Example: 48, 54, 51, 50 g -> 48 to 54, plan 55.
 * @param bowls of one purpose, the newest visit first
 */
export function sizeAsBefore(bowls: readonly TakenBefore[]): SizeAsBefore | null {
  const weighed = bowls.filter((bowl) => bowl.weighed);
  const counted = weighed.length > 0 ? weighed : bowls;
  const visits = [...new Set(counted.map(({ visitId }) => visitId))].slice(0, looksBack_visits);
  const needs = needsOf(counted.filter(({ visitId }) => visits.includes(visitId)));
  const [first] = needs;
  if (!first) return null;
  const grams = needs.map((need) => need.grams);
  const high_g = grams.reduce(larger, zero);
  const ranOut = needs.some((need) => need.atLeast && need.grams.equals(high_g));
  const rounded = roundToStep(high_g, sizeStep_g, 'ceiling');
  return {
    visits: visits.length,
    low_g: grams.reduce(smaller, first.grams),
    high_g,
    ranOut,
    plan_g: larger(ranOut ? rounded.plus(sizeStep_g) : rounded, least_g),
  };
}

/** No bowl is planned smaller. */
const least_g = decimal('5');

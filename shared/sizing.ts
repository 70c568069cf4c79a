/** The right size of a bowl: what like bowls took, counting those that ran out as "at least". */
import { Decimal, count, decimal, one, roundToStep, sum, zero } from './decimal.js';

/** A settled bowl of some purpose in a visit; `order` is its place among them. */
export interface BowlTaken {
  readonly visitId: string;
  readonly purpose: string;
  readonly order: number;
  readonly applied_g: Decimal;
  readonly leftover_g: Decimal;
}

/** What a head took of one purpose; a bowl that came back all but empty took at least that. */
export interface Need {
  readonly grams: Decimal;
  readonly atLeast: boolean;
}

/** A suggestion, with what it rests on. */
export interface RightSize {
  /** A multiple of 5 g. */
  readonly grams: Decimal;
  /** Heads of the narrowest group. */
  readonly bowls: number;
  /** Heads of the widest group that was looked at. */
  readonly widerBowls: number;
  /** True when a wider group had to help. */
  readonly pooled: boolean;
  /** True when the point lies beyond what was seen, since too many bowls ran out. */
  readonly lowerBound: boolean;
}

/** A bowl that comes back with less than this may have run out. */
export const spentBelow_g = decimal('5');
/** A group speaks for itself from this many heads. */
export const enoughBowls = 8;
/** Sizes are rounded up to a multiple of this. */
export const sizeStep_g = decimal('5');
/** The share of heads that a bowl should be enough for, where costs are not told. */
export const usualPoint = decimal('0.9');

/**
 * The share of heads a bowl should be enough for: cost of running out / (that + cost of what is
 * left). The newsvendor's critical ratio; 0.9 where neither is told.
 */
export function sizingPoint(costOfRunningOut: Decimal, costOfLeftover: Decimal): Decimal {
  const both = costOfRunningOut.plus(costOfLeftover);
  return both.isZero() ? usualPoint : costOfRunningOut.dividedBy(both);
}

/**
 * What each head took: bowls of the same purpose in one visit are added up; the last of them
 * tells whether it was enough (back with under 5 g: it took at least that).
 */
export function needsOf(bowls: readonly BowlTaken[]): Need[] {
  const heads = new Map<string, BowlTaken[]>();
  for (const bowl of bowls) {
    const key = JSON.stringify([bowl.visitId, bowl.purpose]);
    heads.set(key, [...(heads.get(key) ?? []), bowl]);
  }
  return [...heads.values()].map((mixed) => {
    const last = mixed.reduce((a, b) => (b.order > a.order ? b : a));
    return {
      grams: sum(mixed.map((bowl) => bowl.applied_g)),
      atLeast: last.leftover_g.lessThan(spentBelow_g),
    };
  });
}

/**
 * The point below which the share `tau` of needs lies, with "at least" needs as censored: the
 * smallest amount at which the Kaplan-Meier estimate of "needs more" falls to 1 - tau. Where it
 * never does, the largest amount seen, as a lower bound. Null without needs.
 * Source: Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958), 457-481.
 * Example: 40, 50, at least 50, 60 at 0.5 -> 50.
 */
export function pointOfNeeds(
  needs: readonly Need[],
  tau: Decimal,
): { grams: Decimal; lowerBound: boolean } | null {
  const sorted = [...needs].sort(
    (a, b) => a.grams.comparedTo(b.grams) || (a.atLeast ? 1 : 0) - (b.atLeast ? 1 : 0),
  );
  const largest = sorted.at(-1);
  if (!largest) return null;
  let needsMore: Decimal = one;
  for (const [index, need] of sorted.entries()) {
    const atRisk = count(sorted.length - index);
    if (!need.atLeast) needsMore = needsMore.times(atRisk.minus(one)).dividedBy(atRisk);
    // Noise of the divisions must not carry the point to the next head.
    if (needsMore.minus(one.minus(tau)).lessThan('1e-30')) {
      return { grams: need.grams, lowerBound: false };
    }
  }
  return { grams: largest.grams, lowerBound: true };
}

/**
 * The size of a bowl from groups of like heads, narrowest first (service, purpose, hair length,
 * density; then wider ones). A group of 8 heads or more speaks for itself; a smaller one of n is
 * pooled with the next wider: n/8 of its own point and the rest of the wider one's. Rounded up to
 * 5 g. Null where even the widest group has fewer than 8.
 */
export function rightSize(
  groups: readonly (readonly Need[])[],
  tau: Decimal = usualPoint,
): RightSize | null {
  const enough = groups.findIndex((group) => group.length >= enoughBowls);
  if (enough < 0) return null;
  let pooled = zero;
  let lowerBound = false;
  for (let index = enough; index >= 0; index -= 1) {
    const group = groups[index] ?? [];
    const point = pointOfNeeds(group, tau);
    if (!point) continue;
    const weight = index === enough ? one : new Decimal(group.length).dividedBy(enoughBowls);
    pooled = point.grams.times(weight).plus(pooled.times(one.minus(weight)));
    lowerBound = lowerBound || point.lowerBound;
  }
  return {
    grams: roundToStep(pooled, sizeStep_g, 'ceiling'),
    bowls: groups[0]?.length ?? 0,
    widerBowls: groups[enough]?.length ?? 0,
    pooled: enough > 0,
    lowerBound,
  };
}

/** Which open bowl was put on the plate: those whose weight fits, the likeliest first. */
import { decimal, type Decimal } from '../decimal.js';

/** A bowl that is open, with what is known of its weight, in grams. */
export interface OpenBowl {
  readonly id: string;
  readonly tareGrams: Decimal;
  readonly contentsGrams: Decimal;
  /** What it weighed, vessel included, when it was last on the plate. */
  readonly lastGrossGrams?: Decimal;
  readonly vesselId?: string;
}

/** An empty vessel with its known tare, in grams. */
export interface KnownVessel {
  readonly id: string;
  readonly tareGrams: Decimal;
}

/** What the weight fits. Nothing is settled on this: the person says which. */
export interface BowlFit {
  /** The one open bowl that weighs what it last weighed: it goes on by itself. */
  readonly resumes: string | undefined;
  /** Open bowls whose weight fits, the one nearest to its last weight first. */
  readonly offered: readonly string[];
  /** Vessels, in no open bowl, that weigh this when empty: a new bowl. */
  readonly newIn: readonly string[];
}

const two = decimal('2');

/**
 * Bowls with tare <= gross <= tare + contents, within two intervals. One that equals its last
 * weight within two intervals resumes by itself, unless a second one or an empty vessel does too.
 */
export function fittingBowls(
  grossGrams: Decimal,
  intervalGrams: Decimal,
  bowls: readonly OpenBowl[],
  vessels: readonly KnownVessel[],
): BowlFit {
  const play = intervalGrams.times(two);
  const near = (grams: Decimal) => grossGrams.minus(grams).abs().lessThanOrEqualTo(play);
  const fitting = bowls
    .filter(
      (bowl) =>
        grossGrams.greaterThanOrEqualTo(bowl.tareGrams.minus(play)) &&
        grossGrams.lessThanOrEqualTo(bowl.tareGrams.plus(bowl.contentsGrams).plus(play)),
    )
    .sort((a, b) => distance(a, grossGrams).comparedTo(distance(b, grossGrams)));
  const same = fitting.filter((bowl) => bowl.lastGrossGrams && near(bowl.lastGrossGrams));
  const inUse = new Set(bowls.map((bowl) => bowl.vesselId));
  const newIn = vessels.filter((vessel) => !inUse.has(vessel.id) && near(vessel.tareGrams));
  return {
    resumes: same.length === 1 && newIn.length === 0 ? same[0]!.id : undefined,
    offered: fitting.map((bowl) => bowl.id),
    newIn: newIn.map((vessel) => vessel.id),
  };
}

function distance(bowl: OpenBowl, grossGrams: Decimal): Decimal {
  const last = bowl.lastGrossGrams ?? bowl.tareGrams.plus(bowl.contentsGrams);
  return last.minus(grossGrams).abs();
}

/** The daily check of a scale: something that weighs the same every day. */
import { decimal, type Decimal } from '../decimal.js';

const two = decimal('2');

/** How today's weighing of the check weight compares with the one before, in grams. */
export interface CheckWeight {
  readonly differenceGrams: Decimal;
  /** More than two intervals apart: say so, and mark the day's bowls. */
  readonly off: boolean;
}

/** Compares two weighings of the same thing: (512, 515, 1) -> 3 g apart, off. */
export function compareCheckWeight(
  beforeGrams: Decimal,
  nowGrams: Decimal,
  intervalGrams: Decimal,
): CheckWeight {
  const differenceGrams = nowGrams.minus(beforeGrams);
  return { differenceGrams, off: differenceGrams.abs().greaterThan(intervalGrams.times(two)) };
}

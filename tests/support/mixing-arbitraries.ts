/** Random grams, densities and strengths as a bench would see them, for the laws of mixing. */
import fc from 'fast-check';
import { count, type Decimal } from '../../shared/decimal.js';

/** Grams to 0.001 between two whole numbers. */
export const someGrams = (least: number, most: number): fc.Arbitrary<Decimal> =>
  fc.integer({ min: least * 1000, max: most * 1000 }).map((each) => count(each).dividedBy(1000));

/** g/ml of creams and liquids, to 0.01. */
export const aDensity: fc.Arbitrary<Decimal> = fc
  .integer({ min: 85, max: 125 })
  .map((each) => count(each).dividedBy(100));

/** Volumes from 1 to 40 in steps of a half. */
export const aStrength: fc.Arbitrary<Decimal> = fc
  .integer({ min: 2, max: 80 })
  .map((each) => count(each).dividedBy(2));

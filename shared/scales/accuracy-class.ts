/** Accuracy classes and permissible errors of scales, OIML R 76-1 tables 3 and 6. */
import { decimal, one, type Decimal } from '../decimal.js';

export const accuracyClasses = ['I', 'II', 'III', 'IIII'] as const;
export type AccuracyClass = (typeof accuracyClasses)[number];

/** One row of table 3; e and minimum capacity are counted in verification intervals. */
export interface ClassRow {
  readonly class: AccuracyClass;
  readonly smallestIntervalGrams: Decimal;
  readonly largestIntervalGrams: Decimal | undefined;
  readonly fewestIntervals: Decimal;
  readonly mostIntervals: Decimal | undefined;
  readonly minimumCapacityIntervals: Decimal;
}

type RowText = [AccuracyClass, string, string | undefined, string, string | undefined, string];

const table3: readonly RowText[] = [
  ['I', '0.001', undefined, '50000', undefined, '100'],
  ['II', '0.001', '0.05', '100', '100000', '20'],
  ['II', '0.1', undefined, '5000', '100000', '50'],
  ['III', '0.1', '2', '100', '10000', '20'],
  ['III', '5', undefined, '500', '10000', '20'],
  ['IIII', '5', undefined, '100', '1000', '10'],
];

/** Table 3 of OIML R 76-1: which interval e and how many intervals a class may have. */
export const classRows: readonly ClassRow[] = table3.map(
  ([name, smallest, largest, fewest, most, capacity]) => ({
    class: name,
    smallestIntervalGrams: decimal(smallest),
    largestIntervalGrams: largest === undefined ? undefined : decimal(largest),
    fewestIntervals: decimal(fewest),
    mostIntervals: most === undefined ? undefined : decimal(most),
    minimumCapacityIntervals: decimal(capacity),
  }),
);

/** Largest loads, in intervals, up to which the error is 0.5 e and 1 e (table 6). */
const errorSteps: Readonly<Record<AccuracyClass, readonly [Decimal, Decimal]>> = {
  I: [decimal('50000'), decimal('200000')],
  II: [decimal('5000'), decimal('20000')],
  III: [decimal('500'), decimal('2000')],
  IIII: [decimal('50'), decimal('200')],
};

/** In service the permissible error is this many times the one at first verification. */
export const inServiceFactor: Decimal = decimal('2');

/** Rows of table 3 that a scale of this maximum and interval, both in grams, can belong to. */
export function rowsOfScale(maximumGrams: Decimal, intervalGrams: Decimal): readonly ClassRow[] {
  const intervals = maximumGrams.dividedBy(intervalGrams);
  return classRows.filter(
    (row) =>
      intervalGrams.greaterThanOrEqualTo(row.smallestIntervalGrams) &&
      (row.largestIntervalGrams?.greaterThanOrEqualTo(intervalGrams) ?? true) &&
      intervals.greaterThanOrEqualTo(row.fewestIntervals) &&
      (row.mostIntervals?.greaterThanOrEqualTo(intervals) ?? true),
  );
}

/**
 * Maximum permissible error at first verification, in intervals, for a load in intervals:
 * (III, 500) -> 0.5, (III, 501) -> 1. Source: OIML R 76-1 table 6.
 */
export function permissibleError(name: AccuracyClass, loadIntervals: Decimal): Decimal {
  const [half, whole] = errorSteps[name];
  if (loadIntervals.lessThanOrEqualTo(half)) return decimal('0.5');
  return loadIntervals.lessThanOrEqualTo(whole) ? one : decimal('1.5');
}

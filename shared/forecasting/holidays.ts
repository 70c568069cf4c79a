/** What the weeks around a named date do to use. */

/** Factors by weeks from the date: -2 two weeks before, 0 its own week, 1 the week after. */
export type HolidayFactors = ReadonlyMap<number, number>;

/** One past year of a product family around the date: use over its baseline. */
export interface HolidayYear {
  weeksFrom: number;
  ratio: number;
}

/** Years of experience that a factor of 1 counts for. */
const NEUTRAL_YEARS = 2;

/**
 * Factors of a product family: the mean log ratio of each week over the years and products seen,
 * shrunk to 1 by n/(n + 2). Weeks with a ratio that is not positive are left out.
 */
export function holidayFactors(seen: readonly HolidayYear[]): Map<number, number> {
  const sums = new Map<number, { log: number; n: number }>();
  for (const { weeksFrom, ratio } of seen) {
    if (!(ratio > 0) || !Number.isFinite(ratio)) continue;
    const sum = sums.get(weeksFrom) ?? { log: 0, n: 0 };
    sums.set(weeksFrom, { log: sum.log + Math.log(ratio), n: sum.n + 1 });
  }
  const factor = ({ log, n }: { log: number; n: number }): number =>
    Math.exp(log / (n + NEUTRAL_YEARS));
  return new Map([...sums].map(([week, sum]) => [week, factor(sum)]));
}

/**
 * Factor of a period of `days` days that starts `startFrom` days after the date (negative: before
 * it): the mean over its days of the factor of the week each day lies in, so that a month takes
 * the share that its days have in the window. Weeks are counted in sevens from the date.
 */
export function periodFactor(factors: HolidayFactors, startFrom: number, days: number): number {
  if (days <= 0) return 1;
  let sum = 0;
  for (let day = 0; day < days; day++) {
    sum += factors.get(Math.floor((startFrom + day) / 7)) ?? 1;
  }
  return sum / days;
}

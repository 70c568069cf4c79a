/** What was on the shelf at past instants: an entry that comes late finds what was there then. */
import { larger, smaller, zero, type Decimal } from '../decimal.js';

/** An instant (UTC, ISO 8601) and its studio day, YYYY-MM-DD. */
export interface Moment {
  readonly at: string;
  readonly on: string;
}

/**
 * How much the shelf held after what happened at this moment, by when things happened. What was
 * delivered on a day has an empty `at`: it was there for all pours of that day.
 */
export interface ShelfLevel extends Moment {
  readonly quantity: Decimal;
}

/** So much was not there at a moment. */
export interface Shortage extends Moment {
  readonly quantity: Decimal;
}

/**
 * What is missing when so much more was taken at a moment: the shelf runs out whenever it later
 * falls below what was taken, by as much as it falls. Levels are in the order of time.
 * Example: levels 20, 520, 12 on the 1st, 3rd and 4th; 30 taken on the 2nd -> 10 missing on the
 * 2nd and 8 more on the 4th.
 */
export function shortages(
  levels: readonly ShelfLevel[],
  moment: Moment,
  quantity: Decimal,
): Shortage[] {
  const first = levels.findLastIndex((level) => !isAfter(level, moment));
  const missing: Shortage[] = [];
  let there = quantity;
  for (const level of levels.slice(Math.max(first, 0))) {
    const left = larger(zero, smaller(there, level.quantity));
    if (left.lessThan(there)) {
      const { at, on } = isAfter(level, moment) ? level : moment;
      missing.push({ at, on, quantity: there.minus(left) });
    }
    there = left;
  }
  return missing;
}

/** The levels after so much was taken at a moment, less what was missing. */
export function lowered(
  levels: readonly ShelfLevel[],
  moment: Moment,
  quantity: Decimal,
  missing: readonly Shortage[],
): ShelfLevel[] {
  const before = levels.filter((level) => !isAfter(level, moment));
  const after = levels.filter((level) => isAfter(level, moment));
  const start = before.at(-1);
  const here = start ? [{ ...moment, quantity: start.quantity }] : [];
  const lower = [...here, ...after].map((level) => {
    const back = missing
      .filter((each) => !isAfter(each, level))
      .reduce((total, each) => total.plus(each.quantity), zero);
    return { ...level, quantity: level.quantity.minus(quantity).plus(back) };
  });
  return [...before, ...lower];
}

function isAfter(one: Moment, other: Moment): boolean {
  return one.on === other.on ? one.at > other.at : one.on > other.on;
}

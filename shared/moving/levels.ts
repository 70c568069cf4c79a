/** What was on the shelf on past days: an entry that comes late cannot take what came later. */
import { smaller, zero, type Decimal } from '../decimal.js';

/** How much the shelf held at the end of a studio day (YYYY-MM-DD), by when things happened. */
export interface DayLevel {
  readonly on: string;
  readonly quantity: Decimal;
}

/**
 * The lowest level from a day on: so much can still have been taken on that day. Null where
 * nothing is known of that day. Levels are in the order of their days.
 * Example: 20 on the 1st, 520 on the 3rd; a draw of the 1st or the 2nd -> 20, of the 3rd -> 520.
 */
export function lowestFrom(levels: readonly DayLevel[], day: string): Decimal | null {
  const first = levels.findLastIndex((level) => level.on <= day);
  const later = levels.slice(Math.max(first, 0));
  const [start, ...rest] = later;
  if (!start) return null;
  const lowest = rest.reduce((low, level) => smaller(low, level.quantity), start.quantity);
  return lowest.isNegative() ? zero : lowest;
}

/** The levels after so much was taken on a day. */
export function lowered(
  levels: readonly DayLevel[],
  day: string,
  quantity: Decimal,
): readonly DayLevel[] {
  const before = levels.filter((level) => level.on < day);
  const from = levels.filter((level) => level.on >= day);
  const last = before.at(-1);
  const start = from[0]?.on === day || !last ? [] : [{ on: day, quantity: last.quantity }];
  const lower = [...start, ...from].map((level) => ({
    on: level.on,
    quantity: level.quantity.minus(quantity),
  }));
  return [...before, ...lower];
}

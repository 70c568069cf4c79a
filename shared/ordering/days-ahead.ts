/** Use of single days ahead where it is known better: what is booked, and closed days. */
import { dayAfter } from '../calendar.js';
import type { WeekAhead } from './booking-outlook.js';
import { WEEKS_AHEAD } from './booked-visits.js';
import { daysOfMonth } from './studio-periods.js';

/** What a forecast takes on or off on each of the next days; day 0 is today. */
export interface DaysAhead {
  /** Use of each day beyond what its month says, in the stock unit; negative: less. */
  readonly extra: readonly number[];
  /** The part of that which comes from the diary; the rest moves use away from closed days. */
  readonly byDiary: readonly number[];
  /** Variance of each day as a part of what it is without the diary. */
  readonly spread: readonly number[];
  readonly weeks: readonly WeekAhead[];
}

/** Days ahead that are known one by one. */
export const DAYS_KNOWN = 7 * WEEKS_AHEAD;

/**
 * Use of each of the next days with closed days: a closed day uses nothing, and what its month
 * is expected to use is spread over the month's other days. `usual` is the use of each day where
 * every day is open.
 */
export function openDaysUse(
  usual: readonly number[],
  today: string,
  isClosed: (day: string) => boolean,
): number[] {
  const factors = new Map<string, number>();
  return usual.map((use, index) => {
    const day = dayAfter(today, index);
    if (isClosed(day)) return 0;
    const month = day.slice(0, 7);
    const factor = factors.get(month) ?? openFactor(month, isClosed);
    factors.set(month, factor);
    return use * factor;
  });
}

/** Days of a month for each of its open days: 30 days, 10 closed -> 1.5. */
function openFactor(month: string, isClosed: (day: string) => boolean): number {
  const days = daysOfMonth(month);
  const closed = Array.from({ length: days }, (_, index) => dayAfter(`${month}-01`, index)).filter(
    isClosed,
  ).length;
  return closed < days ? days / (days - closed) : 1;
}

/**
 * Extra use and spread by day: from `usual` to `open` (see `openDaysUse`), and from there to the
 * weeks with the diary, each week's difference shared out over its days as they are used.
 */
export function daysAhead(
  usual: readonly number[],
  open: readonly number[],
  weeks: readonly WeekAhead[],
): DaysAhead {
  const byDiary = open.map((use, day) => {
    const number = Math.floor(day / 7);
    const week = weeks[number];
    if (!week) return 0;
    const days = open.slice(7 * number, 7 * number + 7);
    const total = days.reduce((a, b) => a + b, 0);
    const part = total > 0 ? use / total : 1 / days.length;
    return (week.mean - week.statistical) * part;
  });
  const extra = open.map((use, day) => use - (usual[day] ?? 0) + (byDiary[day] ?? 0));
  const spread = open.map((_, day) => weeks[Math.floor(day / 7)]?.spread ?? 1);
  return { extra, byDiary, spread, weeks };
}

/** Extra use of the next `days` days; a part of a day in proportion. */
export function extraOver(ahead: DaysAhead | undefined, days: number): number {
  return ahead ? over(ahead.extra, days) : 0;
}

/** Variance over the next `days` days as a part of what it is without the diary. */
export function spreadOver(ahead: DaysAhead | undefined, days: number): number {
  if (!ahead || !(days > 0)) return 1;
  const known = Math.min(days, ahead.spread.length);
  return (over(ahead.spread, known) + days - known) / days;
}

function over(values: readonly number[], days: number): number {
  return values.reduce((sum, value, day) => {
    return sum + value * Math.min(1, Math.max(0, days - day));
  }, 0);
}

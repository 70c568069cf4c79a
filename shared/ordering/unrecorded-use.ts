/** Use that nobody entered, learned from counts: what was missing, spread over the time between. */
import { daysBetween } from '../calendar.js';

/** A count that stands, and what it found missing (negative: too much), in the stock unit. */
export interface CountedShortage {
  /** Studio day, YYYY-MM-DD. */
  readonly day: string;
  readonly missing: number;
}

/** Use not entered, in stock unit a day; the variance adds up over days. */
export interface UnrecordedUse {
  readonly perDay: number;
  readonly variancePerDay: number;
  /** Counts that it was learned from. */
  readonly counts: number;
}

export const noUnrecordedUse: UnrecordedUse = { perDay: 0, variancePerDay: 0, counts: 0 };

/** Counts of the last so many days teach; common practice, no source. */
const TEACHING_DAYS = 183;
/** Counts closer together than this say nothing about a rate. */
const SHORTEST_DAYS = 7;

/**
 * Net missing of the last six months over the days from the count before them (else from the
 * product's first day) to the last count; never below 0. The variance of a day is that of the
 * missing amounts around the rate, sum (missing - rate days)^2 / days / (counts - 1); with one
 * count a month's use not entered is taken to be as uncertain as itself.
 * Example: 30 g and 90 g missing after 30 and 60 more days -> 120/90 = 1.333 g a day.
 */
export function unrecordedUse(
  counts: readonly CountedShortage[],
  firstDay: string,
  today: string,
): UnrecordedUse {
  const sorted = [...counts].sort((a, b) => (a.day < b.day ? -1 : 1));
  const recent = sorted.filter(({ day }) => daysBetween(day, today) <= TEACHING_DAYS);
  const before = sorted[sorted.length - recent.length - 1];
  let since = before?.day ?? firstDay;
  const spans = recent.map(({ day, missing }) => {
    const days = Math.max(1, daysBetween(since, day));
    since = day;
    return { days, missing };
  });
  const days = spans.reduce((total, span) => total + span.days, 0);
  const missing = spans.reduce((total, span) => total + span.missing, 0);
  if (days < SHORTEST_DAYS || missing <= 0) return { ...noUnrecordedUse, counts: recent.length };
  const perDay = missing / days;
  const squares = spans.reduce((a, s) => a + (s.missing - perDay * s.days) ** 2 / s.days, 0);
  const variancePerDay = spans.length > 1 ? squares / (spans.length - 1) : perDay * perDay * 30;
  return { perDay, variancePerDay, counts: recent.length };
}

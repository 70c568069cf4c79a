/** Use of one product by month and by week, as the ledger has it, made ready to be forecast. */
import { dayAfter, daysBetween } from '../calendar.js';
import { cleanHistory } from '../forecasting/clean-history.js';
import { daysOfMonth, monthAfter, mondayOf, monthsBetween, weekday } from './studio-periods.js';
import type { UnrecordedUse } from './unrecorded-use.js';

/** Net use of one period (float64: history only feeds the forecast). */
export interface PeriodUse {
  /** "2026-03", or the Monday of a week. */
  readonly period: string;
  readonly quantity: number;
}

/** When the studio was open, and what day it is there. */
export interface StudioCalendar {
  readonly today: string;
  /** Days with any use in the studio, by month. */
  readonly openDays: ReadonlyMap<string, number>;
  /** The first Monday that use by week is known from. */
  readonly weeksFrom: string;
  /** Days that a person said are closed, and the days of the week (1 Monday) usually worked. */
  readonly closed?: ReadonlySet<string>;
  readonly weekdays?: ReadonlySet<number>;
}

/** What the ledger knows of one product's use. */
export interface RecordedUse {
  readonly months: readonly PeriodUse[];
  readonly weeks: readonly PeriodUse[];
  /** First day of any movement of the product. */
  readonly firstDay: string;
  /** Days on which a person said that there was none; both ends count. */
  readonly outOfStock?: readonly Days[];
}

/** From a day to a later one, both in it. */
export interface Days {
  readonly from: string;
  readonly to: string;
}

/** Periods without gaps, oldest first. Whole months and weeks only, unless the history is short. */
export interface DemandHistory {
  readonly firstMonth: string;
  readonly months: readonly number[];
  /** Part of the usual open time in each month. */
  readonly openShare: readonly number[];
  /** Part of each month in which there was none, as people marked it. */
  readonly outOfStockShare: readonly number[];
  /** Open time expected of each of the next 12 months: as in the same months of the past. */
  readonly openAhead: readonly number[];
  /** The month that the forecast begins with. */
  readonly nextMonth: string;
  readonly weeks: readonly number[];
  readonly notEntered: UnrecordedUse;
  /** Used in the running month so far. */
  readonly usedThisMonth: number;
}

/** A month with less than this part of the usual open days was not a usual month. */
const USUAL_SHARE = 0.85;
/** Below this many whole months the running one counts too, by the part of it that has passed. */
const FEW_MONTHS = 6;
/** A part of a month shorter than this says nothing. */
const SHORTEST_SHARE = 0.2;

/** Months from the product's first to the last whole one; the same for weeks. */
export function demandHistory(
  use: RecordedUse,
  calendar: StudioCalendar,
  notEntered: UnrecordedUse,
): DemandHistory {
  const { today } = calendar;
  const running = today.slice(0, 7);
  const firstMonth = use.firstDay.slice(0, 7);
  const byMonth = new Map(use.months.map(({ period, quantity }) => [period, quantity]));
  const whole = Math.max(0, monthsBetween(firstMonth, running));
  const names = Array.from({ length: whole }, (_, index) => monthAfter(firstMonth, index));
  const shares = openShares(names, calendar);
  const openAhead = expectedShares(names, shares, running).map((share, ahead) => {
    return toldShare(monthAfter(running, ahead), calendar) ?? share;
  });
  if (whole > 0) shares[0] = (shares[0] ?? 1) * shareFrom(use.firstDay);
  const usedThisMonth = byMonth.get(running) ?? 0;
  const passed = shareSoFar(use.firstDay, today);
  if (whole < FEW_MONTHS && passed >= SHORTEST_SHARE) {
    names.push(running);
    shares.push(passed);
  }
  if ((shares[0] ?? 1) < SHORTEST_SHARE && names.length > 1) {
    names.shift();
    shares.shift();
  }
  return {
    firstMonth: names[0] ?? running,
    months: names.map((month) => byMonth.get(month) ?? 0),
    openShare: shares,
    outOfStockShare: names.map((month) => {
      return shareOut(use.outOfStock ?? [], `${month}-01`, daysOfMonth(month));
    }),
    openAhead,
    nextMonth: running,
    weeks: wholeWeeks(use, calendar),
    notEntered,
    usedThisMonth,
  };
}

/** 1 for a usual month; its part of the usual (median) open days for one mostly closed. */
function openShares(months: readonly string[], calendar: StudioCalendar): number[] {
  const { openDays } = calendar;
  const known = months.map((month) => openDays.get(month) ?? 0);
  const open = known.filter((days) => days > 0).sort((a, b) => a - b);
  const usual = open[Math.floor(open.length / 2)] ?? 0;
  return known.map((days, index) => {
    const told = toldShare(months[index] ?? '', calendar);
    return told ?? (usual > 0 && days < USUAL_SHARE * usual ? days / usual : 1);
  });
}

/**
 * Part of a month's usual days that are not closed; null where no usual day of it is.
 * Example: a studio that works Tuesday to Saturday, closed from 21 to 31 December 2026: 8 of 23
 * working days are closed -> 15/23.
 */
function toldShare(month: string, { closed, weekdays }: StudioCalendar): number | null {
  if (!closed || closed.size === 0) return null;
  const days = Array.from({ length: daysOfMonth(month) }, (_, day) => dayAfter(`${month}-01`, day));
  const usual = days.filter((day) => !weekdays || weekdays.has(weekday(day)));
  const shut = usual.filter((day) => closed.has(day)).length;
  return shut === 0 || usual.length === 0 ? null : (usual.length - shut) / usual.length;
}

/** A studio closes at the same time every year: the mean of the same months, 1 where none is. */
function expectedShares(
  months: readonly string[],
  shares: readonly number[],
  next: string,
): number[] {
  return Array.from({ length: 12 }, (_, ahead) => {
    const name = monthAfter(next, ahead).slice(5);
    const same = shares.filter((_share, index) => months[index]?.slice(5) === name);
    return same.length === 0 ? 1 : same.reduce((a, b) => a + b, 0) / same.length;
  });
}

/** Part of its month from a day on. */
function shareFrom(day: string): number {
  const days = daysOfMonth(day.slice(0, 7));
  return (days - Number.parseInt(day.slice(8, 10), 10) + 1) / days;
}

/** Part of the running month before today, from the product's first day on. */
function shareSoFar(firstDay: string, today: string): number {
  const start = `${today.slice(0, 7)}-01`;
  const from = firstDay > start ? firstDay : start;
  return Math.max(0, daysBetween(from, today)) / daysOfMonth(today.slice(0, 7));
}

function wholeWeeks(
  { weeks, firstDay, outOfStock }: RecordedUse,
  calendar: StudioCalendar,
): number[] {
  const byWeek = new Map(weeks.map(({ period, quantity }) => [period, quantity]));
  const first = mondayOf(firstDay);
  const start = first > calendar.weeksFrom ? first : calendar.weeksFrom;
  const count = Math.max(0, Math.floor(daysBetween(start, mondayOf(calendar.today)) / 7));
  const mondays = Array.from({ length: count }, (_, k) => dayAfter(start, 7 * k));
  const known = mondays.map((monday) => byWeek.get(monday) ?? 0);
  const out = mondays.map((monday) => shareOut(outOfStock ?? [], monday, 7));
  if (!out.some((share) => share > 0)) return known;
  return Array.from(cleanHistory({ use: known, outOfStockShare: out }, 1).y);
}

/** Part of so many days from a day on that are marked. */
function shareOut(marks: readonly Days[], start: string, days: number): number {
  const all = Array.from({ length: days }, (_, index) => dayAfter(start, index));
  return all.filter((day) => marks.some(({ from, to }) => from <= day && day <= to)).length / days;
}

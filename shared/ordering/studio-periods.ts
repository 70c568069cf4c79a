/** Months and weeks of a studio's calendar, as text: "2026-03", weeks by their Monday. */
import { dayAfter, daysBetween } from '../calendar.js';

/** Months since year 0 of "2026-03" or "2026-03-17". */
function monthIndex(month: string): number {
  return Number.parseInt(month.slice(0, 4), 10) * 12 + Number.parseInt(month.slice(5, 7), 10) - 1;
}

/** The month so many months after another: ("2026-11", 3) -> "2027-02". */
export function monthAfter(month: string, months: number): string {
  const index = monthIndex(month) + months;
  const year = `${Math.floor(index / 12)}`.padStart(4, '0');
  return `${year}-${`${(index % 12) + 1}`.padStart(2, '0')}`;
}

/** Whole months from one month to another; 0 for the same. */
export function monthsBetween(from: string, to: string): number {
  return monthIndex(to) - monthIndex(from);
}

/** Days of a month: "2026-02" -> 28. */
export function daysOfMonth(month: string): number {
  return daysBetween(`${month}-01`, `${monthAfter(month, 1)}-01`);
}

/** Day of the week, 1 Monday ... 7 Sunday. */
export function weekday(day: string): number {
  // 1970-01-05 was a Monday.
  const days = daysBetween('1970-01-05', day) % 7;
  return (days < 0 ? days + 7 : days) + 1;
}

/** The Monday of a day's week: "2026-03-05" (a Thursday) -> "2026-03-02". */
export function mondayOf(day: string): string {
  return dayAfter(day, 1 - weekday(day));
}

/** The first day from `day` on that is this day of the week (1 Monday ... 7 Sunday). */
export function nextWeekday(day: string, wanted: number): string {
  return dayAfter(day, (wanted - weekday(day) + 7) % 7);
}

/** A month in words: "2026-03" -> "March 2026". */
export function monthName(month: string): string {
  const names =
    'January February March April May June July August September October November December';
  return `${names.split(' ')[monthIndex(month) % 12]} ${month.slice(0, 4)}`;
}

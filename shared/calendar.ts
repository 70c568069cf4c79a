/** Days as a studio counts them: an instant seen in the studio's time zone. */
import { Problem } from './problems/problem.js';

const formats = new Map<string, Intl.DateTimeFormat>();

/**
 * The day (YYYY-MM-DD) on which an instant falls in an IANA time zone.
 * Example: 2026-03-01T23:30:00Z in Europe/Athens -> "2026-03-02".
 * @param instant RFC 3339 text with offset
 * @throws Problem `not_an_instant`, `unknown_time_zone`
 */
export function dayIn(timeZone: string, instant: string): string {
  const moment = Date.parse(instant);
  if (Number.isNaN(moment)) throw new Problem('not_an_instant', { text: instant });
  return dayFormat(timeZone).format(moment);
}

/** Whole days from one day to a later one (both YYYY-MM-DD); negative when it is earlier. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00Z`) - Date.parse(`${from}T00:00Z`)) / 86_400_000);
}

/** The day so many days after another (both YYYY-MM-DD): ("2026-02-27", 2) -> "2026-03-01". */
export function dayAfter(day: string, days: number): string {
  // Noon UTC: no zone's clock change can move it to another day.
  return dayFormat('UTC').format(Date.parse(`${day}T12:00Z`) + days * 86_400_000);
}

/** The first day of a day's month: "2026-03-17" -> "2026-03-01". */
export function monthOf(day: string): string {
  return `${day.slice(0, 7)}-01`;
}

function dayFormat(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known) return known;
  try {
    // The Swedish short date is the ISO 8601 calendar date.
    const format = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' });
    formats.set(timeZone, format);
    return format;
  } catch {
    throw new Problem('unknown_time_zone', { timeZone });
  }
}

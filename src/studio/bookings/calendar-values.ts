/** Values of iCalendar properties: dates, clock times, durations, offsets (RFC 5545, 3.3). */
import { damaged, lineOf, type CalendarPart } from './calendar-lines.js';

const SECOND = 1000;
const DAY = 86_400 * SECOND;

/**
 * Clock time of a DATE or DATE-TIME as the milliseconds of the same clock time in UTC:
 * "19970714" or "19970714T133000", with or without the Z. @throws Problem `file_damaged`
 */
export function wallOf(text: string, line: number): number {
  const found = /^(\d{4})(\d{2})(\d{2})(?:T(\d{2})(\d{2})(\d{2})Z?)?$/i.exec(text.trim());
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] =
    found?.slice(1).map((part) => Number.parseInt(part ?? '0', 10)) ?? [];
  // A 60th second is a leap second; it counts as the one before it.
  const wall = Date.UTC(year, month - 1, day, hour, minute, Math.min(second, 59));
  const isReal = found !== null && dayOf(wall) === `${found[1]}-${found[2]}-${found[3]}`;
  if (!isReal || hour > 23 || minute > 59 || second > 60) {
    return damaged(line, `“${text}” is no date and no time.`);
  }
  return wall;
}

/** The day of a clock time: "1997-07-14". */
export function dayOf(wall: number): string {
  const days = new Intl.DateTimeFormat('sv-SE', { timeZone: 'UTC', dateStyle: 'short' });
  return days.format(wall);
}

/** True for a DATE. */
export function isDay(text: string): boolean {
  return /^\d{8}$/.test(text.trim());
}

/** True for a time in UTC. */
export function isUtc(text: string): boolean {
  return /Z$/i.test(text.trim());
}

/** Milliseconds of a DURATION: "PT1H30M", "P7W"; days count 24 hours. */
export function durationOf(text: string, line: number): number {
  const found = /^([+-]?)P(?:(\d+)W|(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?)$/i.exec(
    text.trim(),
  );
  if (!found || !/\d/.test(text)) return damaged(line, `“${text}” is no duration.`);
  const [weeks = 0, days = 0, hours = 0, minutes = 0, seconds = 0] = found
    .slice(2)
    .map((part) => Number.parseInt(part ?? '0', 10));
  const sign = found[1] === '-' ? -1 : 1;
  const time = ((hours * 60 + minutes) * 60 + seconds) * SECOND;
  return sign * ((weeks * 7 + days) * DAY + time);
}

/** Milliseconds ahead of UTC of an offset such as "-0500". @throws Problem `file_damaged` */
export function offsetOf(part: CalendarPart, name: string): number {
  const given = lineOf(part, name);
  if (!given) return damaged(part.line, `${part.name} has no ${name}.`);
  const found = /^([+-])(\d{2})(\d{2})(\d{2})?$/.exec(given.property.value.trim());
  if (!found) return damaged(given.line, `“${given.property.value}” is no offset from UTC.`);
  const [hours = 0, minutes = 0, seconds = 0] = found
    .slice(2)
    .map((each) => Number.parseInt(each ?? '0', 10));
  return (found[1] === '-' ? -1 : 1) * ((hours * 60 + minutes) * 60 + seconds) * SECOND;
}

/** A whole number that a property holds; 0 where there is none. */
export function numberOf(part: CalendarPart, name: string): number {
  const given = lineOf(part, name);
  if (!given) return 0;
  const text = given.property.value.trim();
  if (!/^\d{1,9}$/.test(text)) return damaged(given.line, `“${text}” is no whole number.`);
  return Number.parseInt(text, 10);
}

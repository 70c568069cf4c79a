/** When Saltmarsh Row is open, how busy a day is, and what o'clock it is there. */
import { dayAfter, daysBetween } from '../shared/calendar.js';
import { instantFrom, millisOf } from '../src/platform/clock.js';

export const timeZone = 'Europe/Lisbon';

/** How long the story is, in months, and how many days before today it ends at the latest. */
const months = 30;
const endsBefore = 3;

/** Days of the year on which nobody works; the summer and winter breaks from and to, included. */
const feasts = new Set(['01-01', '04-25', '05-01', '06-24', '11-01', '12-08']);
const breaks: readonly (readonly [from: string, to: string])[] = [
  ['08-10', '08-22'],
  ['12-25', '12-31'],
];

/** How busy a month is against an even year; January first. */
const seasons = [0.8, 0.86, 0.97, 1.02, 1.06, 1.13, 1.08, 0.88, 1.0, 1.02, 1.06, 1.26];
/** The same of a day of the week, Monday first; none: closed. */
const week = [0, 0.78, 0.88, 1.0, 1.18, 1.2, 0];
/** The studio grows from a little under to a little over its average. */
const growth = [0.88, 1.14] as const;

/** Days of the story that have visits, first to last. */
export function openDays(today: string): string[] {
  const last = dayAfter(today, -endsBefore);
  const first = monthsBefore(last, months);
  const days: string[] = [];
  for (let day = first; day <= last; day = dayAfter(day, 1)) if (isOpen(day)) days.push(day);
  return days;
}

/** Closed on Sundays and Mondays, on feasts and in the breaks. */
export function isOpen(day: string): boolean {
  const date = day.slice(5);
  if (week[weekday(day) - 1] === 0 || feasts.has(date)) return false;
  return !breaks.some(([from, to]) => date >= from && date <= to);
}

/** The first open day from this one on. */
export function openFrom(day: string): string {
  let open = day;
  while (!isOpen(open)) open = dayAfter(open, 1);
  return open;
}

/** 1 for Monday to 7 for Sunday (ISO 8601). */
export function weekday(day: string): number {
  return (((daysBetween('2024-01-01', day) % 7) + 7) % 7) + 1;
}

/** How busy a day is against the average day: week, season, growth, the weeks before feasts. */
export function busyness(day: string, first: string, last: string): number {
  const passed = daysBetween(first, day) / Math.max(1, daysBetween(first, last));
  const season = seasons[monthIndex(day)] ?? 1;
  const before = day.slice(5) >= '12-10' && day.slice(5) <= '12-24' ? 1.12 : 1;
  const [from, to] = growth;
  return (week[weekday(day) - 1] ?? 0) * season * before * (from + (to - from) * passed);
}

/** Years since the story began; negative never. */
export function yearsSince(first: string, day: string): number {
  return daysBetween(first, day) / 365.25;
}

const hourFormat = new Intl.DateTimeFormat('en-GB', {
  timeZone,
  hour: '2-digit',
  hourCycle: 'h23',
});
const offsets = new Map<string, number>();

/** The instant of a time of day: minutes after midnight, seconds. */
export function instantAt(day: string, minutes: number, seconds = 0): string {
  const noon = millisOf(`${day}T12:00:00Z`);
  const ahead = offsets.get(day) ?? parseInt(hourFormat.format(noon), 10) - 12;
  offsets.set(day, ahead);
  const minute = Math.floor(minutes) - 12 * 60 - ahead * 60;
  return instantFrom(noon + (minute * 60 + Math.floor(seconds)) * 1000);
}

/** So many seconds later. */
export function later(instant: string, seconds: number): string {
  return instantFrom(millisOf(instant) + Math.floor(seconds) * 1000);
}

function monthIndex(day: string): number {
  return parseInt(day.slice(5, 7), 10) - 1;
}

function monthsBefore(day: string, count: number): string {
  const month = parseInt(day.slice(0, 4), 10) * 12 + monthIndex(day) - count;
  const year = Math.floor(month / 12);
  return `${year}-${String((month % 12) + 1).padStart(2, '0')}-01`;
}

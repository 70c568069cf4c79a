/** The page's clock: the device's time, and how far it lies from the service's. */

/** Below this a difference between the two clocks does not matter. */
const toleratedMs = 120_000;

let aheadMs = 0;

/** Takes note of the service's time, from the Date of an answer. */
export function hearServerTime(date: string | null): void {
  if (date === null) return;
  const difference = Date.parse(date) - Date.now();
  aheadMs = Math.abs(difference) > toleratedMs ? difference : 0;
}

/** Now by the device, RFC 3339 in UTC; sent along as `sentAt`. */
export function deviceNow(): string {
  return new Date().toISOString();
}

/** The instant so many hours before another one. */
export function hoursBefore(instant: string, hours: number): string {
  return new Date(Date.parse(instant) - hours * 3_600_000).toISOString();
}

/** Whole minutes from an instant of the service until now; never below 0. */
export function minutesSince(instant: string): number {
  const ms = Date.now() + aheadMs - Date.parse(instant);
  return Math.max(0, Math.floor(ms / 60_000));
}

/** The time of day of an instant, as the studio's clock shows it. */
export function timeOfDay(instant: string, timeZone: string | undefined): string {
  return new Intl.DateTimeFormat(undefined, {
    hour: '2-digit',
    minute: '2-digit',
    ...(timeZone === undefined ? {} : { timeZone }),
  }).format(new Date(instant));
}

/** An instant in words: "14:05", on another day "24 Nov, 14:05". */
export function momentInWords(instant: string): string {
  const time = timeOfDay(instant, zone);
  if (studioDay(zone, instant) === today()) return time;
  const day = new Intl.DateTimeFormat(undefined, {
    day: 'numeric',
    month: 'short',
    ...(zone === undefined ? {} : { timeZone: zone }),
  });
  return `${day.format(new Date(instant))}, ${time}`;
}

/** A day in words: "Wednesday 25 November". */
export function dayInWords(timeZone: string | undefined): string {
  return new Intl.DateTimeFormat(undefined, {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    ...(timeZone === undefined ? {} : { timeZone }),
  }).format(new Date());
}

let zone: string | undefined;

/** The page stands in a studio from now on: its time zone says when a day ends. */
export function standIn(timeZone: string): void {
  zone = timeZone;
}

/** The day in the studio that the page stands in, as 2026-03-02. */
export function today(): string {
  return studioDay(zone);
}

/** Day of the studio that an instant falls on, as 2026-03-02. */
export function studioDay(timeZone: string | undefined, instant?: string): string {
  return new Intl.DateTimeFormat('sv-SE', {
    ...(timeZone === undefined ? {} : { timeZone }),
  }).format(instant === undefined ? new Date() : new Date(instant));
}

/** The day after a day: 2026-02-28 -> 2026-03-01. */
export function dayAfter(day: string): string {
  const next = new Date(`${day}T12:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, 10);
}

/** A day of the studio in words: 2026-03-02 -> "2 March 2026". */
export function dateInWords(day: string): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'long', timeZone: 'UTC' }).format(
    new Date(`${day}T12:00:00Z`),
  );
}

/** Days and instants in words. */

/** The day before a day: 2026-03-01 -> 2026-02-28. */
export function dayBefore(day: string): string {
  const at = new Date(`${day}T12:00:00Z`);
  at.setUTCDate(at.getUTCDate() - 1);
  return at.toISOString().slice(0, 10);
}

/** A day in words: 2026-03-02 -> "Monday 2 March 2026". */
export function dayInFull(day: string): string {
  return new Intl.DateTimeFormat(undefined, {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  }).format(new Date(`${day}T12:00:00Z`));
}

/** An instant as the studio's clock shows it: "2 Mar 2026, 14:05". */
export function instantInWords(instant: string, timeZone: string | undefined): string {
  return new Intl.DateTimeFormat(undefined, {
    dateStyle: 'medium',
    timeStyle: 'short',
    ...(timeZone === undefined ? {} : { timeZone }),
  }).format(new Date(instant));
}

/** A month in words: 2026-03 -> "March 2026". */
export function monthInWords(month: string): string {
  return new Intl.DateTimeFormat(undefined, {
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  }).format(new Date(`${month}-15T12:00:00Z`));
}

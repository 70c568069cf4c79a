/** Recurrence rules (RFC 5545, section 3.3.10) worked out in clock time. */
import { RRuleTemporal } from 'rrule-temporal';
import { damaged, type CalendarLine } from './calendar-lines.js';
import { isDay, isUtc, wallOf } from './calendar-values.js';

const DAY = 86_400_000;
/** A rule that gives more times than this is no diary of visits. */
const MOST = 20_000;

/** How far a rule is followed, and how its UNTIL in UTC becomes a clock time. */
export interface RuleLimits {
  /** The last clock time that is wanted. */
  readonly until: number;
  readonly wallOf: (instant: number) => number;
}

/**
 * Clock times of a rule from `start` (its first one) on, in order. Rules are worked out on the
 * clock, so that ten o'clock stays ten o'clock across a change of summer time.
 * @throws Problem `file_damaged` for a rule that cannot be read
 */
export function recurring(
  { property, line }: CalendarLine,
  start: number,
  limits: RuleLimits,
): number[] {
  const fields = property.value.trim().toUpperCase().split(';').filter(Boolean);
  const until = fields.find((field) => field.startsWith('UNTIL='))?.slice(6);
  const last = Math.min(limits.until, until === undefined ? Infinity : lastOf(until, line, limits));
  const rule = fields.filter((field) => !field.startsWith('UNTIL=')).join(';');
  const found: number[] = [];
  try {
    const of = new RRuleTemporal({
      rruleString: `DTSTART:${stampOf(start)}Z\nRRULE:${rule}`,
      ...{ cache: false, maxIterations: 2 * MOST },
    });
    of.all((each) => {
      if (each.epochMilliseconds > last || found.length > MOST) return false;
      found.push(each.epochMilliseconds);
      return true;
    });
  } catch (error) {
    const why = error instanceof Error ? error.message : 'unknown parts';
    return damaged(line, `The rule “${property.value}” cannot be followed: ${why}.`);
  }
  if (found.length > MOST) return damaged(line, `The rule gives more than ${MOST} times.`);
  return found;
}

function lastOf(until: string, line: number, limits: RuleLimits): number {
  const wall = wallOf(until, line);
  if (isDay(until)) return wall + DAY - 1;
  return isUtc(until) ? limits.wallOf(wall) : wall;
}

/** "19970902T090000" of a clock time. */
function stampOf(wall: number): string {
  const format = new Intl.DateTimeFormat('sv-SE', {
    ...{ timeZone: 'UTC', dateStyle: 'short', timeStyle: 'medium' },
  });
  return format.format(wall).replaceAll(/[-:]/g, '').replace(' ', 'T');
}

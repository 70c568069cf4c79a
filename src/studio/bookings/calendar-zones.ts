/** Clock time to instant and back: zones of the IANA database, and those a file describes. */
import { lineOf, linesOf, type CalendarPart } from './calendar-lines.js';
import { recurring } from './calendar-rules.js';
import { offsetOf, wallOf } from './calendar-values.js';

/**
 * A clock time is kept as `wall`: the milliseconds of the same clock time in UTC. An instant is
 * milliseconds since 1970.
 */
export interface Zone {
  instantOf(wall: number): number;
  wallOf(instant: number): number;
}

const DAY = 86_400_000;
/** Rules of summer time are followed up to here. */
const LATEST = Date.UTC(2100, 0, 1);

/** A zone by what its clocks are ahead of UTC at an instant, in milliseconds. */
function zoneBy(offsetAt: (instant: number) => number): Zone {
  return {
    wallOf: (instant) => instant + offsetAt(instant),
    // An hour that comes twice is the first one; one that is left out counts by the offset
    // before the gap (section 3.3.5).
    instantOf: (wall) => {
      const before = offsetAt(wall - DAY);
      const fitting = [before, offsetAt(wall + DAY)].find(
        (offset) => offsetAt(wall - offset) === offset,
      );
      return wall - (fitting ?? before);
    },
  };
}

/** UTC itself. */
export const utc: Zone = zoneBy(() => 0);

/** A zone of the IANA database by its name; null where there is none. */
export function namedZone(name: string): Zone | null {
  try {
    const format = new Intl.DateTimeFormat('en-US', {
      ...{ timeZone: name, hourCycle: 'h23', year: 'numeric', month: 'numeric' },
      ...{ day: 'numeric', hour: 'numeric', minute: 'numeric', second: 'numeric' },
    });
    return zoneBy((instant) => {
      const at = new Map(
        format.formatToParts(instant).map(({ type, value }) => [type, Number.parseInt(value, 10)]),
      );
      const part = (type: Intl.DateTimeFormatPartTypes) => at.get(type) ?? 0;
      const wall = Date.UTC(
        ...([part('year'), part('month') - 1, part('day')] as const),
        ...([part('hour'), part('minute'), part('second')] as const),
      );
      return wall - Math.floor(instant / 1000) * 1000;
    });
  } catch {
    return null;
  }
}

/** A zone as its VTIMEZONE (section 3.6.5) describes it. @throws Problem `file_damaged` */
export function describedZone(part: CalendarPart): Zone {
  const onsets = part.parts.flatMap(onsetsOf).sort((a, b) => a.instant - b.instant);
  const first = onsets[0];
  if (!first) return utc;
  return zoneBy((instant) => {
    const last = onsets.findLast((onset) => onset.instant <= instant);
    return last?.to ?? first.from;
  });
}

interface Onset {
  readonly instant: number;
  readonly from: number;
  readonly to: number;
}

function onsetsOf(observance: CalendarPart): Onset[] {
  const from = offsetOf(observance, 'TZOFFSETFROM');
  const to = offsetOf(observance, 'TZOFFSETTO');
  const start = lineOf(observance, 'DTSTART');
  if (!start) return [];
  const wall = wallOf(start.property.value, start.line);
  const rule = lineOf(observance, 'RRULE');
  const walls = rule
    ? recurring(rule, wall, { until: LATEST, wallOf: (instant) => instant + from })
    : [wall];
  const more = linesOf(observance, 'RDATE').flatMap(({ property, line }) =>
    property.value.split(',').map((value) => wallOf(value, line)),
  );
  return [...walls, ...more].map((each) => ({ instant: each - from, from, to }));
}

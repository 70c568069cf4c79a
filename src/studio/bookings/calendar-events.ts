/** The events of a calendar as the file has them: when, how often, how changed, called off. */
import {
  calendarsIn,
  damaged,
  lineOf,
  linesOf,
  type CalendarLine,
  type CalendarPart,
} from './calendar-lines.js';
import { durationOf, isDay, isUtc, numberOf, wallOf } from './calendar-values.js';
import { describedZone, namedZone, utc, type Zone } from './calendar-zones.js';

/** A date or a clock time in its zone. */
export interface Moment {
  readonly wall: number;
  readonly isDay: boolean;
  readonly zone: Zone;
}

/** A VEVENT; with a `recurrenceId` one time of a series that is different. */
export interface CalendarEvent {
  readonly line: number;
  readonly uid: string;
  readonly sequence: number;
  /** Instant of the last change that the file tells; 0 where it tells none. */
  readonly stamp: number;
  /** Instant at which it was entered in the diary; null where the file does not say. */
  readonly createdAt: number | null;
  readonly start: Moment;
  /** Milliseconds; null where the file names no end. */
  readonly length: number | null;
  readonly title: string;
  readonly calledOff: boolean;
  readonly rule: CalendarLine | null;
  readonly also: readonly Moment[];
  readonly except: readonly Moment[];
  readonly recurrenceId: Moment | null;
  /** True for a change of this time and all after it. */
  readonly andLater: boolean;
}

/**
 * All events of an iCalendar file. A time without a zone is meant in `studioZone`.
 * @throws Problem `file_damaged`
 */
export function eventsIn(text: string, studioZone: string): CalendarEvent[] {
  return calendarsIn(text).flatMap((calendar) => {
    const zones = new Zones(calendar, studioZone);
    const isCancel = lineOf(calendar, 'METHOD')?.property.value.trim().toUpperCase() === 'CANCEL';
    return calendar.parts
      .filter(({ name }) => name === 'VEVENT')
      .map((part) => eventOf(part, zones, isCancel));
  });
}

/** Zones that a calendar names, found once each. */
class Zones {
  private readonly known = new Map<string, Zone | null>();
  private readonly floating: Zone;

  constructor(
    private readonly calendar: CalendarPart,
    studioZone: string,
  ) {
    const named = lineOf(calendar, 'X-WR-TIMEZONE')?.property.value.trim();
    this.floating = (named ? this.find(named) : null) ?? namedZone(studioZone) ?? utc;
  }

  /** Reads a value with the zone that it is in. @throws Problem `file_damaged` */
  moments({ property, line }: CalendarLine): Moment[] {
    const name = property.getFirstParameter('TZID');
    return property.value.split(',').map((value): Moment => {
      // A period of time begins with its start.
      const text = value.split('/')[0] ?? '';
      const wall = wallOf(text, line);
      if (isDay(text)) return { wall, isDay: true, zone: this.floating };
      if (isUtc(text)) return { wall, isDay: false, zone: utc };
      if (name === undefined) return { wall, isDay: false, zone: this.floating };
      const zone = this.find(name);
      if (!zone) return damaged(line, `The file does not say what the time zone “${name}” is.`);
      return { wall, isDay: false, zone };
    });
  }

  moment(given: CalendarLine): Moment {
    const [first, more] = this.moments(given);
    return first && !more ? first : damaged(given.line, 'There must be one time in it.');
  }

  /** By the names that all computers know; else as the file describes it. */
  private find(name: string): Zone | null {
    const known = this.known.get(name);
    if (known !== undefined) return known;
    const part = this.calendar.parts.find(
      (each) => each.name === 'VTIMEZONE' && lineOf(each, 'TZID')?.property.value === name,
    );
    const zone = namedZone(name) ?? (part ? describedZone(part) : null);
    this.known.set(name, zone);
    return zone;
  }
}

function eventOf(part: CalendarPart, zones: Zones, isCancel: boolean): CalendarEvent {
  const uid = lineOf(part, 'UID')?.property.value.trim();
  if (!uid) return damaged(part.line, 'The event that begins here has no UID.');
  const given = lineOf(part, 'RECURRENCE-ID');
  const recurrenceId = given ? zones.moment(given) : null;
  const begins = lineOf(part, 'DTSTART');
  const status = lineOf(part, 'STATUS')?.property.value.trim().toUpperCase();
  const calledOff = isCancel || status === 'CANCELLED';
  const start = begins ? zones.moment(begins) : calledOff ? recurrenceId : null;
  if (!start && !calledOff) damaged(part.line, 'The event that begins here has no DTSTART.');
  const instantIn = (name: string): number | null => {
    const line = lineOf(part, name);
    if (!line) return null;
    const { zone, wall } = zones.moment(line);
    return zone.instantOf(wall);
  };
  return {
    ...{ line: part.line, uid, calledOff, recurrenceId },
    sequence: numberOf(part, 'SEQUENCE'),
    stamp: instantIn('DTSTAMP') ?? 0,
    createdAt: instantIn('CREATED'),
    start: start ?? { wall: 0, isDay: true, zone: utc },
    length: start ? lengthOf(part, start, zones) : null,
    title: lineOf(part, 'SUMMARY')?.property.value.trim() ?? '',
    rule: lineOf(part, 'RRULE') ?? null,
    also: linesOf(part, 'RDATE').flatMap((line) => zones.moments(line)),
    except: linesOf(part, 'EXDATE').flatMap((line) => zones.moments(line)),
    andLater: given?.property.getFirstParameter('RANGE')?.toUpperCase() === 'THISANDFUTURE',
  };
}

function lengthOf(part: CalendarPart, start: Moment, zones: Zones): number | null {
  const ends = lineOf(part, 'DTEND');
  if (ends) {
    const end = zones.moment(ends);
    const length = end.zone.instantOf(end.wall) - start.zone.instantOf(start.wall);
    return length >= 0 ? length : damaged(ends.line, 'It ends before it begins.');
  }
  const lasts = lineOf(part, 'DURATION');
  return lasts ? durationOf(lasts.property.value, lasts.line) : null;
}

/** Every time that the events of a calendar take place within a stretch of time. */
import type { CalendarEvent, Moment } from './calendar-events.js';
import { recurring } from './calendar-rules.js';
import { dayOf } from './calendar-values.js';

/** One time of an event. Instants are milliseconds since 1970. */
export interface Occurrence {
  /** Which time of its series it is: how it stood in the rule. Empty where there is no series. */
  readonly key: string;
  readonly start: number;
  readonly end: number | null;
  /** Of an event of whole days: its day. */
  readonly day: string | null;
  readonly title: string;
  readonly sequence: number;
  readonly createdAt: number | null;
  readonly calledOff: boolean;
  readonly line: number;
}

/** All times of one event (one UID). */
export interface Series {
  readonly uid: string;
  readonly sequence: number;
  readonly stamp: number;
  readonly line: number;
  /** False where the file holds single changed times only, and not what they belong to. */
  readonly isWhole: boolean;
  /** All of it is called off. */
  readonly calledOff: boolean;
  readonly occurrences: readonly Occurrence[];
}

/** From and to, both instants; to is not in it. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const HOUR = 3_600_000;
/** Clocks are at most so much apart from UTC. */
const FARTHEST = 15 * HOUR;

/** The events by UID, each with its times within the stretch (RFC 5545, section 3.8.4.4). */
export function seriesIn(events: readonly CalendarEvent[], stretch: Stretch): Series[] {
  const byUid = new Map<string, CalendarEvent[]>();
  for (const event of events) byUid.set(event.uid, [...(byUid.get(event.uid) ?? []), event]);
  return [...byUid].map(([uid, all]) => {
    const master = newest(all.filter(({ recurrenceId }) => recurrenceId === null));
    const changes = newestChanges(all);
    const leading = master ?? changes[0];
    const occurrences = leading?.calledOff && master ? [] : timesOf(master, changes, stretch);
    return {
      uid,
      sequence: leading?.sequence ?? 0,
      stamp: leading?.stamp ?? 0,
      line: leading?.line ?? 1,
      isWhole: master !== undefined,
      calledOff: master?.calledOff ?? false,
      occurrences: occurrences.filter(({ start }) => start >= stretch.from && start < stretch.to),
    };
  });
}

/** The highest sequence; of equal ones the last change; of these the last in the file. */
function newest(events: readonly CalendarEvent[]): CalendarEvent | undefined {
  return events.reduce<CalendarEvent | undefined>((best, each) => {
    if (!best) return each;
    const later = each.sequence - best.sequence || each.stamp - best.stamp;
    return later >= 0 ? each : best;
  }, undefined);
}

function newestChanges(events: readonly CalendarEvent[]): CalendarEvent[] {
  const byTime = new Map<string, CalendarEvent[]>();
  for (const event of events) {
    if (!event.recurrenceId) continue;
    const key = keyOf(event.recurrenceId);
    byTime.set(key, [...(byTime.get(key) ?? []), event]);
  }
  return [...byTime.values()].flatMap((all) => newest(all) ?? []);
}

/** "1997-09-02" of a day, "1997-09-02T13:00:00Z" as a number of a time. */
function keyOf({ wall, isDay, zone }: Moment): string {
  return isDay ? dayOf(wall) : `${zone.instantOf(wall)}`;
}

function timesOf(
  master: CalendarEvent | undefined,
  changes: readonly CalendarEvent[],
  stretch: Stretch,
): Occurrence[] {
  const single = changes.filter(({ andLater }) => !andLater);
  const changed = new Map(single.map((event) => [keyOf(event.recurrenceId ?? event.start), event]));
  const used = new Set<string>();
  const found = (master ? momentsOf(master, stretch) : []).map(({ key, moment }): Occurrence => {
    const event = changed.get(key) ?? changed.get(dayOf(moment.wall));
    if (event?.recurrenceId) {
      used.add(keyOf(event.recurrenceId));
      return occurrence(event, event.start, key);
    }
    return later(master ?? changes[0]!, changes, moment, key);
  });
  const others = changes.filter(({ andLater, recurrenceId }) => {
    return !master || (!andLater && recurrenceId !== null && !used.has(keyOf(recurrenceId)));
  });
  return [
    ...found,
    ...others.map((event) => occurrence(event, event.start, keyOf(event.recurrenceId!))),
  ];
}

/** The times of a series by its rule, with those added and without those taken out. */
function momentsOf(master: CalendarEvent, stretch: Stretch): { key: string; moment: Moment }[] {
  const { start, rule, also } = master;
  if (!rule && also.length === 0) return [{ key: '', moment: start }];
  const limits = {
    until: stretch.to + FARTHEST,
    wallOf: (instant: number) => start.zone.wallOf(instant),
  };
  const walls = rule ? recurring(rule, start.wall, limits) : [start.wall];
  const moments = [...walls.map((wall) => ({ ...start, wall })), ...also];
  const out = new Set(master.except.map(keyOf));
  const all = new Map(moments.map((moment) => [keyOf(moment), moment]));
  return [...all]
    .map(([key, moment]) => ({ key, moment }))
    .filter(({ key, moment }) => !out.has(key) && !out.has(dayOf(moment.wall)));
}

/** As the series has it, or as a change of it and all later ones says. */
function later(
  master: CalendarEvent,
  changes: readonly CalendarEvent[],
  moment: Moment,
  key: string,
): Occurrence {
  const last = changes
    .filter(({ andLater }) => andLater)
    .map((event) => ({ event, from: instantOf(event.recurrenceId ?? event.start) }))
    .filter(({ from }) => from <= instantOf(moment))
    .sort((a, b) => a.from - b.from)
    .at(-1);
  if (!last) return occurrence(master, moment, key);
  const { start } = last.event;
  const wall = start.zone.wallOf(instantOf(moment)) + start.wall - start.zone.wallOf(last.from);
  return occurrence(last.event, { ...start, wall }, key);
}

function instantOf({ wall, zone }: Moment): number {
  return zone.instantOf(wall);
}

function occurrence(event: CalendarEvent, moment: Moment, key: string): Occurrence {
  const start = moment.zone.instantOf(moment.wall);
  const { title, sequence, createdAt, calledOff, line, length } = event;
  return {
    ...{ key, start, title, sequence, createdAt, calledOff, line },
    end: length === null ? null : start + length,
    day: moment.isDay ? dayOf(moment.wall) : null,
  };
}

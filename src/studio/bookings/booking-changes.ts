/** What a file changes in the diary that is kept: decided before anything is written. */
import { createHash } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import { plainWords } from '../../../shared/booking-words.js';
import { dayIn } from '../../../shared/calendar.js';
import { instantFrom } from '../../platform/clock.js';
import type { BookedSeries, BookedTime } from './booked-series.js';

/** A booking as it is kept. */
export interface KeptBooking {
  readonly id: string;
  readonly uid_hash: string;
  readonly occurrence: string;
  readonly sequence: number;
  readonly starts_at: Date;
  readonly ends_at: Date | null;
  readonly all_day: boolean;
  readonly day: string;
  readonly who: string | null;
  readonly what: string;
  readonly client_id: string | null;
  readonly called_off_at: Date | null;
  readonly visit_id: string | null;
}

/** A booking as it is written. */
export interface BookingRow {
  readonly id: string;
  readonly uid_hash: string;
  readonly occurrence: string;
  readonly sequence: number;
  readonly starts_at: string;
  readonly ends_at: string | null;
  readonly all_day: boolean;
  readonly day: string;
  readonly who: string | null;
  readonly what: string;
  readonly client_id: string | null;
  readonly booked_at: string;
}

/** What is to be written, and how much of what it is. */
export interface DiaryChanges {
  readonly put: BookingRow[];
  /** All that stands in the file, written or the same. */
  readonly standing: BookingRow[];
  readonly callOff: Set<string>;
  found: number;
  added: number;
  changed: number;
  same: number;
  older: number;
}

/** When and where it is, and who is known there. */
export interface DiaryMoment {
  readonly today: string;
  readonly timeZone: string;
  /** Milliseconds. */
  readonly now: number;
  readonly clients: ReadonlyMap<string, string>;
  /** Names of days before this one are not kept. */
  readonly namesFrom: string;
}

/** The diary's own id, so that nobody's address is kept in it. */
export function hashOf(studioId: string, uid: string): string {
  return createHash('sha256').update(`${studioId} ${uid}`).digest('hex');
}

/** Ids of clients by their whole name; a name that two clients have means neither. */
export function clientsByName(
  rows: readonly { readonly id: string; readonly name: string }[],
): Map<string, string> {
  const found = new Map<string, string>();
  const twice = new Set<string>();
  for (const { id, name } of rows) {
    const plain = plainWords(name);
    if (found.has(plain)) twice.add(plain);
    found.set(plain, id);
  }
  for (const name of twice) found.delete(name);
  return found;
}

/** Decides what the file changes; `kept` are the bookings of its events. */
export function changesOf(
  series: readonly (BookedSeries & { readonly hash: string })[],
  kept: readonly KeptBooking[],
  moment: DiaryMoment,
): DiaryChanges {
  const changes: DiaryChanges = {
    ...{ put: [], standing: [], callOff: new Set() },
    ...{ found: 0, added: 0, changed: 0, same: 0, older: 0 },
  };
  const byHash = new Map<string, KeptBooking[]>();
  for (const row of kept) byHash.set(row.uid_hash, [...(byHash.get(row.uid_hash) ?? []), row]);
  for (const each of series) decideSeries(each, byHash.get(each.hash) ?? [], moment, changes);
  return changes;
}

function decideSeries(
  series: BookedSeries & { readonly hash: string },
  kept: readonly KeptBooking[],
  moment: DiaryMoment,
  changes: DiaryChanges,
): void {
  const { times, hash } = series;
  const known = new Map(kept.map((row) => [row.occurrence, row]));
  for (const time of times) {
    changes.found += 1;
    const before = known.get(time.key);
    known.delete(time.key);
    const row = rowOf(time, hash, before?.id ?? uuidv7(), moment);
    if (before && time.sequence < before.sequence) changes.older += 1;
    else if (time.calledOff) callOff(before, moment, changes);
    else keep(row, before, changes);
  }
  if (!series.isWhole) return;
  const lowest = kept.reduce((least, row) => Math.min(least, row.sequence), Infinity);
  if (series.sequence < lowest) return;
  // Times of the series that are no longer in it; what has been stays as it was.
  for (const row of known.values()) callOff(row, moment, changes);
}

function keep(row: BookingRow, before: KeptBooking | undefined, changes: DiaryChanges): void {
  changes.standing.push(row);
  if (!before) changes.added += 1;
  else if (isSame(row, before)) changes.same += 1;
  else changes.changed += 1;
  if (!before || !isSame(row, before) || row.sequence !== before.sequence) changes.put.push(row);
}

function callOff(
  row: KeptBooking | undefined,
  { today }: DiaryMoment,
  { callOff: off }: DiaryChanges,
): void {
  if (!row || row.called_off_at || row.visit_id || row.day < today) return;
  off.add(row.id);
}

function rowOf(time: BookedTime, hash: string, id: string, moment: DiaryMoment): BookingRow {
  const day = time.day ?? dayIn(moment.timeZone, instantFrom(time.start));
  const client = time.name === null ? undefined : moment.clients.get(plainWords(time.name));
  const isLongGone = day < moment.namesFrom;
  return {
    ...{ id, uid_hash: hash, occurrence: time.key, sequence: time.sequence, day },
    starts_at: instantFrom(time.start),
    ends_at: time.end === null ? null : instantFrom(time.end),
    all_day: time.day !== null,
    who: client !== undefined || isLongGone ? null : time.who,
    what: time.what,
    client_id: client ?? null,
    booked_at: instantFrom(Math.min(time.createdAt ?? moment.now, moment.now)),
  };
}

function isSame(row: BookingRow, before: KeptBooking): boolean {
  return (
    before.called_off_at === null &&
    row.starts_at === before.starts_at.toISOString() &&
    row.ends_at === (before.ends_at?.toISOString() ?? null) &&
    row.all_day === before.all_day &&
    row.who === before.who &&
    row.what === before.what &&
    row.client_id === before.client_id
  );
}

/** Visits to come by service: those in the diary that are kept, and those not booked yet. */
import { dayAfter, daysBetween } from '../calendar.js';
import {
  expectedVisits,
  keepShare,
  pickUp,
  type PastWeek,
  type Uncertain,
} from '../forecasting/bookings.js';

/** A booking as far as it tells of use. Days are studio days, YYYY-MM-DD. */
export interface BookedVisit {
  readonly day: string;
  readonly serviceIds: readonly string[];
  /** A visit was begun from it. */
  readonly came: boolean;
  /** When it came into the diary. */
  readonly bookedOn: string;
  readonly calledOffOn: string | null;
}

/** Visits that were done of a service on a day. */
export interface DoneVisits {
  readonly day: string;
  readonly serviceId: string;
  readonly visits: number;
}

/** What the diary and the visits before say of a studio. */
export interface VisitFacts {
  readonly today: string;
  readonly bookings: readonly BookedVisit[];
  readonly done: readonly DoneVisits[];
  /** Part of the usual open time of the seven days from a day on. */
  readonly openShare: (from: string) => number;
  /** False where the diary was read too long ago to show what is missing from it. */
  readonly isFresh: boolean;
}

/** A past week by its number, 0 the seven days before today. */
export interface SeenWeek extends PastWeek {
  readonly index: number;
}

/** One service in the weeks to come; week 0 begins today. */
export interface ServiceOutlook {
  readonly keep: number;
  readonly booked: readonly number[];
  readonly expected: readonly Uncertain[];
  /** By weeks ahead: past weeks seen at this distance, oldest first, the same of all services. */
  readonly past: readonly (readonly SeenWeek[])[];
}

/** Weeks ahead in which bookings count. */
export const WEEKS_AHEAD = 13;
/** Weeks back that teach. */
export const WEEKS_BACK = 26;
/** Share of bookings kept before a studio has its own; common practice, no source. */
const USUAL_KEEP = 0.9;
/** Fewer past weeks than this say nothing of what is still to be booked. */
const FEWEST_WEEKS = 4;

/**
 * Every service that is booked or was done. Visits of a week: kept bookings and what comes in
 * addition, learned from past weeks seen at the same distance; where the diary is not known for
 * long enough, a usual week's visits less the kept bookings.
 */
export function serviceOutlooks(facts: VisitFacts): Map<string, ServiceOutlook> {
  const { bookings, done } = facts;
  const ids = new Set([
    ...bookings.flatMap(({ serviceIds }) => serviceIds),
    ...done.map(({ serviceId }) => serviceId),
  ]);
  const studio = keptOf(bookings, done, facts.today);
  const usual = keepShare(studio.kept, studio.booked, USUAL_KEEP);
  const openWeeks = weeksWithVisits(done, facts.today);
  return new Map([...ids].map((id) => [id, outlookOf(id, facts, usual, openWeeks)]));
}

/** First days of the past weeks, the latest first: seven days before today, fourteen ... */
function pastWeekStarts(today: string, weeks: number): string[] {
  return Array.from({ length: weeks }, (_, index) => dayAfter(today, -7 * (index + 1)));
}

/** Number of the seven-day stretch that a day lies in, 0 from `start` on; negative before it. */
export function weekOf(start: string, day: string): number {
  return Math.floor(daysBetween(start, day) / 7);
}

function outlookOf(
  serviceId: string,
  facts: VisitFacts,
  usualKeep: number,
  openWeeks: ReadonlySet<number>,
): ServiceOutlook {
  const { today, openShare } = facts;
  const bookings = facts.bookings.filter(({ serviceIds }) => serviceIds.includes(serviceId));
  const done = facts.done.filter((each) => each.serviceId === serviceId);
  const { kept, booked: counted } = keptOf(bookings, done, today);
  const keep = keepShare(kept, counted, usualKeep);
  const booked = new Array<number>(WEEKS_AHEAD).fill(0);
  for (const { day, calledOffOn, came } of bookings) {
    const week = weekOf(today, day);
    if (calledOffOn !== null || came || week < 0 || week >= WEEKS_AHEAD) continue;
    booked[week] = (booked[week] ?? 0) + 1;
  }
  const known = facts.bookings.reduce<string | null>(
    (first, { bookedOn }) => (first === null || bookedOn < first ? bookedOn : first),
    null,
  );
  const weekly = visitsByWeek(done, today);
  const usual = usualWeek(weekly, openWeeks);
  const past = booked.map((_, ahead) =>
    facts.isFresh ? pastWeeks({ bookings, weekly, openWeeks, today, known }, ahead) : [],
  );
  const expected = booked.map((count, ahead) => {
    const open = openShare(dayAfter(today, 7 * ahead));
    const seen = past[ahead] ?? [];
    const more = seen.length >= FEWEST_WEEKS ? pickUp(seen, keep) : unbooked(usual, count * keep);
    return expectedVisits(count, keep, { mean: more.mean * open, variance: more.variance * open });
  });
  return { keep, booked, expected, past };
}

/** A usual week's visits less those that are booked; as uncertain as the part not booked. */
function unbooked(usual: Uncertain, kept: number): Uncertain {
  const mean = Math.max(0, usual.mean - kept);
  return { mean, variance: usual.mean > 0 ? (usual.variance * mean) / usual.mean : 0 };
}

interface PastFacts {
  readonly bookings: readonly BookedVisit[];
  readonly weekly: ReadonlyMap<number, number>;
  readonly openWeeks: ReadonlySet<number>;
  readonly today: string;
  /** The first day that the diary is known on. */
  readonly known: string | null;
}

/**
 * Past weeks, oldest first, each with what was booked when it was as far ahead: bookings that
 * were in the diary by then and not called off by then, beside the visits done in the end.
 */
function pastWeeks(facts: PastFacts, ahead: number): SeenWeek[] {
  const { bookings, weekly, openWeeks, today, known } = facts;
  return pastWeekStarts(today, WEEKS_BACK)
    .map((start, index) => ({ start, index, asOf: dayAfter(start, -7 * ahead) }))
    .filter(({ asOf, index }) => known !== null && asOf >= known && openWeeks.has(index))
    .map(({ start, index, asOf }) => ({
      index,
      bookedThen: bookings.filter(
        ({ day, bookedOn, calledOffOn }) =>
          weekOf(start, day) === 0 &&
          bookedOn <= asOf &&
          (calledOffOn === null || calledOffOn > asOf),
      ).length,
      done: weekly.get(index) ?? 0,
    }))
    .reverse();
}

/**
 * Bookings of past days that had been in the diary the day before, and how many were kept. On a
 * day on which visits were begun from bookings, these were; on any other day as many as there
 * were visits for the service.
 */
function keptOf(
  bookings: readonly BookedVisit[],
  done: readonly DoneVisits[],
  today: string,
): { kept: number; booked: number } {
  const since = dayAfter(today, -7 * WEEKS_BACK);
  const known = bookings.filter(
    ({ day, bookedOn }) => day < today && day >= since && bookedOn < day,
  );
  const begun = new Set(known.filter(({ came }) => came).map(({ day }) => day));
  const visits = new Map<string, number>();
  for (const { day, visits: many } of done) visits.set(day, (visits.get(day) ?? 0) + many);
  let kept = 0;
  for (const booking of known) {
    const { day } = booking;
    const left = visits.get(day) ?? 0;
    if (begun.has(day) ? !booking.came : left <= 0) continue;
    kept += 1;
    visits.set(day, left - 1);
  }
  return { kept, booked: known.length };
}

/** Visits of past weeks by their number: 0 the seven days before today. */
function visitsByWeek(done: readonly DoneVisits[], today: string): Map<number, number> {
  const found = new Map<number, number>();
  for (const { day, visits } of done) {
    const index = -1 - weekOf(today, day);
    if (index >= 0 && index < WEEKS_BACK) found.set(index, (found.get(index) ?? 0) + visits);
  }
  return found;
}

/** Weeks in which anybody was served. */
function weeksWithVisits(done: readonly DoneVisits[], today: string): Set<number> {
  return new Set(visitsByWeek(done, today).keys());
}

function usualWeek(weekly: ReadonlyMap<number, number>, openWeeks: ReadonlySet<number>): Uncertain {
  const counts = [...openWeeks].map((index) => weekly.get(index) ?? 0);
  const n = counts.length;
  if (n === 0) return { mean: 0, variance: 0 };
  const mean = counts.reduce((a, b) => a + b, 0) / n;
  const squares = counts.reduce((a, b) => a + (b - mean) ** 2, 0);
  // Two weeks say little about the spread: visits come by themselves, as Poisson has it.
  return { mean, variance: n > 2 ? squares / (n - 1) : mean };
}

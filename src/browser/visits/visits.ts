/** Today's visits, as little of them as a bench needs; those that are not sent yet included. */
import { useQuery } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import type { VisitView } from '../../../shared/contract/visits.js';
import { shortClientLabel } from '../../../shared/client-label.js';
import { Refused } from '../api/calls.js';
import { bodyOf } from '../api/kept-answers.js';
import { outbox } from '../api/outbox.js';
import type { KeptPosting } from '../api/queue.js';
import { useStudio } from '../catalogue/catalogue.js';
import { handsNow } from '../people/session.js';
import { dayAfter, deviceNow, studioDay } from '../shell/clock.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';

const key = ['visits'];
const closing = /^\/visits\/([^/]+)\/close$/;

/** The call for the visits of a day. */
export function visitsPath(day: string): string {
  return `/visits?from=${day}&to=${dayAfter(day)}&limit=200`;
}

/** Visits that are open today, without the one that is meant already. */
export function useOtherVisits(visitId: string | null): readonly VisitView[] {
  const visits = useVisitsToday(useStudio()?.timeZone);
  return visits.filter((visit) => visit.closedAt === null && visit.id !== visitId);
}

/** Visits of the studio's day, the newest first; as they are with what is not sent yet. */
export function useVisitsToday(timeZone: string | undefined): readonly VisitView[] {
  const day = studioDay(timeZone);
  const { waiting, sent } = useStore(outbox.state);
  const { data } = useQuery({
    queryKey: [...key, day],
    enabled: timeZone !== undefined,
    refetchInterval: 30_000,
    queryFn: () => readVisits(day),
  });
  const ofToday = [...sent, ...waiting].filter(
    ({ writtenAt }) => studioDay(timeZone, writtenAt) === day,
  );
  return withOwn(data ?? [], ofToday);
}

async function readVisits(day: string): Promise<VisitView[]> {
  try {
    return (await bodyOf<{ items: VisitView[] }>(visitsPath(day))).items;
  } catch (error) {
    if (error instanceof Refused && error.status === 404) return [];
    throw error;
  }
}

/** The service's visits, and what this device did to them since. */
function withOwn(visits: readonly VisitView[], postings: readonly KeptPosting[]): VisitView[] {
  const known = new Set(visits.map(({ id }) => id));
  const begun = postings.filter(({ path, id }) => path === '/visits' && !known.has(id));
  const closed = new Map(
    postings.flatMap(({ path, writtenAt }) => {
      const id = closing.exec(path)?.[1];
      return id === undefined ? [] : [[id, writtenAt] as const];
    }),
  );
  return [...begun.map(begunVisit).toReversed(), ...visits].map((visit) => ({
    ...visit,
    closedAt: visit.closedAt ?? closed.get(visit.id) ?? null,
  }));
}

/** A visit that the service has not told of yet. */
function begunVisit({ id, body }: KeptPosting): VisitView {
  const { kind = 'client', startedAt = '', personId = null } = body as Partial<VisitView>;
  return {
    ...{ id, kind, startedAt, personId, closedAt: null },
    ...{ clientId: null, client: null, redoOf: null, redoneBy: [] },
    ...{ services: [], minutes: [], chairMinutes: 0, bowls: [] },
  };
}

/** First name and initial of who sits in the chair, or what else the visit is. */
export function whoIs(visit: VisitView): string {
  if (visit.client) return shortClientLabel(visit.client);
  return visit.kind === 'client' ? texts.visits.walkIn : texts.visits.kinds[visit.kind];
}

/** Starts a visit of nobody in particular, to be named later; without a network, too. */
export function useWalkIn(): () => Promise<string> {
  return startVisit;
}

async function startVisit(): Promise<string> {
  const id = uuidv7();
  const hands = handsNow();
  const body = { id, services: [], startedAt: deviceNow(), ...(hands && { personId: hands.id }) };
  await outbox.post({ id, method: 'POST', path: '/visits', body, what: texts.bookings.visit });
  return id;
}

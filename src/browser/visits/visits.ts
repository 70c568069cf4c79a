/** Today's visits, as little of them as a bench needs. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import type { VisitView } from '../../../shared/contract/visits.js';
import { shortClientLabel } from '../../../shared/client-label.js';
import { Refused, send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { dayAfter, deviceNow, studioDay } from '../shell/clock.js';
import { texts } from '../shell/texts.js';

const key = ['visits'];

/** Visits of the studio's day, the newest first. */
export function useVisitsToday(timeZone: string | undefined): readonly VisitView[] {
  const from = studioDay(timeZone);
  const { data } = useQuery({
    queryKey: [...key, from],
    enabled: timeZone !== undefined,
    refetchInterval: 30_000,
    queryFn: () => readVisits(from, dayAfter(from)),
  });
  return data ?? [];
}

/** Visits that are open today, without the one that is meant already. */
export function useOtherVisits(visitId: string | null): readonly VisitView[] {
  const visits = useVisitsToday(useStudio()?.timeZone);
  return visits.filter((visit) => visit.closedAt === null && visit.id !== visitId);
}

async function readVisits(from: string, to: string): Promise<VisitView[]> {
  try {
    const path = `/visits?from=${from}&to=${to}&limit=200`;
    return ((await send('GET', path)) as { items: VisitView[] }).items;
  } catch (error) {
    if (error instanceof Refused && error.status === 404) return [];
    throw error;
  }
}

/** First name and initial of who sits in the chair, or what else the visit is. */
export function whoIs(visit: VisitView): string {
  if (visit.client) return shortClientLabel(visit.client);
  return visit.kind === 'client' ? texts.visits.walkIn : texts.visits.kinds[visit.kind];
}

/** Starts a visit of nobody in particular, to be named later. */
export function useWalkIn(): () => Promise<string> {
  const queries = useQueryClient();
  return async () => {
    const id = uuidv7();
    const now = deviceNow();
    await send('POST', '/visits', { id, services: [], startedAt: now, sentAt: now });
    await queries.invalidateQueries({ queryKey: key });
    return id;
  };
}

/** Bookings, rules and closed days as the pages ask for them. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import type {
  BookingRulesView,
  BookingRuleView,
  BookingView,
  ClosureView,
} from '../../../shared/contract/bookings.js';
import { send } from '../api/calls.js';
import { deviceNow, studioDay } from '../shell/clock.js';

const key = ['bookings'];

/** Today's bookings, in the order of their times. */
export function useBookedToday(timeZone: string | undefined): readonly BookingView[] {
  const today = studioDay(timeZone);
  const { data } = useQuery({
    queryKey: [...key, today],
    enabled: timeZone !== undefined,
    refetchInterval: 60_000,
    queryFn: async () =>
      ((await send('GET', `/bookings?from=${today}`)) as { items: BookingView[] }).items,
  });
  return data ?? [];
}

/** Begins a booked visit; its id. */
export function useBegin(): (bookingId: string) => Promise<string> {
  const queries = useQueryClient();
  return async (bookingId) => {
    const now = deviceNow();
    const body = { id: uuidv7(), startedAt: now, sentAt: now };
    const path = `/bookings/${bookingId}/visit`;
    const { visitId } = (await send('POST', path, body)) as { visitId: string };
    await Promise.all([
      queries.invalidateQueries({ queryKey: key }),
      queries.invalidateQueries({ queryKey: ['visits'] }),
    ]);
    return visitId;
  };
}

/** Everything that what is booked is part of is asked for anew. */
export function useAnew(): () => Promise<void> {
  const queries = useQueryClient();
  return async () => {
    await Promise.all(
      [key, ['booking-rules'], ['closures'], ['forecasts'], ['order-plan']].map((queryKey) =>
        queries.invalidateQueries({ queryKey }),
      ),
    );
  };
}

/** Rules and the diary's words. */
export function useRules() {
  return useQuery({
    queryKey: ['booking-rules'],
    queryFn: async () => (await send('GET', '/booking-rules')) as BookingRulesView,
  });
}

/** Keeps the rules as they are given, all of them. */
export function useKeepRules(): (rules: readonly BookingRuleView[]) => Promise<void> {
  const anew = useAnew();
  return async (rules) => {
    await send('PUT', '/booking-rules', { rules });
    await anew();
  };
}

/** The menu, by name. */
export function useMenu(): readonly ServiceView[] {
  const { data } = useQuery({
    queryKey: ['services', 'all'],
    staleTime: 30_000,
    queryFn: async () =>
      ((await send('GET', '/services?limit=500')) as { items: ServiceView[] }).items,
  });
  return (data ?? []).toSorted((a, b) => a.name.localeCompare(b.name));
}

/** Closed days, the earliest first. */
export function useClosures() {
  return useQuery({
    queryKey: ['closures'],
    queryFn: async () => ((await send('GET', '/closures')) as { items: ClosureView[] }).items,
  });
}

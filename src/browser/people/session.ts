/** Who is signed in on this device, and in which studio; also while the service does not answer. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { SessionView } from '../../../shared/contract/people.js';
import { answer, calls, Refused, Unreached } from '../api/calls.js';
import { device } from '../api/device.js';
import { bodyOf } from '../api/kept-answers.js';
import { outbox } from '../api/outbox.js';
import { standIn } from '../shell/clock.js';
import { useStore } from '../shell/store.js';
import {
  hands,
  hereToday,
  keepSession,
  keptSession,
  leftToday,
  onlyToday,
  signedInToday,
  signOutDue,
  takeHands,
  type AtBench,
} from './here-today.js';

export type { AtBench } from './here-today.js';

/** The session, and whether it is the service that tells it. */
export interface Session extends SessionView {
  readonly live: boolean;
}

const key = ['session'];
/** Names to choose from on this device. */
export const namesPath = '/session/people';

/** The session; null where this browser is no device of a studio yet. */
export function useSession() {
  return useQuery({ queryKey: key, queryFn: readSession, staleTime: 60_000 });
}

async function readSession(): Promise<Session | null> {
  try {
    if (signOutDue.get()) {
      await answer(calls.DELETE('/api/v1/session'));
      signOutDue.set(false);
    }
    return await opened((await answer(calls.GET('/api/v1/session'))) as SessionView);
  } catch (error) {
    if (error instanceof Refused && error.status === 401) return null;
    const kept = keptSession();
    if (!(error instanceof Unreached) || !kept) throw error;
    standIn(kept.studio.timeZone);
    await device.openStudio(kept.studio.id);
    return { ...kept, live: false };
  }
}

/** What is kept of the studio is open before anything of it is shown. */
async function opened(session: SessionView): Promise<Session> {
  keepSession(session);
  if (session.person && !handsNow()) {
    signedInToday(session.person);
    takeHands(session.person);
  }
  await device.openStudio(session.studio.id);
  return { ...session, live: true };
}

/** The names of the studio's people. */
export function useNames() {
  return useQuery({
    queryKey: ['session', 'people'],
    queryFn: async () => (await bodyOf<{ items: readonly AtBench[] }>(namesPath)).items,
  });
}

/** Another studio opens on this device: only this person of it is here. */
export function onlyHere({ id, name }: AtBench): void {
  onlyToday({ id, name });
  takeHands({ id, name });
}

/** Whose hands work now, and who else may take over without a PIN. */
export function useHands(): { at: AtBench | undefined; others: readonly AtBench[] } {
  const session = useSession().data;
  const at = useStore(hands);
  const others = useStore(hereToday);
  return { at: at ?? session?.person ?? undefined, others };
}

/** The hands that work now, outside of a page. */
export function handsNow(): AtBench | undefined {
  return hands.get();
}

/** What a person can do about the session. */
export interface Signing {
  /** Makes this browser a device; @throws Refused when no studio has this token */
  readonly makeDevice: (token: string) => Promise<void>;
  /** @throws Refused for a wrong PIN */
  readonly signIn: (person: AtBench, pin: string) => Promise<void>;
  /** Somebody else who signed in here today takes over; or a name, to be confirmed. */
  readonly takeOver: (person: AtBench) => void;
  readonly signOut: () => Promise<void>;
}

/** The session's keys. */
export function useSigning(): Signing {
  const queries = useQueryClient();
  const show = async (session: SessionView) =>
    queries.setQueryData(key, (await opened(session)) satisfies Session);
  return {
    makeDevice: async (token) => {
      const body = { token };
      await show((await answer(calls.PUT('/api/v1/session/device', { body }))) as SessionView);
      await queries.invalidateQueries();
    },
    signIn: async ({ id, name }, pin) => {
      const body = { personId: id, pin };
      const session = (await answer(calls.POST('/api/v1/session', { body }))) as SessionView;
      signOutDue.set(false);
      signedInToday({ id, name });
      takeHands({ id, name });
      await show(session);
      void outbox.tryUnentitled();
      await queries.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'session' });
    },
    takeOver: (person) => takeHands(person),
    signOut: async () => {
      leftToday(handsNow()?.id);
      takeHands(undefined);
      signOutDue.set(true);
      await queries.invalidateQueries({ queryKey: key });
    },
  };
}

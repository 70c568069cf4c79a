/** Who is signed in on this device, and in which studio. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { SessionView } from '../../../shared/contract/people.js';
import { answer, calls, Refused } from '../api/calls.js';
import { studioDay } from '../shell/clock.js';
import { store, useStore, type Store } from '../shell/store.js';

const key = ['session'];

/** The session; null where this browser is no device of a studio yet. */
export function useSession() {
  return useQuery({ queryKey: key, queryFn: readSession, staleTime: 60_000 });
}

async function readSession(): Promise<SessionView | null> {
  try {
    return (await answer(calls.GET('/api/v1/session'))) as SessionView;
  } catch (error) {
    if (error instanceof Refused && error.status === 401) return null;
    throw error;
  }
}

/** Names to choose from on this device. */
export function useNames() {
  return useQuery({
    queryKey: ['session', 'people'],
    queryFn: async () => (await answer(calls.GET('/api/v1/session/people'))).items,
  });
}

/** A person at this bench. */
export interface AtBench {
  readonly id: string;
  readonly name: string;
}

/** Those who signed in at this bench today, so that changing hands takes two taps. */
interface HereToday {
  readonly day: string;
  readonly people: readonly AtBench[];
  readonly at: AtBench | undefined;
}

const kept = 'bowlworth.here';
const here: Store<HereToday> = store(readHere());

function readHere(): HereToday {
  const nobody = { day: studioDay(undefined), people: [], at: undefined };
  try {
    const read = JSON.parse(sessionStorage.getItem(kept) ?? 'null') as HereToday | null;
    return read?.day === nobody.day ? read : nobody;
  } catch {
    return nobody;
  }
}

function remember(next: HereToday): void {
  sessionStorage.setItem(kept, JSON.stringify(next));
  here.set(next);
}

/** Another studio opens on this device: only this person of it is here, nobody of the one before. */
export function onlyHere(person: AtBench): void {
  remember({ day: studioDay(undefined), people: [person], at: person });
}

/** Whose hands work now, and who else may take over without a PIN. */
export function useHands() {
  const session = useSession().data;
  const { people, at } = useStore(here);
  const signedIn = session?.person ?? undefined;
  return { at: signedIn && (at ?? signedIn), others: people };
}

/** The hands that work now, outside of a page. */
export function handsNow(): AtBench | undefined {
  return here.get().at;
}

/** What a person can do about the session. */
export interface Signing {
  /** Makes this browser a device; @throws Refused when no studio has this token */
  readonly makeDevice: (token: string) => Promise<void>;
  /** @throws Refused for a wrong PIN */
  readonly signIn: (person: AtBench, pin: string) => Promise<void>;
  /** Somebody else who signed in here today takes over. */
  readonly takeOver: (person: AtBench) => void;
  readonly signOut: () => Promise<void>;
}

/** The session's keys. */
export function useSigning(): Signing {
  const queries = useQueryClient();
  const show = (session: SessionView) => queries.setQueryData(key, session);
  return {
    makeDevice: async (token) => {
      const body = { token };
      show((await answer(calls.PUT('/api/v1/session/device', { body }))) as SessionView);
      await queries.invalidateQueries();
    },
    signIn: async (person, pin) => {
      const body = { personId: person.id, pin };
      const session = (await answer(calls.POST('/api/v1/session', { body }))) as SessionView;
      const day = studioDay(undefined);
      const before = here.get().people.filter((each) => each.id !== person.id);
      remember({ day, people: [...before, person], at: person });
      show(session);
      await queries.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'session' });
    },
    takeOver: (person) => remember({ ...here.get(), at: person }),
    signOut: async () => {
      await answer(calls.DELETE('/api/v1/session'));
      remember({ day: studioDay(undefined), people: [], at: undefined });
      await queries.invalidateQueries({ queryKey: key });
    },
  };
}

/** Who signed in at this bench today, whose hands work now, and what is known of the session. */
import type { SessionView } from '../../../shared/contract/people.js';
import { standIn, today } from '../shell/clock.js';
import { store, type Store } from '../shell/store.js';

/** A person at this bench. */
export interface AtBench {
  readonly id: string;
  readonly name: string;
  /** The name was chosen while nobody could check the PIN. */
  readonly unconfirmed?: boolean;
}

interface Hands {
  readonly day: string;
  readonly at: AtBench | undefined;
}

interface HereToday {
  readonly day: string;
  readonly people: readonly AtBench[];
}

const sessionPlace = 'bowlworth.session';
const peoplePlace = 'bowlworth.today';
const handsPlace = 'bowlworth.hands';
const signOutPlace = 'bowlworth.signed-out';

/** The studio and the device, as the service told them last; never a PIN, nobody's rights. */
export function keptSession(): SessionView | undefined {
  return read<SessionView>(localStorage, sessionPlace);
}

/** Keeps what a device needs to open when nobody answers. */
export function keepSession({ studio, bench }: SessionView): void {
  standIn(studio.timeZone);
  const kept: SessionView = { studio, role: 'bench', person: null, bench, expiresAt: null };
  localStorage.setItem(sessionPlace, JSON.stringify(kept));
}

const known = keptSession();
if (known) standIn(known.studio.timeZone);

/** Whose hands work now; the tab's own, and gone with the day. */
export const hands: Store<AtBench | undefined> = store(readHands());

/** Those who signed in here today, by PIN. */
export const hereToday: Store<readonly AtBench[]> = store(readPeople());

/** These hands work from now on. */
export function takeHands(at: AtBench | undefined): void {
  const kept: Hands = { day: today(), at };
  sessionStorage.setItem(handsPlace, JSON.stringify(kept));
  hands.set(at);
}

/** A person has given the right PIN today. */
export function signedInToday(person: AtBench): void {
  keepPeople([...readPeople().filter(({ id }) => id !== person.id), person]);
}

/** Nobody else has. */
export function onlyToday(person: AtBench): void {
  keepPeople([person]);
}

/** A person has left: without the service only by name again. */
export function leftToday(personId: string | undefined): void {
  keepPeople(readPeople().filter(({ id }) => id !== personId));
}

/** The service has not heard yet that somebody signed out here. */
export const signOutDue = {
  get: () => localStorage.getItem(signOutPlace) !== null,
  set: (due: boolean) =>
    due ? localStorage.setItem(signOutPlace, 'yes') : localStorage.removeItem(signOutPlace),
};

/** A new day: nobody is here yet. Called now and then. */
export function forgetYesterdaysPeople(): void {
  const people = readPeople();
  if (people.length !== hereToday.get().length) keepPeople(people);
  if (hands.get() && !readHands()) hands.set(undefined);
}

function keepPeople(people: readonly AtBench[]): void {
  const kept: HereToday = { day: today(), people };
  localStorage.setItem(peoplePlace, JSON.stringify(kept));
  hereToday.set(people);
}

function readPeople(): readonly AtBench[] {
  const kept = read<HereToday>(localStorage, peoplePlace);
  return kept?.day === today() ? kept.people : [];
}

function readHands(): AtBench | undefined {
  const kept = read<Hands>(sessionStorage, handsPlace);
  return kept?.day === today() ? kept.at : undefined;
}

function read<T>(from: Storage, place: string): T | undefined {
  try {
    return (JSON.parse(from.getItem(place) ?? 'null') as T | null) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Leaving one studio for another on the same device: nothing of the one is seen in the other. */
import type { SessionView } from '../../../shared/contract/people.js';
import { outbox } from '../api/outbox.js';
import { onlyHere } from '../people/session.js';
import { prefer } from '../shell/preferences.js';

/** What the page keeps of a studio beside its session; bowls and entries are kept by studio. */
const keptOfStudio = ['bowlworth.lately'];

/** So many entries of the studio that is open here wait to be sent, or to be looked at. */
export function notSentHere(): number {
  const { waiting, refused } = outbox.state.get();
  return waiting.length + refused.length;
}

/**
 * Takes what this device keeps of the studio before off it, and lets the one that was opened in;
 * what the service has of either stays there.
 */
export function enterStudio({ person }: SessionView): void {
  for (const key of keptOfStudio) localStorage.removeItem(key);
  prefer({ firstDayDone: false });
  if (person) onlyHere(person);
}

/** Begins anew at a place: nothing that is held in memory comes along. */
export function beginAt(address: string): void {
  location.hash = address;
  location.reload();
}

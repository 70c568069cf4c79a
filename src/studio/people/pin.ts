/** PINs are kept as argon2id hashes, and wrong ones make a person wait on that device. */
import { hash, verify } from '@node-rs/argon2';

/** Argon2id with the parameters that OWASP's Password Storage Cheat Sheet names as minimum. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** The text to keep of a PIN. */
export function hashPin(pin: string): Promise<string> {
  return hash(pin, cost);
}

/** True when `pin` is the one that was hashed. */
export function isPin(kept: string, pin: string): Promise<boolean> {
  return verify(kept, pin);
}

/** Wrong PINs of one person on one device since the last right one. */
export interface WrongPins {
  readonly tries: number;
  readonly locks: number;
  readonly lockedUntilMs: number;
}

export const triesBeforeLock = 5;
const firstLockMs = 5 * 60_000;

/** After one more wrong PIN: the fifth locks for 5 minutes, each later fifth for twice as long. */
export function oneMoreWrong(before: WrongPins, nowMs: number): WrongPins {
  const tries = before.tries + 1;
  if (tries < triesBeforeLock) return { ...before, tries };
  const lockMs = firstLockMs * 2 ** Math.min(before.locks, 16);
  return { tries: 0, locks: before.locks + 1, lockedUntilMs: nowMs + lockMs };
}

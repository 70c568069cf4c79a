/** What somebody who comes late is told of a scale: why it is away, or its latest reading. */
import type { ScaleAway } from '../contract/scales.js';
import type { Told } from './wire.js';

/** An older reading is not told: the scale may sleep, and its plate may hold something else. */
export const freshMs = 2000;

/** How a scale stands, by what it told last. */
export interface LastHeard {
  /** Why no reading can come. */
  readonly trouble: ScaleAway | undefined;
  readonly latest: { readonly told: Extract<Told, { type: 'reading' }>; atMs: number } | undefined;
}

/** Nobody has told anything yet. */
export const nothingHeard: LastHeard = { trouble: 'nobody_there', latest: undefined };

/** How it stands after one more message, at a moment of the caller's clock in ms. */
export function heardAlso(before: LastHeard, told: Told, atMs: number): LastHeard {
  switch (told.type) {
    case 'lost':
      return { trouble: told.trouble, latest: undefined };
    case 'back':
      return { trouble: undefined, latest: undefined };
    case 'damage':
      return { trouble: undefined, latest: before.latest };
    case 'reading':
      return { trouble: undefined, latest: { told, atMs } };
  }
}

/** What a newcomer is told at a moment: the trouble, else the latest reading while it is fresh. */
export function newcomerHears({ trouble, latest }: LastHeard, atMs: number): readonly Told[] {
  if (trouble) return [{ type: 'lost', trouble }];
  return latest && atMs - latest.atMs <= freshMs ? [latest.told] : [];
}

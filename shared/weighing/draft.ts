/** One step under way: the next state while it is being worked out, and what happened in it. */
import { decimal, larger, type Decimal } from '../decimal.js';
import type { Happening } from './happenings.js';
import { bowlGrams } from './limits.js';
import type { BowlInHand, Weight, WeighingState } from './state.js';

/** A copy of the state that one step may change; nothing outside the step ever sees it. */
export interface Draft {
  readonly atMs: number;
  readonly next: { -readonly [K in keyof WeighingState]: WeighingState[K] };
  readonly happened: Happening[];
}

const two = decimal('2');
const five = decimal('5');

/** Two intervals of the scale, in grams: weights no further apart count as the same. */
export function play({ next }: Draft): Decimal {
  return next.intervalGrams.times(two);
}

/** Below this, in grams gross, the bowl in hand is off the plate (half of its tare). */
export function liftBelow(draft: Draft, bowl: BowlInHand | undefined = draft.next.bowl): Decimal {
  const least = larger(bowlGrams, draft.next.intervalGrams.times(five));
  return bowl && !bowl.isPack ? larger(least, bowl.tareGrams.dividedBy(two)) : least;
}

/** Forgets what the weight was doing: after a jump, an interruption, another unit. */
export function lookAfresh({ next }: Draft): void {
  next.window = [];
  next.still = undefined;
  next.top = undefined;
  next.press = undefined;
}

/** Follows a weight: since when it stands still, and its top before a fall. */
export function follow(draft: Draft, weight: Weight): void {
  const { next } = draft;
  const { still, top } = next;
  const before = next.window.at(-2);
  const falls = before?.grams.minus(weight.grams).greaterThan(play(draft)) ?? false;
  next.top = top && falls ? top : { atMs: weight.atMs, grams: weight.grams };
  if (!weight.stable) return;
  const same = still?.grams.minus(weight.grams).abs().lessThanOrEqualTo(next.intervalGrams);
  next.still = {
    grams: weight.grams,
    sinceMs: still && same ? still.sinceMs : weight.atMs,
    atMs: weight.atMs,
    windowMs: weight.windowMs,
  };
}

/** Puts a new level of contents, in grams net, on the bowl in hand. */
export function setLevel({ next }: Draft, netGrams: Decimal, stable: boolean, windowMs: number) {
  if (!next.bowl) return;
  next.bowl = {
    ...next.bowl,
    levelGrams: netGrams,
    levelStable: stable,
    levelWindowMs: windowMs,
  };
}

/** Moves the start of the due pour, so that a change that is not its own does not count. */
export function shiftStart({ next }: Draft, grams: Decimal): void {
  if (next.due) next.due = { ...next.due, startGrams: next.due.startGrams.plus(grams) };
}

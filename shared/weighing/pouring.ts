/** The pour that is due: how far it is, when it is moved on from, and what dripped after it. */
import { decimal, larger, smaller, zero, type Decimal } from '../decimal.js';
import { setLevel, shiftStart, type Draft } from './draft.js';
import type { MoveOnReason, PourWanted } from './happenings.js';
import { dripGrams, dripMs, fewestIntervals } from './limits.js';
import type { BowlInHand, DuePour, WeighingState } from './state.js';

const two = decimal('2');
const share = decimal('0.02');

/** Tolerance of a pour in grams: the larger of two intervals and 2 % of its target. */
export function usualBand(targetGrams: Decimal, intervalGrams: Decimal): Decimal {
  return larger(intervalGrams.times(two), targetGrams.times(share));
}

/** Makes a pour due; one that was due before and holds something is moved on from first. */
export function startPour(draft: Draft, wanted: PourWanted): void {
  const { next } = draft;
  if (next.due && inBowl(next)?.greaterThanOrEqualTo(next.intervalGrams)) moveOnNow(draft, 'tap');
  next.due = {
    id: wanted.id,
    targetGrams: wanted.targetGrams,
    bandGrams: wanted.bandGrams ?? usualBand(wanted.targetGrams, next.intervalGrams),
    startsClock: wanted.startsClock ?? false,
    startGrams: next.bowl?.levelGrams ?? zero,
    scoopedGrams: zero,
    tappedAtMs: undefined,
  };
  if (wanted.targetGrams.lessThan(next.intervalGrams.times(fewestIntervals))) {
    const { intervalGrams } = next;
    draft.happened.push({ type: 'too_light', pourId: wanted.id, intervalGrams });
  }
}

/** Grams of the due pour that are in the bowl at a net weight (out of the pack, for a pack). */
export function progress(bowl: BowlInHand, due: DuePour, netGrams: Decimal): Decimal {
  const risen = netGrams.minus(due.startGrams);
  return bowl.isPack ? risen.negated() : risen;
}

/** The same at the last level; undefined when no pour is due or no bowl is in hand. */
export function inBowl({ bowl, due }: WeighingState): Decimal | undefined {
  return bowl && due && progress(bowl, due, bowl.levelGrams);
}

/** Moves on from the due pour at the last level of the bowl. */
export function moveOnNow(draft: Draft, why: MoveOnReason): void {
  const { bowl } = draft.next;
  if (bowl) moveOn(draft, why, bowl.levelGrams, bowl.levelStable, bowl.levelWindowMs);
}

/** Moves on from the due pour at a net weight; nothing poured is no pour. */
export function moveOn(
  draft: Draft,
  why: MoveOnReason,
  netGrams: Decimal,
  stable: boolean,
  windowMs: number,
): void {
  const { next, happened } = draft;
  const { bowl, due, intervalGrams } = next;
  if (!bowl || !due) return;
  closePour(draft, zero);
  const held = progress(bowl, due, netGrams);
  const grams = held.plus(due.scoopedGrams);
  if (grams.lessThan(intervalGrams)) {
    next.due = { ...due, tappedAtMs: undefined };
    happened.push({ type: 'nothing_poured', pourId: due.id });
    return;
  }
  const { id: pourId, targetGrams } = due;
  const record = { pourId, grams, targetGrams, intervalGrams, stable, windowMs };
  happened.push({ type: 'moved_on', why, ...record });
  const over = held.minus(targetGrams);
  if (over.greaterThan(due.bandGrams)) {
    happened.push({ type: 'overshot', pourId, overGrams: over });
  } else if (over.negated().greaterThan(due.bandGrams)) {
    happened.push({ type: 'fell_short', pourId, missingGrams: over.negated() });
  }
  next.closing = { record, movedAtMs: draft.atMs, netGrams };
  next.due = undefined;
  next.bowl = { ...bowl, touched: bowl.touched || due.startsClock, lastPourId: pourId };
  setLevel(draft, netGrams, stable, windowMs);
}

/** Whether the pour moved on from may still drip. */
export function mayDrip({ next, atMs }: Draft): boolean {
  return next.closing !== undefined && atMs - next.closing.movedAtMs < dripMs;
}

/**
 * Looks at the pour moved on from: a rise of more than a drip is the next pour and closes it; at
 * the end of its time, or at a lift, a small rise at `stillNet` is its drip.
 */
export function watchDrips(draft: Draft, netGrams: Decimal, stillNet: Decimal | undefined): void {
  const { closing, bowl } = draft.next;
  if (!closing) return;
  if (!bowl?.isPack && netGrams.minus(closing.netGrams).greaterThan(dripGrams)) {
    closePour(draft, zero);
  } else if (!mayDrip(draft)) {
    closeWithDrip(draft, stillNet);
  }
}

/** Closes the pour moved on from; what the bowl gained since, if at most a drip, is its own. */
export function closeWithDrip(draft: Draft, stillNet: Decimal | undefined): void {
  const { closing, bowl } = draft.next;
  if (!closing) return;
  const risen = bowl?.isPack ? zero : (stillNet?.minus(closing.netGrams) ?? zero);
  const isDrip =
    risen.greaterThanOrEqualTo(draft.next.intervalGrams) && risen.lessThanOrEqualTo(dripGrams);
  closePour(draft, isDrip ? risen : zero);
}

/** The record of the pour moved on from is final, with what dripped after it. */
export function closePour(draft: Draft, drippedGrams: Decimal): void {
  const { next, happened } = draft;
  const { closing, bowl } = next;
  if (!closing) return;
  const { record } = closing;
  next.closing = undefined;
  if (drippedGrams.greaterThan(zero)) {
    happened.push({ type: 'dripped', pourId: record.pourId, grams: drippedGrams });
    if (bowl) next.bowl = { ...bowl, levelGrams: bowl.levelGrams.plus(drippedGrams) };
    shiftStart(draft, drippedGrams);
  }
  happened.push({ type: 'poured', ...record, grams: record.grams.plus(drippedGrams) });
}

/** A fall with the bowl on the plate, in grams: scooped back, or taken out of a mixed bowl. */
export function fall(draft: Draft, grams: Decimal): void {
  const { next, happened } = draft;
  const { bowl, due } = next;
  if (!bowl) return;
  closePour(draft, zero);
  if (bowl.touched) {
    happened.push({ type: 'taken_out', grams });
    shiftStart(draft, grams.negated());
    return;
  }
  const held = larger(zero, inBowl(next) ?? zero);
  const own = smaller(grams, held);
  const pourId = due && own.greaterThan(zero) ? due.id : bowl.lastPourId;
  happened.push({ type: 'scooped_back', pourId, grams });
  if (due) next.due = { ...due, scoopedGrams: due.scoopedGrams.plus(own) };
  shiftStart(draft, own.minus(grams));
}

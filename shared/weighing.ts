/** Weighing a bowl: readings and taps go in, what happened comes out; pure, without a clock. */
import { zero, type Decimal } from './decimal.js';
import type { Reading } from './scales/reading.js';
import { liftBelow, lookAfresh, play, setLevel, type Draft } from './weighing/draft.js';
import type { Happening, WeighingEvent } from './weighing/happenings.js';
import {
  connect,
  countDamage,
  hear,
  listenForSilence,
  lose,
  weighAgain,
} from './weighing/instrument.js';
import { jumpMs } from './weighing/limits.js';
import { lift, weighBowl } from './weighing/on-plate.js';
import { identify, weighPlate } from './weighing/plate.js';
import { closeWithDrip, inBowl, mayDrip, moveOnNow, startPour } from './weighing/pouring.js';
import { judge, lookBack } from './weighing/stability.js';
import type { Expected, Weight, WeighingState } from './weighing/state.js';

/** The state after an event, and what happened in it, in order. */
export interface Weighed {
  readonly state: WeighingState;
  readonly happenings: readonly Happening[];
}

/** One event. Never throws; the state given is not changed. */
export function step(state: WeighingState, event: WeighingEvent): Weighed {
  const draft: Draft = { atMs: event.atMs, next: { ...state }, happened: [] };
  take(draft, event);
  closeInTime(draft);
  return { state: draft.next, happenings: draft.happened };
}

/** Several events in order; the happenings of all of them. */
export function steps(state: WeighingState, events: Iterable<WeighingEvent>): Weighed {
  const happenings: Happening[] = [];
  let current = state;
  for (const event of events) {
    const weighed = step(current, event);
    current = weighed.state;
    happenings.push(...weighed.happenings);
  }
  return { state: current, happenings };
}

/** What a page shows: contents, the due pour in the bowl and to go, the scale's own display. */
export interface WeighingView {
  readonly netGrams: Decimal | undefined;
  readonly stable: boolean;
  readonly pouredGrams: Decimal | undefined;
  readonly toGoGrams: Decimal | undefined;
  readonly ownDisplay: Decimal | undefined;
}

/** The figures of the moment, in grams; while the bowl is off the plate, the kept ones. */
export function viewOf(state: WeighingState): WeighingView {
  const { bowl, weight, due, plate, ownDisplay } = state;
  const live = plate === 'on' && state.instrument === 'weighing' && weight !== undefined;
  const netGrams = bowl && (live ? weight.grams.minus(bowl.tareGrams) : bowl.levelGrams);
  const pouredGrams =
    bowl && due && inBowl({ ...state, bowl: { ...bowl, levelGrams: netGrams ?? zero } });
  return {
    netGrams,
    stable: live && weight.stable,
    pouredGrams,
    toGoGrams: pouredGrams && due?.targetGrams.minus(pouredGrams),
    ownDisplay,
  };
}

function take(draft: Draft, event: WeighingEvent): void {
  switch (event.type) {
    case 'connected':
      return connect(draft);
    case 'lost':
      return lose(draft);
    case 'damage':
      return countDamage(draft);
    case 'tick':
      return listenForSilence(draft);
    case 'reading':
      return takeReading(draft, event.reading);
    case 'use_bowl':
      return useBowl(draft, event.bowl);
    case 'pour':
      levelWithPlate(draft);
      return startPour(draft, event.pour);
    case 'withdraw_pour':
      draft.next.due = undefined;
      return;
    case 'tap':
      return tap(draft);
    case 'weigh':
      draft.next.weighAsked = true;
      return;
    case 'bowl_done':
      return putAside(draft);
    case 'leave_residue':
      return leaveResidue(draft);
    case 'carry_on':
      return carryOn(draft);
    case 'it_was_lifted':
      if (draft.next.plate === 'zero_asked') draft.next.plate = 'lifted';
      return;
  }
}

function takeReading(draft: Draft, reading: Reading): void {
  const { next } = draft;
  const modeBefore = next.mode;
  const ownGrams = hear(draft, reading);
  if (!ownGrams) {
    belowItsZero(draft, reading);
    return;
  }
  if (ownGrams.plus(next.zeroGrams).lessThan(liftBelow(draft).negated())) carryOn(draft);
  const grams = ownGrams.plus(next.zeroGrams);
  if (!grams.lessThan(play(draft).negated())) weighAgain(draft);
  const window = lookBack(next.window, { atMs: draft.atMs, grams }, next.settings.stability);
  const { intervalGrams, settings } = next;
  const stability = judge(window, reading.stable, intervalGrams, settings.stability);
  const weight: Weight = { atMs: draft.atMs, grams, ...stability };
  const { bowl, interrupted } = next;
  next.window = window;
  next.interrupted = false;
  if (next.plate === 'on' && bowl) {
    const jumped = jumpsToZero(draft, reading, interrupted, modeBefore);
    weighBowl(draft, bowl, weight, jumped);
  } else {
    weighPlate(draft, weight, ownGrams);
  }
  next.weight = weight;
}

/** The zero key: from a still load straight to exactly zero, with nothing in between. */
function jumpsToZero(
  { next, atMs }: Draft,
  reading: Reading,
  interrupted: boolean,
  modeBefore: WeighingState['mode'],
): boolean {
  if (!reading.grams?.isZero() || reading.stable === false) return false;
  const { still, bowl } = next;
  const before = still?.grams ?? bowl?.tareGrams.plus(bowl.levelGrams) ?? zero;
  if (before.minus(next.zeroGrams).abs().lessThanOrEqualTo(next.intervalGrams)) return false;
  if (interrupted || (modeBefore === 'gross' && reading.mode === 'net')) return true;
  const nothingBetween = still !== undefined && still.atMs === next.weight?.atMs;
  return nothingBetween && atMs - still.atMs <= jumpMs;
}

/** Under its own zero, after the zero key was pressed with the bowl on: the bowl was lifted. */
function belowItsZero(draft: Draft, reading: Reading): void {
  const { next } = draft;
  if (reading.status !== 'under' || !next.bowl) return;
  if (next.plate === 'zero_asked') carryOn(draft);
  if (next.plate === 'on' && next.zeroGrams.greaterThanOrEqualTo(liftBelow(draft))) {
    lift(draft, next.bowl);
  }
}

function useBowl(draft: Draft, said: Expected): void {
  if (draft.next.bowl) putAside(draft);
  const { plate, weight } = draft.next;
  draft.next.expected = said;
  if (plate === 'unidentified' && weight?.stable) identify(draft, said, weight);
  else if (plate === 'unidentified') draft.next.plate = 'settling';
}

/** A pour begins at what stands on the plate now, unless the pour before may still drip. */
function levelWithPlate(draft: Draft): void {
  const { bowl, plate, weight, closing } = draft.next;
  if (!bowl || plate !== 'on' || !weight?.stable || closing) return;
  const net = weight.grams.minus(bowl.tareGrams);
  if (net.minus(bowl.levelGrams).abs().greaterThan(play(draft))) return;
  setLevel(draft, net, true, weight.windowMs);
}

function tap(draft: Draft): void {
  const { next } = draft;
  const { due, plate, weight, bowl } = next;
  if (!due || !bowl) return;
  const live = plate === 'on' && next.instrument === 'weighing' && weight;
  if (live && !weight.stable) {
    next.due = { ...due, tappedAtMs: draft.atMs };
    draft.happened.push({ type: 'waiting_to_settle', pourId: due.id });
    return;
  }
  if (live) setLevel(draft, weight.grams.minus(bowl.tareGrams), true, weight.windowMs);
  moveOnNow(draft, 'tap');
  if (!live) closeWithDrip(draft, undefined);
}

/** The bowl is settled or put aside; a pour under way is moved on from first. */
function putAside(draft: Draft): void {
  const { next } = draft;
  if (next.due && inBowl(next)?.greaterThanOrEqualTo(next.intervalGrams)) {
    moveOnNow(draft, 'bowl_done');
  }
  closeWithDrip(draft, undefined);
  const stands = next.plate === 'on' || next.plate === 'returning';
  next.plate = stands ? 'unidentified' : 'empty';
  next.bowl = undefined;
  next.due = undefined;
  next.expected = undefined;
  next.weighAsked = false;
}

/** What lies on the empty plate stays there and is taken off every weight from now on. */
function leaveResidue(draft: Draft): void {
  const { next } = draft;
  if (!next.residueGrams) return;
  next.zeroGrams = next.zeroGrams.minus(next.residueGrams);
  next.residueGrams = undefined;
  lookAfresh(draft);
}

/** The zero key was pressed: the scale's zero is the weight that stood there. */
function carryOn(draft: Draft): void {
  const { next } = draft;
  const { bowl } = next;
  if (next.plate !== 'zero_asked' || !bowl) return;
  next.zeroGrams = bowl.tareGrams.plus(bowl.levelGrams);
  next.plate = 'on';
  lookAfresh(draft);
  draft.happened.push({ type: 'carried_on', netGrams: bowl.levelGrams });
}

/** The time for drips is over, with or without a reading. */
function closeInTime(draft: Draft): void {
  const { closing, still, bowl } = draft.next;
  if (!closing || mayDrip(draft)) return;
  const stillNet = bowl && still && still.atMs > closing.movedAtMs ? still : undefined;
  closeWithDrip(draft, stillNet?.grams.minus(bowl?.tareGrams ?? zero));
}

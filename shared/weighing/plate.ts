/** What stands on the plate when nothing is poured: bowls set down, lifted, back; residue. */
import { zero, type Decimal } from '../decimal.js';
import { follow, liftBelow, lookAfresh, play, setLevel, shiftStart, type Draft } from './draft.js';
import { rinsedGrams } from './limits.js';
import type { BowlInHand, Expected, Weight } from './state.js';
import { chooseTare } from './tare.js';

/** One weight while nothing, or nothing known, stands on the plate. */
export function weighPlate(draft: Draft, weight: Weight, ownGrams: Decimal): void {
  const { next } = draft;
  follow(draft, weight);
  switch (next.plate) {
    case 'empty':
    case 'lifted':
      bare(draft, weight, ownGrams);
      break;
    case 'settling':
      settle(draft, weight);
      break;
    case 'unidentified':
      if (weight.grams.lessThan(liftBelow(draft))) leave(draft, 'empty');
      break;
    case 'returning':
      comeBack(draft, weight);
      break;
    case 'zero_asked':
      backFromZero(draft, weight);
      break;
    case 'on':
      break;
  }
}

function leave(draft: Draft, plate: 'empty' | 'lifted'): void {
  draft.next.plate = plate;
  lookAfresh(draft);
}

/** A plate without a bowl: one is set down, or something was left on it. */
function bare(draft: Draft, weight: Weight, ownGrams: Decimal): void {
  const { next, happened } = draft;
  if (next.plate === 'empty' && !next.zeroGrams.isZero() && ownGrams.isZero()) {
    next.zeroGrams = zero;
    lookAfresh(draft);
    happened.push({ type: 'zeroed' });
    return;
  }
  // the bowl in hand may be light; what is set down counts from the least a bowl weighs
  if (weight.grams.greaterThanOrEqualTo(liftBelow(draft))) {
    next.plate = next.bowl ? 'returning' : 'settling';
    next.residueGrams = undefined;
    lookAfresh(draft);
    next.window = [{ atMs: weight.atMs, grams: weight.grams }];
    return;
  }
  if (weight.stable) lookForResidue(draft, weight.grams);
}

function lookForResidue(draft: Draft, grams: Decimal): void {
  const { next, happened } = draft;
  const { residueGrams, intervalGrams } = next;
  if (grams.greaterThanOrEqualTo(intervalGrams)) {
    if (residueGrams && residueGrams.minus(grams).abs().lessThanOrEqualTo(intervalGrams)) return;
    next.residueGrams = grams;
    happened.push({ type: 'residue', grams });
  } else if (residueGrams) {
    next.residueGrams = undefined;
    happened.push({ type: 'plate_clear' });
  } else if (grams.lessThanOrEqualTo(intervalGrams.negated()) && next.zeroGrams.isNegative()) {
    next.zeroGrams = zero; // what was left on the plate has been wiped after all
    lookAfresh(draft);
    happened.push({ type: 'plate_clear' });
  } else if (grams.lessThan(play(draft).negated()) && next.instrument !== 'under_zero') {
    next.instrument = 'under_zero';
    happened.push({ type: 'under_zero' });
  }
}

function settle(draft: Draft, weight: Weight): void {
  if (weight.grams.lessThan(liftBelow(draft))) {
    leave(draft, 'empty');
  } else if (weight.stable) {
    draft.next.plate = 'unidentified';
    const { expected } = draft.next;
    if (expected) identify(draft, expected, weight);
    else draft.happened.push({ type: 'set_down', grossGrams: weight.grams });
  }
}

/** The still weight on the plate is the bowl (or pack) that was announced. */
export function identify(draft: Draft, said: Expected, weight: Weight): void {
  const { next, happened } = draft;
  const tare = said.isPack
    ? { grams: zero, source: 'request' as const }
    : chooseTare(said.tares, weight.grams.minus(said.contentsGrams));
  const net = weight.grams.minus(tare.grams);
  next.expected = undefined;
  next.plate = 'on';
  next.bowl = newBowl(said, tare.grams, tare.source, net, weight.windowMs);
  const differenceGrams = net.minus(said.contentsGrams);
  const goesOn = said.cutOff === true && differenceGrams.greaterThan(play(draft));
  const startGrams = goesOn ? said.contentsGrams : net;
  if (next.due) next.due = { ...next.due, startGrams, scoopedGrams: zero };
  if (said.isPack) return;
  happened.push({ type: 'tared', tareGrams: tare.grams, source: tare.source });
  if (goesOn && next.due) happened.push({ type: 'resumed', netGrams: net });
  else if (said.contentsGrams.isZero()) {
    if (net.greaterThanOrEqualTo(rinsedGrams)) {
      happened.push({ type: 'rinsed_question', grams: net });
    }
  } else if (differenceGrams.abs().greaterThan(play(draft))) {
    happened.push({ type: 'came_back', netGrams: net, differenceGrams });
  } else {
    happened.push({ type: 'resumed', netGrams: net });
  }
}

function newBowl(
  said: Expected,
  tareGrams: Decimal,
  tareSource: BowlInHand['tareSource'],
  levelGrams: Decimal,
  levelWindowMs: number,
): BowlInHand {
  const { isPack, touched } = said;
  return {
    tareGrams,
    tareSource,
    isPack,
    levelGrams,
    levelStable: true,
    levelWindowMs,
    touched,
    lastPourId: undefined,
  };
}

/**
 * The bowl in hand was set down again. Within two intervals of what it weighed it resumes;
 * otherwise the difference is told. With a pour due, what came in while it was away (what went
 * out of a pack) is that pour; anything else is not.
 */
function comeBack(draft: Draft, weight: Weight): void {
  const { next, happened } = draft;
  const bowl = next.bowl!;
  if (weight.grams.lessThan(liftBelow(draft))) {
    leave(draft, 'lifted');
    return;
  }
  if (!weight.stable) return;
  const net = weight.grams.minus(bowl.tareGrams);
  const differenceGrams = net.minus(bowl.levelGrams);
  const same = differenceGrams.abs().lessThanOrEqualTo(play(draft));
  const isPour = next.due !== undefined && (bowl.isPack || (!same && differenceGrams.gt(zero)));
  if (!isPour) shiftStart(draft, differenceGrams);
  setLevel(draft, net, true, weight.windowMs);
  next.plate = 'on';
  if (same || bowl.isPack) happened.push({ type: 'resumed', netGrams: net });
  else happened.push({ type: 'came_back', netGrams: net, differenceGrams });
}

/** After a jump to zero: the old weight is back, so it had been lifted and set down. */
function backFromZero(draft: Draft, weight: Weight): void {
  const { next } = draft;
  const bowl = next.bowl!;
  const kept = bowl.tareGrams.plus(bowl.levelGrams);
  if (!weight.stable || weight.grams.minus(kept).abs().greaterThan(play(draft))) return;
  next.plate = 'returning';
  comeBack(draft, weight);
}

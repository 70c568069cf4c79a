/** A bowl standing on the plate: pour, rise and fall, press of a knuckle, zero key, lift. */
import { larger, type Decimal } from '../decimal.js';
import { follow, liftBelow, lookAfresh, play, setLevel, type Draft } from './draft.js';
import { jumpMs, beforeLiftMs, fallHeldMs, pressGrams, pressMs, settleMs } from './limits.js';
import { closeWithDrip, fall, inBowl, mayDrip, moveOn, progress, watchDrips } from './pouring.js';
import type { BowlInHand, Still, Weight } from './state.js';

/** One weight while the bowl in hand stands on the plate. */
export function weighBowl(draft: Draft, bowl: BowlInHand, weight: Weight, jumpedToZero: boolean) {
  if (pressing(draft, weight)) return;
  if (jumpedToZero) {
    askAboutZero(draft, bowl);
    return;
  }
  if (weight.grams.lessThan(liftBelow(draft, bowl))) {
    lift(draft, bowl);
    return;
  }
  follow(draft, weight);
  const net = weight.grams.minus(bowl.tareGrams);
  const { still, due } = draft.next;
  watchDrips(draft, net, still && still.grams.minus(bowl.tareGrams));
  if (weight.stable && still) {
    standsStill(draft, net, weight, still);
  } else if (due?.tappedAtMs !== undefined && draft.atMs - due.tappedAtMs >= settleMs) {
    moveOn(draft, 'tap', net, false, weight.windowMs);
  }
}

/** A sudden load that goes away again: true while it lasts, and when it was a press or a bump. */
function pressing(draft: Draft, weight: Weight): boolean {
  const { next, atMs, happened } = draft;
  const { still, press } = next;
  if (!press) {
    const sudden =
      still !== undefined &&
      atMs - still.atMs <= jumpMs &&
      weight.grams.minus(still.grams).greaterThanOrEqualTo(pressGrams);
    if (sudden) next.press = { atMs, grams: still.grams };
    return sudden;
  }
  const above = weight.grams.minus(press.grams);
  const lastedMs = atMs - press.atMs;
  if (above.abs().lessThanOrEqualTo(play(draft))) {
    next.press = undefined;
    const type = lastedMs >= pressMs.least && lastedMs <= pressMs.most ? 'knuckle' : 'bumped';
    happened.push({ type });
    return true;
  }
  if (above.isNegative() || lastedMs > pressMs.most) {
    next.press = undefined;
    return false;
  }
  return true;
}

/** The net weight before a fall began: the still one if it is fresh, else the highest before. */
function beforeFall(
  draft: Draft,
  bowl: BowlInHand,
): { net: Decimal; stable: boolean; windowMs: number } {
  const { still, top } = draft.next;
  const topAtMs = top?.atMs ?? draft.atMs;
  if (still && topAtMs - still.atMs <= beforeLiftMs) {
    return {
      net: still.grams.minus(bowl.tareGrams),
      stable: true,
      windowMs: still.windowMs,
    };
  }
  if (top) return { net: top.grams.minus(bowl.tareGrams), stable: false, windowMs: 0 };
  return { net: bowl.levelGrams, stable: bowl.levelStable, windowMs: bowl.levelWindowMs };
}

/**
 * The bowl leaves the plate: the weight before is kept, drips end, and the due pour is moved on
 * from if it is inside its band; a shorter one stays due for when the bowl is back.
 */
export function lift(draft: Draft, bowl: BowlInHand): void {
  const { next, happened } = draft;
  const { net, stable, windowMs } = beforeFall(draft, bowl);
  closeWithDrip(draft, net);
  setLevel(draft, net, stable, windowMs);
  const { due } = next;
  if (due && !bowl.isPack) {
    const missing = due.targetGrams.minus(progress(bowl, due, net));
    if (due.tappedAtMs !== undefined || missing.lessThanOrEqualTo(due.bandGrams)) {
      moveOn(draft, 'lift', net, stable, windowMs);
      closeWithDrip(draft, undefined);
    }
  }
  next.plate = 'lifted';
  lookAfresh(draft);
  happened.push({ type: 'lifted', keptGrams: net });
}

function askAboutZero(draft: Draft, bowl: BowlInHand): void {
  const { net, stable, windowMs } = beforeFall(draft, bowl);
  setLevel(draft, net, stable, windowMs);
  draft.next.plate = 'zero_asked';
  lookAfresh(draft);
  draft.happened.push({ type: 'zero_pressed', keptGrams: net });
}

/** A weight that stands still: a rise, a fall that is held, a pour that is there, a weighing. */
function standsStill(draft: Draft, net: Decimal, weight: Weight, still: Still): void {
  const { next, happened } = draft;
  const bowl = next.bowl!;
  const risen = net.minus(bowl.levelGrams);
  if (!bowl.isPack && risen.lessThan(next.intervalGrams.negated())) {
    if (draft.atMs - still.sinceMs < fallHeldMs) return;
    fall(draft, risen.negated());
    setLevel(draft, net, true, weight.windowMs);
  } else if (next.due) {
    pourStandsStill(draft, net, weight);
  } else if (!mayDrip(draft) && risen.greaterThan(play(draft))) {
    happened.push({ type: 'unasked_rise', grams: risen });
    setLevel(draft, net, true, weight.windowMs);
  }
  if (next.weighAsked) {
    next.weighAsked = false;
    const { intervalGrams } = next;
    const { grams: grossGrams, windowMs } = weight;
    happened.push({ type: 'weighed', grossGrams, netGrams: net, intervalGrams, windowMs });
  }
}

function pourStandsStill(draft: Draft, net: Decimal, weight: Weight): void {
  const { next } = draft;
  const due = next.due!;
  const tapped = due.tappedAtMs !== undefined;
  if (mayDrip(draft) && !tapped) return;
  setLevel(draft, net, true, weight.windowMs);
  const enough = larger(next.intervalGrams, due.targetGrams.minus(next.intervalGrams));
  const there = inBowl(next)!.greaterThanOrEqualTo(enough);
  if (there || tapped) moveOn(draft, there ? 'stable' : 'tap', net, true, weight.windowMs);
}

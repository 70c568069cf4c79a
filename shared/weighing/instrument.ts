/** What the scale itself is doing: connected, asleep, garbled, too heavy, in another unit. */
import type { Decimal } from '../decimal.js';
import type { Reading } from '../scales/reading.js';
import { lookAfresh, type Draft } from './draft.js';
import { garbledRun, underMs } from './limits.js';
import type { InstrumentState } from './state.js';

type Worded = Exclude<InstrumentState, 'away' | 'waiting' | 'weighing' | 'asleep' | 'not_a_mass'>;

const wordOf: Readonly<Record<Exclude<Reading['status'], 'weight'>, Worded>> = {
  over: 'too_heavy',
  under: 'under_zero',
  fault: 'fault',
  needs_calibration: 'needs_calibration',
  needs_zero: 'needs_zero',
  not_ready: 'not_ready',
};

/** Contents of the bowl in hand, kept while the scale says nothing. */
function keptGrams({ next }: Draft): Decimal | undefined {
  return next.bowl?.levelGrams;
}

/** The scale was connected. */
export function connect(draft: Draft): void {
  draft.next.instrument = 'waiting';
  draft.next.heardAtMs = draft.atMs;
  draft.next.damageRun = 0;
  draft.happened.push({ type: 'connected' });
}

/** The connection is gone: what the bowl held is kept. */
export function lose(draft: Draft): void {
  if (draft.next.instrument === 'away') return;
  draft.next.instrument = 'away';
  interrupt(draft);
  draft.happened.push({ type: 'lost', keptGrams: keptGrams(draft) });
}

/** Time passes; after long silence a connected scale counts as asleep. */
export function listenForSilence(draft: Draft): void {
  const { next, atMs } = draft;
  if (next.instrument === 'away' || next.instrument === 'asleep') return;
  if (atMs - next.heardAtMs < next.settings.silenceMs) return;
  next.instrument = 'asleep';
  interrupt(draft);
  draft.happened.push({ type: 'asleep', keptGrams: keptGrams(draft) });
}

function interrupt(draft: Draft): void {
  draft.next.interrupted = true;
  lookAfresh(draft);
}

/** Bytes that could not be believed; many in a row, and the line counts as garbled. */
export function countDamage(draft: Draft): void {
  const { next } = draft;
  next.heardAtMs = draft.atMs;
  next.damageRun += 1;
  if (next.damageRun < garbledRun || next.instrument === 'garbled') return;
  next.instrument = 'garbled';
  lookAfresh(draft);
  draft.happened.push({ type: 'garbled' });
}

/**
 * Takes note of a reading's word and unit. Returns its grams when it carries a weight in grams;
 * otherwise the scale is in a named state and there is nothing to weigh.
 */
export function hear(draft: Draft, reading: Reading): Decimal | undefined {
  const { next, happened } = draft;
  next.heardAtMs = draft.atMs;
  next.damageRun = 0;
  next.ownDisplay = reading.value;
  if (reading.status !== 'weight') {
    if (reading.status !== 'under' || staysUnder(draft)) sayOnce(draft, wordOf[reading.status]);
    return undefined;
  }
  next.underSinceMs = undefined;
  if (reading.unit && reading.unit !== next.unit) {
    if (next.unit || reading.unit !== 'g') changeUnit(draft, reading);
    next.unit = reading.unit;
  }
  if (!reading.grams) {
    if (next.instrument !== 'not_a_mass' && reading.unit) {
      next.instrument = 'not_a_mass';
      lookAfresh(draft);
      happened.push({ type: 'not_a_mass', unit: reading.unit });
    }
    return undefined;
  }
  next.intervalGrams =
    next.settings.intervalGrams?.greaterThanOrEqualTo(reading.intervalGrams ?? 0) === true
      ? next.settings.intervalGrams
      : (reading.intervalGrams ?? next.intervalGrams);
  next.mode = reading.mode;
  return reading.grams;
}

/** A plate swings below zero when a bowl is lifted; only what stays there is told. */
function staysUnder({ next, atMs }: Draft): boolean {
  next.underSinceMs ??= atMs;
  return atMs - next.underSinceMs >= underMs;
}

function changeUnit(draft: Draft, reading: Reading): void {
  lookAfresh(draft);
  if (reading.grams && reading.unit) {
    draft.happened.push({ type: 'unit_changed', unit: reading.unit });
  }
}

function sayOnce(draft: Draft, word: Worded): void {
  const { next } = draft;
  if (next.instrument === word) return;
  next.instrument = word;
  lookAfresh(draft);
  draft.happened.push({ type: word });
}

/** A weight in grams, not below zero, came in: whatever kept the scale from weighing is over. */
export function weighAgain({ next, happened }: Draft): void {
  if (next.instrument === 'weighing') return;
  if (next.instrument !== 'waiting') happened.push({ type: 'reading_again' });
  next.instrument = 'weighing';
}

/** One plain sentence for each thing that happens while weighing, and each state of the scale. */
import { canonical, type Decimal } from '../decimal.js';
import type { ScaleUnit } from '../scales/scale-units.js';
import type { Happening, HappeningType } from './happenings.js';
import type { InstrumentState, PlateState } from './state.js';

/** Writes grams for a person, unit included: by the page's language, or "62 g". */
export type WriteGrams = (grams: Decimal) => string;

type Of<T extends HappeningType> = Extract<Happening, { type: T }>;
type Sentences = {
  readonly [T in HappeningType]: (facts: Of<T>, write: WriteGrams) => string;
};

/** Units as they are said: "Scale is in ounces; converted." */
export const unitWords: Readonly<Record<ScaleUnit, string>> = {
  mg: 'milligrams',
  g: 'grams',
  kg: 'kilograms',
  carat: 'carats',
  tael: 'taels',
  momme: 'momme',
  grain: 'grains',
  pennyweight: 'pennyweights',
  tonne: 'tonnes',
  avoirdupois_ton: 'tons',
  troy_ounce: 'troy ounces',
  ounce: 'ounces',
  pound: 'pounds',
  newton: 'newtons',
  piece: 'pieces',
  percent: 'per cent',
};

function kept(grams: Decimal | undefined, write: WriteGrams): string {
  return grams ? ` ${write(grams)} are kept.` : '';
}

const sentences: Sentences = {
  connected: () => 'Scale connected.',
  lost: ({ keptGrams }, write) => `The scale is not connected.${kept(keptGrams, write)}`,
  asleep: ({ keptGrams }, write) => `The scale sleeps. Press its key.${kept(keptGrams, write)}`,
  reading_again: () => 'The scale reads again.',
  garbled: () => 'What the scale sends cannot be read. Check the cable and its settings.',
  too_heavy: () => 'Too heavy for this scale.',
  under_zero: () => 'Below zero: press zero with the plate empty.',
  fault: () => 'The scale reports a fault. Switch it off and on, or type what it shows.',
  needs_calibration: () => 'The scale asks to be calibrated. Its handbook says how.',
  needs_zero: () => 'The scale asks for zero: empty the plate and press its zero key.',
  not_ready: () => 'The scale has no figure yet.',
  not_a_mass: ({ unit }) =>
    `The scale shows ${unitWords[unit]}. Press its unit key until it shows grams.`,
  unit_changed: ({ unit }) =>
    unit === 'g' ? 'Scale is in grams again.' : `Scale is in ${unitWords[unit]}; converted.`,
  set_down: ({ grossGrams }, write) => `${write(grossGrams)} on the plate. Which bowl is it?`,
  tared: ({ tareGrams, source }, write) =>
    source === 'set_down'
      ? `Empty bowl: ${write(tareGrams)}, taken off.`
      : `Its known weight, ${write(tareGrams)}, is taken off.`,
  rinsed_question: ({ grams }, write) => `${write(grams)} above its empty weight. Rinsed?`,
  lifted: ({ keptGrams }, write) => `Lifted. ${write(keptGrams)} kept.`,
  resumed: ({ netGrams }, write) => `Back on the plate: ${write(netGrams)}.`,
  came_back: ({ netGrams, differenceGrams }, write) =>
    differenceGrams.isNegative()
      ? `Back with ${write(netGrams)}: ${write(differenceGrams.abs())} less than before.`
      : `Back with ${write(netGrams)}: ${write(differenceGrams)} more than before.`,
  residue: ({ grams }, write) => `${write(grams)} on the plate. Wipe it.`,
  plate_clear: () => 'The plate is clear.',
  zero_pressed: ({ keptGrams }, write) =>
    `Zero pressed on the scale? Carry on from ${write(keptGrams)}, or it was lifted.`,
  carried_on: ({ netGrams }, write) => `Carrying on from ${write(netGrams)}.`,
  zeroed: () => 'The scale stands at zero again.',
  bumped: () => 'Something touched the plate; nothing counted.',
  knuckle: () => 'A press on the plate: yes.',
  too_light: ({ intervalGrams }, write) =>
    `Too light for this scale: it weighs to ${write(intervalGrams)}.`,
  waiting_to_settle: () => 'Waiting until it stands still.',
  nothing_poured: () => 'Nothing has been poured yet.',
  moved_on: ({ grams }, write) => `${write(grams)}. Next.`,
  overshot: ({ overGrams }, write) => `${write(overGrams)} over.`,
  fell_short: ({ missingGrams }, write) => `${write(missingGrams)} short.`,
  dripped: ({ grams }, write) => `${write(grams)} dripped after it and belong to it.`,
  poured: ({ grams }, write) => `${write(grams)} poured.`,
  scooped_back: ({ grams }, write) => `${write(grams)} scooped back.`,
  taken_out: ({ grams }, write) =>
    `${write(grams)} taken out: into another bowl, onto the head, or spilled?`,
  unasked_rise: ({ grams }, write) => `${write(grams)} came in without a pour. What was it?`,
  weighed: ({ netGrams }, write) => `${write(netGrams)} in the bowl.`,
};

function plainGrams(grams: Decimal): string {
  return `${canonical(grams)} g`;
}

/** The sentence of a happening: residue of 2 g -> "2 g on the plate. Wipe it." */
export function sentenceOf(happening: Happening, write: WriteGrams = plainGrams): string {
  const say = sentences[happening.type] as (facts: Happening, write: WriteGrams) => string;
  return say(happening, write);
}

/** What a state of the scale means, said while it lasts. */
export const instrumentSentences: Readonly<Record<InstrumentState, string>> = {
  away: 'No scale is connected. Connect one, or type what the scale shows.',
  waiting: 'The scale is connected and has not spoken yet.',
  weighing: 'The scale is weighing.',
  asleep: 'The scale sleeps. Press its key.',
  garbled: 'What the scale sends cannot be read. Check the cable and its settings.',
  too_heavy: 'Too heavy for this scale.',
  under_zero: 'Below zero: press zero with the plate empty.',
  fault: 'The scale reports a fault. Switch it off and on, or type what it shows.',
  needs_calibration: 'The scale asks to be calibrated. Its handbook says how.',
  needs_zero: 'The scale asks for zero: empty the plate and press its zero key.',
  not_ready: 'The scale has no figure yet.',
  not_a_mass: 'The scale shows no weight. Press its unit key until it shows grams.',
};

/** What a state of the plate means, said while it lasts. */
export const plateSentences: Readonly<Record<PlateState, string>> = {
  empty: 'The plate is empty. Set a bowl down.',
  settling: 'Waiting until it stands still.',
  unidentified: 'Something stands on the plate. Which bowl is it?',
  on: 'The bowl is on the plate.',
  lifted: 'The bowl is off the plate; its weight is kept.',
  returning: 'The bowl is back; waiting until it stands still.',
  zero_asked: 'Zero pressed on the scale? Carry on, or it was lifted.',
};

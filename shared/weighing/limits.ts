/** The fixed limits of weighing a bowl; common practice at the bench, no source. */
import { decimal, type Decimal } from '../decimal.js';

/** A rise of at most this much soon after moving on belongs to the pour before. */
export const dripGrams: Decimal = decimal('2');
/** How long after moving on a small rise is a drip. */
export const dripMs = 3000;
/** A fall with the bowl on the plate counts once it has stood still this long. */
export const fallHeldMs = 2000;
/** How long a tap waits for the weight to stand still. */
export const settleMs = 2000;
/** A press with a knuckle weighs at least this much. */
export const pressGrams: Decimal = decimal('100');
/** A press lasts at least and at most this long; shorter is a bump, longer is a load. */
export const pressMs = { least: 500, most: 2000 } as const;
/** A press and a zero key jump straight from a still weight: nothing in between for this long. */
export const jumpMs = 700;
/** A still weight counts as the one before the lift when it is at most this old. */
export const beforeLiftMs = 600;
/** An empty bowl this much above its tare was perhaps not rinsed. */
export const rinsedGrams: Decimal = decimal('2');
/** A load of less than this is no bowl, but something left on the plate. */
export const bowlGrams: Decimal = decimal('5');
/** Damage in a row after which the line counts as garbled. */
export const garbledRun = 10;
/** A scale that stays under zero for this long is under zero. */
export const underMs = 1000;
/** A pour of fewer intervals than this is too light for the scale. */
export const fewestIntervals: Decimal = decimal('10');

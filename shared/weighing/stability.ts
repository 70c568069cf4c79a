/** When a weight stands still: by the scale's own word, or by the span of its readings. */
import { larger, smaller, type Decimal } from '../decimal.js';

/** A weight in grams at a moment; moments are milliseconds of any steady clock. */
export interface Moment {
  readonly atMs: number;
  readonly grams: Decimal;
}

/** How long and how many readings must agree where the scale does not say so itself. */
export interface StabilityRule {
  readonly windowMs: number;
  readonly readings: number;
}

/** The longer of 800 ms and five readings. */
export const usualStabilityRule: StabilityRule = { windowMs: 800, readings: 5 };

/** Whether the weight stands still, and over how long that was seen. */
export interface Stability {
  readonly stable: boolean;
  readonly windowMs: number;
}

/** After a change of load the old figure may stay this long. Source: OIML R 76-1 cl. 4.4.1. */
export const oldFigureMayStayMs = 1000;

const mostKept = 256;

/**
 * True when the largest and smallest differ by at most one interval, that is when they are two
 * adjacent values. Source: OIML R 76-1 cl. 4.4.2.
 */
export function spanWithinOneInterval(values: readonly Decimal[], interval: Decimal): boolean {
  const [first] = values;
  if (!first) return false;
  return values
    .reduce(larger, first)
    .minus(values.reduce(smaller, first))
    .lessThanOrEqualTo(interval);
}

/** Adds a reading to the window and lets go what the rule no longer looks at. */
export function lookBack(
  window: readonly Moment[],
  next: Moment,
  rule: StabilityRule,
): readonly Moment[] {
  const longer = [...window, next];
  while (longer.length > mostKept || enough(longer.slice(1), rule)) longer.shift();
  return longer;
}

function enough(window: readonly Moment[], rule: StabilityRule): boolean {
  return window.length >= rule.readings && spanMs(window) >= rule.windowMs;
}

function spanMs(window: readonly Moment[]): number {
  const first = window[0];
  return first ? window[window.length - 1]!.atMs - first.atMs : 0;
}

/**
 * Judges a window of readings: the scale's own flag for the newest where it has one (window 0),
 * else all readings over the longer of the rule's time and count span at most one interval.
 */
export function judge(
  window: readonly Moment[],
  flag: boolean | undefined,
  interval: Decimal,
  rule: StabilityRule,
): Stability {
  if (flag !== undefined) return { stable: flag, windowMs: 0 };
  const values = window.map((moment) => moment.grams);
  return {
    stable: enough(window, rule) && spanWithinOneInterval(values, interval),
    windowMs: spanMs(window),
  };
}

/**
 * What may be done with a weight while it moves: nothing that keeps it (OIML R 76-1 cl. 4.4.2).
 * A stable one may be printed, stored, zeroed and taken as tare.
 */
export function mayKeep(stable: boolean): Readonly<Record<KeepAction, boolean>> {
  return { print: stable, store: stable, zero: stable, tare: stable };
}
export type KeepAction = 'print' | 'store' | 'zero' | 'tare';

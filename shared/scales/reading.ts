/** What a decoder can say of the bytes of a scale: a reading, a reply, or damage. */
import type { Decimal } from '../decimal.js';
import type { ScaleUnit } from './scale-units.js';

/**
 * What the scale says of its own figure.
 * - `weight` a figure (grams are missing where its unit is not a mass of one size)
 * - `over` above the limit, `under` below zero or below the range: no figure
 * - `fault`, `needs_calibration`, `needs_zero`: it cannot weigh now: no figure
 * - `not_ready` it has no figure at this moment
 */
export type ReadingStatus =
  'weight' | 'over' | 'under' | 'fault' | 'needs_calibration' | 'needs_zero' | 'not_ready';

/** One figure of the scale, carried by one complete line or report. */
export interface Reading {
  readonly kind: 'reading';
  readonly status: ReadingStatus;
  /** Grams, exact; present only with status `weight` and a unit of mass of one size. */
  readonly grams?: Decimal;
  /** The figure in the scale's own unit; present only with status `weight`. */
  readonly value?: Decimal;
  readonly unit?: ScaleUnit;
  /** The scale's own word for it; undefined where its format has none. */
  readonly stable: boolean | undefined;
  /** `net`: the scale's own tare is already taken off. */
  readonly mode: 'gross' | 'net' | 'unknown';
  /** The scale says that it stands at the centre of zero. */
  readonly atZero?: boolean;
  /** Worth of the last place shown, in grams: the smallest the scale's interval can be. */
  readonly intervalGrams?: Decimal;
  /** The line as text, or the report in hex: what carried this reading. */
  readonly carriedBy: string;
}

/** An answer of the scale that is no reading. */
export interface Reply {
  readonly kind: 'reply';
  readonly reply:
    | 'accepted'
    | 'not_now'
    | 'timed_out'
    | 'unknown_command'
    | 'line_error'
    | 'status'
    | 'tare'
    | 'capacity'
    | 'diagnostics'
    | 'information';
  readonly facts: Readonly<Record<string, string | boolean>>;
  readonly carriedBy: string;
}

/** Why bytes were not believed. */
export type DamageReason =
  | 'started_midway' // the first line after a connect, of which the beginning is unknown
  | 'first_report' // the first report after an open may be the weighing before
  | 'too_long' // no end of line within the longest line there is
  | 'not_text' // bytes that no line of text has
  | 'unreadable' // a complete line that fits no known form
  | 'new_width' // a line of another width than the one before: a byte may be missing
  | 'wrong_length' // a report that is too short or too long
  | 'unknown_status'
  | 'unknown_unit'
  | 'implausible'; // a weight that no bench scale shows

/** Bytes that carried nothing believable, and why. */
export interface Damage {
  readonly kind: 'damage';
  readonly why: DamageReason;
  readonly carriedBy: string;
}

export type Decoded = Reading | Reply | Damage;

/** A decoder's answer to some bytes: its state from now on, and what it found in them. */
export interface Fed<S> {
  readonly state: S;
  readonly found: readonly Decoded[];
}

/** Bytes not believed: damage('too_long', line). */
export function damage(why: DamageReason, carriedBy: string): Damage {
  return { kind: 'damage', why, carriedBy };
}

/** A state of the scale without a figure: reading of status `over` and the like. */
export function withoutFigure(
  status: Exclude<ReadingStatus, 'weight'>,
  carriedBy: string,
  mode: Reading['mode'] = 'unknown',
): Reading {
  return { kind: 'reading', status, stable: false, mode, carriedBy };
}

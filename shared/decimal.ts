/** The one Decimal of the house: precision, strict parsing, canonical text, named roundings. */
import { Decimal as Library } from 'decimal.js';
import { Problem } from './problems/problem.js';

/**
 * One configured clone. 60 digits, so that no step of a quantity (14,3), a value (18,6) or
 * a product of them ever rounds by itself; exponents are never printed.
 */
export const Decimal = Library.clone({
  precision: 60,
  rounding: Library.ROUND_HALF_EVEN,
  toExpNeg: -9e15,
  toExpPos: 9e15,
  defaults: true,
});
export type Decimal = Library;

/** Names of the tie rules used in the house (IEEE 754-2019 4.3.1 in brackets). */
export type Rounding =
  | 'half_even' // roundTiesToEven
  | 'half_up' // roundTiesToAway
  | 'half_down'
  | 'up' // away from zero
  | 'down' // roundTowardZero
  | 'ceiling' // roundTowardPositive
  | 'floor'; // roundTowardNegative

const modes: Record<Rounding, Library.Rounding> = {
  half_even: Library.ROUND_HALF_EVEN,
  half_up: Library.ROUND_HALF_UP,
  half_down: Library.ROUND_HALF_DOWN,
  up: Library.ROUND_UP,
  down: Library.ROUND_DOWN,
  ceiling: Library.ROUND_CEIL,
  floor: Library.ROUND_FLOOR,
};

export const zero: Decimal = new Decimal(0);
export const one: Decimal = new Decimal(1);

const plainNotation = /^-?(0|[1-9]\d{0,20})(\.\d{1,30})?$/;

/** True for plain notation as the house reads it: no exponent, no "+", no blanks, no "0x10". */
export function isDecimalText(text: string): boolean {
  return plainNotation.test(text);
}

/**
 * Reads a decimal in plain notation: "42.5" -> 42.5. The library alone would also take
 * "0x10", "1e3", "Infinity" and "1_000".
 * @throws Problem `not_a_decimal` with the text that could not be read
 */
export function decimal(text: string | Decimal): Decimal {
  if (typeof text !== 'string') return new Decimal(text);
  if (!isDecimalText(text)) throw new Problem('not_a_decimal', { text });
  return new Decimal(text);
}

/** A decimal from an integer count that is already exact (array lengths, seats, packs). */
export function count(integer: number): Decimal {
  if (!Number.isSafeInteger(integer)) throw new Problem('not_a_decimal', { text: `${integer}` });
  return new Decimal(integer);
}

/** Rounds to `places` decimal places by the named tie rule: (2.5, 0, half_even) -> 2. */
export function round(value: Decimal, places: number, rounding: Rounding): Decimal {
  return value.toDecimalPlaces(places, modes[rounding]);
}

/** Rounds to `digits` significant digits by the named tie rule (IBM decimal arithmetic). */
export function roundSignificant(value: Decimal, digits: number, rounding: Rounding): Decimal {
  return value.toSignificantDigits(digits, modes[rounding]);
}

/** Rounds to a multiple of `step` by the named tie rule: (17.88, 0.05, half_up) -> 17.90. */
export function roundToStep(value: Decimal, step: Decimal, rounding: Rounding): Decimal {
  return value.dividedBy(step).toDecimalPlaces(0, modes[rounding]).times(step);
}

/** Plain text without trailing zeros, exponent or "-0": 60.500 -> "60.5". */
export function canonical(value: Decimal): string {
  return value.isZero() ? '0' : value.toFixed();
}

/** Plain text with exactly `places` decimals; half-even, the last rounding before a person. */
export function fixed(value: Decimal, places: number): string {
  const rounded = value.toDecimalPlaces(places, Library.ROUND_HALF_EVEN);
  return rounded.isZero() ? zero.toFixed(places) : rounded.toFixed(places);
}

/** Sum of any number of decimals; 0 for none. */
export function sum(values: Iterable<Decimal>): Decimal {
  let total = zero;
  for (const value of values) total = total.plus(value);
  return total;
}

/** The larger of two. */
export function larger(a: Decimal, b: Decimal): Decimal {
  return a.greaterThan(b) ? a : b;
}

/** The smaller of two. */
export function smaller(a: Decimal, b: Decimal): Decimal {
  return a.lessThan(b) ? a : b;
}

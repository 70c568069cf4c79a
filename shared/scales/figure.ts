/** A scale's figure in text or digits, made into a reading: number, places, unit, grams. */
import { decimal, type Decimal } from '../decimal.js';
import { damage, type Damage, type Reading } from './reading.js';
import { toGrams, type ScaleUnit } from './scale-units.js';

/** No scale in a studio shows a hundred tonnes; more is a damaged byte. */
const mostGrams = decimal('100000000');

/** A number as a scale wrote it, and how many decimal places it had. */
export interface Figure {
  readonly value: Decimal;
  readonly places: number;
}

const figureForm = /^ *([+-]?) *(\d{1,12})(?:\.(\d{0,9}))? *$/;

/**
 * Reads a number as scales write it: leading zeros, blanks around it and between sign and
 * digits; a point, no exponent. "+001234.5" -> 1234.5 with 1 place; undefined when it is none.
 */
export function figureOf(text: string): Figure | undefined {
  const match = figureForm.exec(text);
  if (!match) return undefined;
  const [, sign, whole = '', fraction = ''] = match;
  const digits = whole.replace(/^0+(?=\d)/, '');
  const value = decimal(fraction === '' ? digits : `${digits}.${fraction}`);
  const negative = sign === '-' && !value.isZero();
  return { value: negative ? value.negated() : value, places: fraction.length };
}

/** Ten to the power of `exponent`, exact, for -127 to 127. */
export function powerOfTen(exponent: number): Decimal {
  return decimal('10').pow(exponent);
}

/** What a format says of a figure besides the number itself. */
export interface FigureFacts {
  readonly unit: ScaleUnit;
  readonly stable: boolean | undefined;
  readonly mode: Reading['mode'];
  readonly atZero?: boolean;
  readonly carriedBy: string;
}

/**
 * A reading of status `weight`: value, grams where the unit has a fixed size, and the worth of
 * its last place in grams. Damage `implausible` above a hundred tonnes.
 */
export function readingOf(figure: Figure, facts: FigureFacts): Reading | Damage {
  const grams = toGrams(figure.value, facts.unit);
  if (grams?.abs().greaterThan(mostGrams)) return damage('implausible', facts.carriedBy);
  const intervalGrams = toGrams(powerOfTen(-figure.places), facts.unit);
  return {
    kind: 'reading',
    status: 'weight',
    value: figure.value,
    ...facts,
    ...(grams && { grams }),
    ...(intervalGrams && { intervalGrams }),
  };
}

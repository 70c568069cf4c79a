/** Figures as a person reads them: by the language of the device, units always shown. */
import { decimal, fixed, round, type Decimal } from '../../../shared/decimal.js';
import { preferences } from './preferences.js';

/** One avoirdupois ounce in grams, exactly. Source: NIST Handbook 44, appendix C. */
const ouncesInGram = decimal('28.349523125');

/** Between a figure and its unit no line may break. */
const space = '\u00a0';

const formats = new Map<string, Intl.NumberFormat>();

/** A decimal with so many places, written in the device's language; half-even. */
export function number(value: Decimal | string, places = 0, least = 0): string {
  const key = `${places} ${least}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(undefined, {
      minimumFractionDigits: least,
      maximumFractionDigits: places,
    });
    formats.set(key, format);
  }
  return format.format(fixed(decimal(value), places) as `${number}`);
}

/** Places that a weight is shown with, by what the scale tells apart. */
export function placesOf(intervalGrams: Decimal): number {
  if (preferences().unit === 'oz') return 2;
  return intervalGrams.greaterThanOrEqualTo(1)
    ? 0
    : intervalGrams.greaterThanOrEqualTo('0.1')
      ? 1
      : 2;
}

/** A weight without its unit: the figure of the beam. */
export function weightFigure(grams: Decimal, places: number): string {
  const isOunces = preferences().unit === 'oz';
  return number(isOunces ? grams.dividedBy(ouncesInGram) : grams, places, places);
}

/** The unit that weights are shown in. */
export function weightUnit(): string {
  return preferences().unit;
}

/** A weight with its unit: "62 g", at most one place of grams. */
export function weight(grams: Decimal | string, places = 1): string {
  const value = decimal(grams);
  if (preferences().unit === 'oz') {
    return `${number(value.dividedBy(ouncesInGram), 2, 2)}${space}oz`;
  }
  return `${number(round(value, places, 'half_even'), places)}${space}g`;
}

/** Grams of a figure that was typed in the unit shown. */
export function typedGrams(figure: Decimal): Decimal {
  if (preferences().unit === 'g') return figure;
  return round(figure.times(ouncesInGram), 3, 'half_even');
}

/**
 * Reads a typed figure with a comma or a point; undefined where it is none.
 * "62,5" -> 62.5
 */
export function readFigure(text: string): Decimal | undefined {
  const plain = text.trim().replace(',', '.').replace(/\.$/, '');
  return /^\d{1,5}(\.\d{1,3})?$/.test(plain) ? decimal(plain.replace(/^0+(?=\d)/, '')) : undefined;
}

/** Strength in vol: "20 vol", with a place where it has one. */
export function vol(strength: Decimal | string): string {
  return `${number(strength, 1)}${space}vol`;
}

/** A quantity as it travels, with its unit. */
export function quantity(value: string, unit: string): string {
  return unit === 'g' ? weight(value) : `${number(value, 1)}${space}${unit}`;
}

/** A share as per cent: 0.1 -> "10 %". */
export function share(value: string | Decimal): string {
  return `${number(decimal(value).times(100), 0)}${space}%`;
}

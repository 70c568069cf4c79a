/** Money and the figures of a sheet, as a person reads them. */
import { minorDigits } from '../../../shared/currency.js';
import { decimal, fixed } from '../../../shared/decimal.js';
import { number, quantity, weight } from '../shell/figures.js';
import { texts } from './texts.js';

/** An amount of a currency: "148.00 €", in the device's language. */
export function money(amount: string, currency: string): string {
  const places = Math.max(minorDigits(currency), decimal(amount).decimalPlaces());
  return new Intl.NumberFormat(undefined, {
    style: 'currency',
    currency,
    minimumFractionDigits: minorDigits(currency),
    maximumFractionDigits: Math.min(places, 6),
  }).format(fixed(decimal(amount), Math.min(places, 6)) as `${number}`);
}

/** A share as per cent with at most one place: 0.0155 -> "1.6 %". */
export function percent(value: string): string {
  return `${number(decimal(value).times(100), 1)} %`;
}

/** One figure that went into a line, with its unit. */
export function inputInWords(value: string, unit: string, currency: string): string {
  if (unit === 'share') return percent(value);
  if (unit === 'g') return weight(value);
  if (unit === currency) return money(value, currency);
  if (unit.startsWith(`${currency}/`)) {
    return `${money(value, currency)}/${unit.slice(currency.length + 1)}`;
  }
  return countInWords(value, unit);
}

/** A quantity with its unit; what is counted in one or many: "2 pieces", "1 bowl". */
export function countInWords(value: string, unit: string): string {
  if (unit === 'piece' || unit === 'bowl') return texts.units[unit](number(value, 3));
  return unit === 'payment' ? number(value) : quantity(value, unit);
}

/** An amount with more decimals than coins have, shown to the nearest coin (half-even). */
export function rounded(amount: string, currency: string): string {
  return money(fixed(decimal(amount), minorDigits(currency)), currency);
}

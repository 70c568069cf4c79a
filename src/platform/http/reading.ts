/** Reads one JSON value strictly: what it becomes, or why it cannot be read. */
import { amount, stockUnits, type Amount, type StockUnit } from '../../../shared/amount.js';
import { decimal, isDecimalText, type Decimal } from '../../../shared/decimal.js';
import { instantFrom, millisOf } from '../clock.js';
import { Unreadable } from './unreadable.js';

/** What a number may be; all bounds are decimal text. */
export interface DecimalBounds {
  /** At least this. */
  readonly min?: string;
  /** More than this. */
  readonly above?: string;
  readonly max?: string;
  /** At most so many decimal places; 6 unless told. */
  readonly places?: number;
}

const mostDigits = 12;
const mostPlaces = 6;
const wholeNumber = /^-?(0|[1-9]\d*)$/;
const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/i;
const instant = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/;
const day = /^\d{4}-\d\d-\d\d$/;
const month = /^\d{4}-(0[1-9]|1[0-2])$/;

/**
 * A decimal from text in plain notation, or from a JSON number whose shortest text has at most
 * 6 decimals and 12 digits.
 */
export function readDecimal(value: unknown, bounds: DecimalBounds = {}): Decimal | Unreadable {
  const text = typeof value === 'number' ? numberText(value) : value;
  if (typeof text !== 'string' || !isDecimalText(text) || text.replace(/\D/g, '').length > 20) {
    return new Unreadable(
      'not_a_decimal',
      `Write a number in plain notation, such as "42.5"; a bare JSON number has at most ` +
        `${mostDigits} digits, ${mostPlaces} of them after the point.`,
    );
  }
  const read = decimal(text);
  const places = bounds.places ?? mostPlaces;
  if (read.decimalPlaces() > places) {
    return new Unreadable('too_many_decimals', `Give at most ${places} digits after the point.`);
  }
  return withinBounds(read, bounds) ?? read;
}

function numberText(value: number): string {
  const text = String(value); // the shortest text that reads back as the same number
  const [whole = '', fraction = ''] = text.replace('-', '').split('.');
  const digits = whole === '0' ? fraction.length : whole.length + fraction.length;
  return digits <= mostDigits && fraction.length <= mostPlaces ? text : '';
}

function withinBounds(read: Decimal, bounds: DecimalBounds): Unreadable | undefined {
  const { min, above, max } = bounds;
  if (min !== undefined && read.lessThan(min)) {
    return new Unreadable('too_small', `Give at least ${min}.`);
  }
  if (above !== undefined && read.lessThanOrEqualTo(above)) {
    return new Unreadable('too_small', `Give more than ${above}.`);
  }
  if (max !== undefined && read.greaterThan(max)) {
    return new Unreadable('too_large', `Give at most ${max}.`);
  }
  return undefined;
}

/** `{"quantity": "60.5", "unit": "g"}` as an amount; quantities have at most 3 decimals. */
export function readQuantity(
  value: unknown,
  bounds: DecimalBounds = {},
  units: readonly StockUnit[] = stockUnits,
): Amount<StockUnit> | Unreadable {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return new Unreadable('not_a_quantity', 'Write {"quantity": "60.5", "unit": "g"}.');
  }
  const { quantity, unit, ...others } = value as Record<string, unknown>;
  const strange = Object.keys(others)[0];
  if (strange !== undefined) {
    return new Unreadable('unknown_field', 'Only quantity and unit belong here.', `/${strange}`);
  }
  const named = units.find((known) => known === unit);
  if (!named) {
    return new Unreadable('unknown_unit', `Give one of ${units.join(', ')}.`, '/unit');
  }
  const read = readDecimal(quantity, { places: 3, max: '99999999999', ...bounds });
  return read instanceof Unreadable
    ? new Unreadable(read.code, read.detail, '/quantity')
    : amount(read, named);
}

/** A UUID, in lower case. */
export function readId(value: unknown): string | Unreadable {
  if (typeof value === 'string' && uuid.test(value)) return value.toLowerCase();
  return new Unreadable('not_an_id', 'Give a UUID, such as 0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70.');
}

/** RFC 3339 with an offset, as the same instant in UTC: "2026-03-02T08:15:00.000Z". */
export function readInstant(value: unknown): string | Unreadable {
  const text = typeof value === 'string' ? value.toUpperCase() : '';
  const millis = instant.test(text) && isDay(text.slice(0, 10)) ? millisOf(text) : Number.NaN;
  if (Number.isNaN(millis)) {
    return new Unreadable(
      'not_an_instant',
      'Give a time with its offset (RFC 3339), such as 2026-03-02T09:15:00+01:00.',
    );
  }
  return instantFrom(millis);
}

/** A calendar day: "2026-03-02". */
export function readDay(value: unknown): string | Unreadable {
  if (typeof value === 'string' && isDay(value)) return value;
  return new Unreadable('not_a_day', 'Give a day of the calendar, such as 2026-03-02.');
}

function isDay(text: string): boolean {
  const millis = day.test(text) ? millisOf(`${text}T00:00:00Z`) : Number.NaN;
  return !Number.isNaN(millis) && instantFrom(millis).startsWith(text);
}

/** A month: "2026-03". */
export function readMonth(value: unknown): string | Unreadable {
  if (typeof value === 'string' && month.test(value)) return value;
  return new Unreadable('not_a_month', 'Give a month, such as 2026-03.');
}

/** Text of so many characters, without blanks around it. */
export function readText(value: unknown, min: number, max: number): string | Unreadable {
  if (typeof value !== 'string') return new Unreadable('not_text', 'Give text in quotes.');
  const text = value.normalize('NFC').trim();
  const length = [...text].length;
  if (length < min) {
    return new Unreadable('too_short', `Give at least ${counted(min, 'character')}.`);
  }
  if (length > max) {
    return new Unreadable('too_long', `Give at most ${counted(max, 'character')}.`);
  }
  if (text.includes('\0')) return new Unreadable('not_text', 'Leave out the null character.');
  return text;
}

/** A whole number, bare or as text (a query parameter is always text). */
export function readWhole(value: unknown, min: number, max: number): number | Unreadable {
  const text = typeof value === 'number' ? String(value) : value;
  const read =
    typeof text === 'string' && wholeNumber.test(text) ? Number.parseInt(text, 10) : Number.NaN;
  if (Number.isSafeInteger(read) && read >= min && read <= max) return read;
  return new Unreadable('not_a_whole_number', `Give a whole number from ${min} to ${max}.`);
}

/** True or false, bare or as text (a query parameter is always text). */
export function readFlag(value: unknown): boolean | Unreadable {
  if (value === true || value === 'true') return true;
  if (value === false || value === 'false') return false;
  return new Unreadable('not_true_or_false', 'Give true or false.');
}

/** One of the known words. */
export function readOneOf<W extends string>(value: unknown, words: readonly W[]): W | Unreadable {
  const known = words.find((word) => word === value);
  return known ?? new Unreadable('unknown_word', `Give one of: ${words.join(', ')}.`);
}

function counted(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}

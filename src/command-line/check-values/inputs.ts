/** Reading the inputs of a row: figures, lists and the other ways in which they are written. */
import { Decimal } from '../../../shared/decimal.js';
import { isFields, type Fields } from './value-row.js';
import { NotYetSupported } from './topic.js';

/** A figure from JSON: 5, "0.25", "1e-2"; undefined for anything else. */
export function asFigure(value: unknown): Decimal | undefined {
  if (typeof value !== 'number' && typeof value !== 'string') return undefined;
  const text = String(value).trim().replace(/^\+/, '');
  return /^-?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? new Decimal(text) : undefined;
}

/** The figure of the first of these fields that has one. */
export function figure(fields: Fields, ...names: readonly string[]): Decimal | undefined {
  for (const name of names) {
    const found = asFigure(fields[name]);
    if (found) return found;
  }
  return undefined;
}

/** The same, where a row cannot be answered without. */
export function needed(fields: Fields, ...names: readonly string[]): Decimal {
  const found = figure(fields, ...names);
  if (!found) throw new NotYetSupported(`no figure for ${names.join(' or ')}`);
  return found;
}

/** A list of figures under the first of these names; a single figure is a list of one. */
export function figures(fields: Fields, ...names: readonly string[]): Decimal[] | undefined {
  for (const name of names) {
    const value = fields[name];
    const list: readonly unknown[] = Array.isArray(value) ? value : isFields(value) ? [] : [value];
    const found = list.map(asFigure);
    if (found.length > 0 && found.every((each) => each !== undefined)) return found;
  }
  return undefined;
}

/** A whole number of JSON, such as decimals or a precision. */
export function whole(fields: Fields, ...names: readonly string[]): number | undefined {
  const found = figure(fields, ...names);
  return found?.isInteger() ? parseInt(found.toFixed(), 10) : undefined;
}

/** A text field, or undefined. */
export function text(fields: Fields, ...names: readonly string[]): string | undefined {
  for (const name of names) {
    const value = fields[name];
    if (typeof value === 'string') return value;
  }
  return undefined;
}

/** A share from a field in per cent: {"rate_percent": 8.25} -> 0.0825. */
export function shareOf(fields: Fields, ...names: readonly string[]): Decimal | undefined {
  return figure(fields, ...names)?.dividedBy(100);
}

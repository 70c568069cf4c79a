/** What a cell of a file may hold, how it is read, and what --help says of its column. */
import type { Decimal } from '../../../shared/decimal.js';
import {
  readDay,
  readDecimal,
  readOneOf,
  readText,
  readWhole,
  type DecimalBounds,
} from '../../platform/http/reading.js';
import { Unreadable } from '../../platform/http/unreadable.js';

/** A column: `undefined` where a cell that is not needed is empty. */
export interface Cell<T> {
  readonly about: string;
  readonly needed: boolean;
  readonly read: (text: string) => T | Unreadable;
}

/** Columns of a file by name, in the order in which they are written. */
export type Cells = Readonly<Record<string, Cell<unknown>>>;

/** The same column, needed on every line. */
export function needed<T>(cell: Cell<T | undefined>): Cell<T> {
  return { ...cell, needed: true } as Cell<T>;
}

function cell<T>(about: string, read: (text: string) => T | Unreadable): Cell<T | undefined> {
  return { about, needed: false, read };
}

/** Text of at most so many characters. */
export function textCell(about: string, max = 120): Cell<string | undefined> {
  return cell(about, (text) => readText(text, 1, max));
}

/** A number in plain notation. */
export function numberCell(about: string, bounds: DecimalBounds): Cell<Decimal | undefined> {
  return cell(about, (text) => readDecimal(text, bounds));
}

/** A whole number. */
export function wholeCell(about: string, min: number, max: number): Cell<number | undefined> {
  return cell(about, (text) => readWhole(text, min, max));
}

/** A calendar day. */
export function dayCell(about: string): Cell<string | undefined> {
  return cell(`${about}, 2026-03-02`, (text) => readDay(text));
}

/** One of some words. */
export function wordCell<W extends string>(
  about: string,
  words: readonly W[],
): Cell<W | undefined> {
  return cell(`${about}: ${words.join(', ')}`, (text) => readOneOf(text.toLowerCase(), words));
}

/** yes or no. */
export function yesCell(about: string): Cell<boolean | undefined> {
  return cell(`${about}: yes, no`, (text) => {
    const read = readOneOf(text.toLowerCase(), ['yes', 'no']);
    return read instanceof Unreadable ? read : read === 'yes';
  });
}

/** Reads a table of dates and amounts into one history a series, in months, weeks or days. */
import { parse } from 'csv-parse/sync';
import { dayAfter, daysBetween } from '../../../shared/calendar.js';
import { daysOfMonth, mondayOf, monthAfter } from '../../../shared/ordering/studio-periods.js';
import { readDay, readDecimal, readMonth } from '../../platform/http/reading.js';
import { Unreadable } from '../../platform/http/unreadable.js';
import { FileRefused, type FileError } from '../import/table.js';

export type Every = 'month' | 'week' | 'day';

/** Which columns to read, by name; found by their usual names where they are not told. */
export interface TableColumns {
  readonly date?: string;
  readonly amount?: string;
  readonly series?: string;
}

/** A history without gaps in its periods; null where the table has no figure. */
export interface DatedSeries {
  readonly name: string;
  /** "2026-03", or the first day of a period. */
  readonly periods: readonly string[];
  readonly use: readonly (number | null)[];
  readonly openShare: readonly number[];
  /** The periods after the last one. */
  next(ahead: number): string;
}

interface Entry {
  readonly series: string;
  readonly day: string;
  readonly amount: number | null;
}

const dateNames = ['date', 'day', 'month', 'week', 'period', 'time'];
const amountNames = ['amount', 'quantity', 'use', 'used', 'value', 'grams', 'ml', 'total', 'y'];
const seriesNames = ['series', 'product', 'name', 'item', 'id'];

/** @throws FileRefused with every line that cannot be read */
export function readDatedAmounts(
  content: Buffer,
  every: Every,
  columns: TableColumns,
): DatedSeries[] {
  const entries = entriesOf(content, columns);
  const bySeries = new Map<string, Entry[]>();
  for (const entry of entries) {
    bySeries.set(entry.series, [...(bySeries.get(entry.series) ?? []), entry]);
  }
  return [...bySeries].map(([name, own]) => seriesOf(name, own, every));
}

function entriesOf(content: Buffer, columns: TableColumns): Entry[] {
  const text = content.toString('utf8');
  const header = text.slice(0, text.search(/[\r\n]|$/));
  const count = (mark: string) => header.split(mark).length;
  const delimiter = [',', ';', '\t'].reduce((a, b) => (count(b) > count(a) ? b : a));
  const [names = [], ...rows] = rowsOf(text, delimiter);
  const date = columnOf(names, columns.date, dateNames, 0);
  const amount = columnOf(names, columns.amount, amountNames, names.length > 1 ? 1 : -1);
  const series = columnOf(names, columns.series, seriesNames, -1);
  if (date < 0 || amount < 0 || date === amount) {
    const known = names.join(', ');
    const detail = `A column of dates and one of amounts are needed; there are: ${known}.`;
    throw new FileRefused([{ line: 1, detail }]);
  }
  const errors: FileError[] = [];
  const entries = rows.flatMap((cells, index): Entry[] => {
    const day = readDate(cells[date] ?? '');
    const read = readAmount(cells[amount] ?? '', delimiter);
    for (const [column, value] of [['date', day] as const, ['amount', read] as const]) {
      if (value instanceof Unreadable) {
        errors.push({ line: index + 2, column, detail: value.detail });
      }
    }
    if (day instanceof Unreadable || read instanceof Unreadable) return [];
    return [{ series: series < 0 ? '' : (cells[series] ?? ''), day, amount: read }];
  });
  if (errors.length > 0) throw new FileRefused(errors);
  if (entries.length === 0) {
    throw new FileRefused([{ line: 1, detail: 'There is no line below the header.' }]);
  }
  return entries;
}

function rowsOf(text: string, delimiter: string): string[][] {
  try {
    const options = { bom: true, relax_column_count: true, skip_empty_lines: true, trim: true };
    return parse(text, { ...options, delimiter });
  } catch {
    const detail = 'It cannot be read as CSV: is a quotation mark left open?';
    throw new FileRefused([{ line: 1, detail }]);
  }
}

function columnOf(
  names: readonly string[],
  told: string | undefined,
  usual: readonly string[],
  otherwise: number,
): number {
  const low = names.map((name) => name.toLowerCase());
  if (told !== undefined) return low.indexOf(told.toLowerCase());
  const found = low.findIndex((name) => usual.includes(name));
  return found < 0 ? otherwise : found;
}

/** A day, or a month that stands for its first day. */
function readDate(text: string): string | Unreadable {
  const month = readMonth(text);
  return typeof month === 'string' ? `${month}-01` : readDay(text);
}

function readAmount(text: string, delimiter: string): number | null | Unreadable {
  if (text === '') return null;
  const plain = delimiter === ',' ? text : text.replace(/^(-?\d+),(\d+)$/, '$1.$2');
  const read = readDecimal(plain);
  return read instanceof Unreadable ? read : +read.toFixed();
}

/**
 * Amounts added up by period. Where no period has two lines it is a table of periods: one that
 * is not there is unknown. Else it is a list of what happened: nothing happened then, and the
 * first and last period count by the part of them that the list covers.
 */
function seriesOf(name: string, entries: readonly Entry[], every: Every): DatedSeries {
  const days = entries.map(({ day }) => day).sort();
  const [first = ''] = days;
  const last = days.at(-1) ?? first;
  const periods: string[] = [];
  for (let at = periodOf(first, every); at <= periodOf(last, every); at = after(at, every, 1)) {
    periods.push(at);
  }
  const totals = new Map<string, number | null>();
  let isList = false;
  for (const { day, amount } of entries) {
    const period = periodOf(day, every);
    const before = totals.get(period);
    isList ||= before !== undefined;
    totals.set(period, before === undefined ? amount : (before ?? 0) + (amount ?? 0));
  }
  const use = periods.map((period) => totals.get(period) ?? (isList ? 0 : null));
  const openShare = periods.map(() => 1);
  if (isList && periods.length > 2) {
    openShare[0] = covered(first, periods[0] ?? '', every, true);
    openShare[periods.length - 1] = covered(last, periods.at(-1) ?? '', every, false);
  }
  const end = periods.at(-1) ?? first;
  return { name, periods, use, openShare, next: (ahead) => after(end, every, ahead) };
}

function periodOf(day: string, every: Every): string {
  if (every === 'month') return day.slice(0, 7);
  return every === 'week' ? mondayOf(day) : day;
}

function after(period: string, every: Every, count: number): string {
  if (every === 'month') return monthAfter(period, count);
  return dayAfter(period, every === 'week' ? 7 * count : count);
}

/** A period of which a tenth or less is missing counts whole. */
const NEARLY_WHOLE = 0.9;

function covered(day: string, period: string, every: Every, isFirst: boolean): number {
  if (every === 'day') return 1;
  const length = every === 'month' ? daysOfMonth(period) : 7;
  const start = every === 'month' ? `${period}-01` : period;
  const passed = daysBetween(start, day);
  const share = isFirst ? (length - passed) / length : (passed + 1) / length;
  return share >= NEARLY_WHOLE ? 1 : share;
}

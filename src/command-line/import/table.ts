/** Reads a CSV file into typed lines: which columns there are, and everything that is wrong. */
import { CsvError, parse } from 'csv-parse/sync';
import { Unreadable } from '../../platform/http/unreadable.js';
import type { Cell, Cells } from './cells.js';

/** One thing to correct in a file. */
export interface FileError {
  /** The line of the file that it begins on, the header being line 1. */
  readonly line: number;
  readonly column?: string | undefined;
  readonly detail: string;
}

/** A file that is not imported, with all that is wrong in it. */
export class FileRefused extends Error {
  constructor(readonly errors: readonly FileError[]) {
    const told = errors.map(({ line, column, detail }) =>
      column === undefined ? `line ${line}: ${detail}` : `line ${line}, ${column}: ${detail}`,
    );
    super([...told, 'Nothing was stored.'].join('\n'));
  }
}

/** A line of the file, read. */
export interface Line<C extends Cells> {
  readonly line: number;
  readonly cells: { readonly [K in keyof C]: C[K] extends Cell<infer T> ? T : never };
}

interface Parsed {
  readonly record: string[];
  readonly info: { readonly lines: number };
}

const separators = [',', ';', '\t'] as const;

/**
 * The lines of a file in UTF-8. Cells are separated by comma, semicolon or tab, whichever the
 * header has; where it is not the comma, a decimal comma is read too.
 * @throws FileRefused with every line that cannot be read
 */
export function readTable<C extends Cells>(content: Buffer, columns: C): Line<C>[] {
  const text = decode(content);
  const separator = separatorOf(text);
  const [header, ...records] = recordsOf(text, separator);
  if (!header) throw new FileRefused([{ line: 1, detail: 'The file is empty.' }]);
  const names = header.cells.map((cell) => cell.toLowerCase().replace(/[\s-]+/g, '_'));
  refuseColumns(names, columns);
  const errors: FileError[] = [];
  const lines = records.map(({ line, cells }): Line<C> => {
    if (cells.length > names.length) {
      const detail = `It has ${cells.length} cells, and the header ${names.length}.`;
      errors.push({ line, detail });
    }
    const read = Object.entries(columns).map(([column, cell]): [string, unknown] => {
      const given = plainCell(cells[names.indexOf(column)] ?? '', separator);
      const value = given === '' ? absent(cell) : cell.read(given);
      if (value instanceof Unreadable) errors.push({ line, column, detail: value.detail });
      return [column, value];
    });
    return { line, cells: Object.fromEntries(read) as Line<C>['cells'] };
  });
  if (errors.length > 0) throw new FileRefused(errors);
  if (lines.length === 0) {
    throw new FileRefused([{ line: 1, detail: 'There is no line below the header.' }]);
  }
  return lines;
}

function absent(cell: Cell<unknown>): unknown {
  return cell.needed ? new Unreadable('missing', 'This cell is needed.') : undefined;
}

/** An export marks text that a spreadsheet would calculate with an apostrophe; it comes off. */
function plainCell(cell: string, separator: string): string {
  const text = cell.trim().replace(/^'(?=[=+\-@\t\r])/, '');
  return separator !== ',' && /^-?\d+,\d+$/.test(text) ? text.replace(',', '.') : text;
}

function decode(content: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(content);
  } catch {
    const detail = 'The file is not UTF-8. Save it as CSV UTF-8 in the spreadsheet.';
    throw new FileRefused([{ line: 1, detail }]);
  }
}

function separatorOf(text: string): string {
  const header = text.slice(0, text.search(/[\r\n]|$/));
  const count = (separator: string) => header.split(separator).length;
  return separators.reduce((best, each) => (count(each) > count(best) ? each : best), ',');
}

function recordsOf(text: string, delimiter: string): { line: number; cells: string[] }[] {
  try {
    const parsed = parse(text, {
      ...{ bom: true, delimiter, info: true, relax_column_count: true },
      skip_empty_lines: true,
    }) as unknown as Parsed[];
    return parsed
      .map(({ record, info }) => ({
        line: info.lines - newLines(record),
        cells: record,
      }))
      .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { lines = 1 } = error as CsvError & { lines?: number };
    const detail = 'A quotation mark is not closed, or stands inside of a cell without quotes.';
    throw new FileRefused([{ line: lines, detail }]);
  }
}

/** Line breaks inside of quoted cells: the record began so many lines before it ended. */
function newLines(record: readonly string[]): number {
  return record.reduce((total, cell) => total + cell.split('\n').length - 1, 0);
}

function refuseColumns(names: readonly string[], columns: Cells): void {
  const known = Object.keys(columns);
  const errors = names.flatMap((name, index): FileError[] => {
    if (names.indexOf(name) < index) {
      return [{ line: 1, detail: `The column ${name} is there twice.` }];
    }
    if (known.includes(name)) return [];
    return [{ line: 1, detail: `There is no column "${name}". Known: ${known.join(', ')}.` }];
  });
  const missing = known.filter((name) => columns[name]?.needed && !names.includes(name));
  errors.push(...missing.map((name) => ({ line: 1, detail: `The column ${name} is needed.` })));
  if (errors.length > 0) throw new FileRefused(errors);
}

/** An export as the text of a file. */
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import type { ExportTable } from './lines.js';

/**
 * CSV with a header (RFC 4180). Text that a spreadsheet would calculate is marked with an
 * apostrophe, which an import takes off again.
 */
export function csvOf({ columns, rows }: ExportTable): string {
  return stringify([columns, ...rows].map((row) => row.map(uncalculated)));
}

/** The same as JSON objects in a list; empty cells are left out. */
export function jsonOf({ columns, rows }: ExportTable): string {
  const objects = rows.map((row) => objectOf(columns, row));
  return `${JSON.stringify(objects, undefined, 2)}\n`;
}

/** CSV that comes in pieces of whole lines, as a list of JSON objects, one a line. */
export async function* jsonOfCsv(pieces: AsyncIterable<string>): AsyncIterable<string> {
  let columns: string[] | undefined;
  let between = '[\n';
  for await (const piece of pieces) {
    const lines = parse(piece);
    columns ??= lines.shift() ?? [];
    for (const line of lines) {
      yield `${between}${JSON.stringify(objectOf(columns, line))}`;
      between = ',\n';
    }
  }
  yield between === '[\n' ? '[]\n' : '\n]\n';
}

function objectOf(columns: readonly string[], row: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    columns.flatMap((column, index) => (row[index] ? [[column, row[index]]] : [])),
  );
}

function uncalculated(cell: string): string {
  return /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
}

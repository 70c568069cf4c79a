/** An export as the text of a file. */
import { stringify } from 'csv-stringify/sync';
import type { ExportTable } from './lines.js';

/**
 * CSV with a header (RFC 4180). Text that a spreadsheet would calculate is marked with an
 * apostrophe, which an import takes off again.
 */
export function csvOf({ columns, rows }: ExportTable): string {
  return stringify([columns, ...rows].map((row) => row.map(uncalculated)));
}

/** The same as objects; empty cells are left out. */
export function objectsOf({ columns, rows }: ExportTable): Record<string, string>[] {
  return rows.map((row) =>
    Object.fromEntries(
      columns.flatMap((column, index) => (row[index] ? [[column, row[index]]] : [])),
    ),
  );
}

function uncalculated(cell: string): string {
  return /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
}

/** The readable part of the invented studio: its files, and where they lie. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';

/** A file of Saltmarsh Row, seen from the sources and from what was built of them. */
export function fileOf(name: string): Buffer {
  const up = import.meta.url.includes('/dist/') ? '../..' : '..';
  const root = fileURLToPath(new URL(`${up}/`, import.meta.url));
  return readFileSync(join(root, 'seed', 'saltmarsh-row', name));
}

/** Its lines by the names of their columns; an empty cell is empty text. */
export function linesOf(name: string): Record<string, string>[] {
  return parse(fileOf(name), { columns: true, skip_empty_lines: true });
}

/** A cell that must be there. */
export function cell(line: Readonly<Record<string, string>>, column: string): string {
  const text = line[column];
  if (text === undefined) throw new Error(`A file of the demo has no column ${column}.`);
  return text;
}

/** A bare number for the generator: a share, a weight, minutes; 0 where the cell is empty. */
export function figure(line: Readonly<Record<string, string>>, column: string): number {
  return +(cell(line, column) || '0');
}

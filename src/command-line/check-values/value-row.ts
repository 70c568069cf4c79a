/** Rows of published values: what a file of them looks like, and how a folder of them is read. */
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

export type Fields = Readonly<Record<string, unknown>>;

/** One published value: a topic, what goes in, what must come out, and who says so. */
export interface ValueRow {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Fields;
  readonly expected: Fields;
  readonly source: string;
  /** True when the value was read in its source; false when derived from it or remembered. */
  readonly seen?: boolean;
  readonly basis?: string;
  /** How far a result may lie from the value: a number, or "as printed". */
  readonly tolerance?: number | string;
  readonly note?: string;
  readonly optional?: boolean;
}

/** A folder or file that cannot be read as rows of values. */
export class UnreadableValues extends Error {}

/**
 * All rows of all `.json` files of a folder (or of one file), in the order of their names.
 * @throws UnreadableValues with a sentence that names the file
 */
export function readRows(folder: string): ValueRow[] {
  const files = filesOf(folder);
  if (files.length === 0) throw new UnreadableValues(`${folder} holds no .json file of values.`);
  return files.flatMap((file) => rowsOf(file));
}

function filesOf(path: string): string[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new UnreadableValues(`There is no folder ${path}. Name one that exists.`);
  if (found.isFile()) return [path];
  return readdirSync(path)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => join(path, name));
}

function rowsOf(file: string): ValueRow[] {
  let content: unknown;
  try {
    content = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new UnreadableValues(`${file} is not JSON: ${(error as Error).message}`);
  }
  if (!Array.isArray(content)) throw new UnreadableValues(`${file} is not a list of rows.`);
  return content.map((row: unknown, index) => {
    if (!isRow(row)) {
      throw new UnreadableValues(
        `Row ${index + 1} of ${file} needs an id, a topic, inputs, expected and a source.`,
      );
    }
    return row;
  });
}

function isRow(row: unknown): row is ValueRow {
  if (!isFields(row)) return false;
  const texts = [row['id'], row['topic'], row['source']];
  const filled = texts.every((text) => typeof text === 'string');
  return filled && isFields(row['inputs']) && isFields(row['expected']);
}

/** True for a JSON object. */
export function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

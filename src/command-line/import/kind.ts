/** What a kind of file is: its columns, and how its lines become part of the studio. */
import { LinesRefused } from '../../../shared/problems/lines-refused.js';
import type { BulkService } from '../../studio/catalogue/bulk.service.js';
import type { HistoryService } from '../../studio/stock/history.service.js';
import type { Cells } from './cells.js';
import { FileRefused, type FileError } from './table.js';

/** Where a file of the catalogue goes to. */
export interface Destination {
  readonly bulk: BulkService;
  readonly studioId: string;
  /** Do all of it, and undo it at the end. */
  readonly dry: boolean;
}

/** Where a file of what happened goes to. */
export interface LedgerDestination extends Destination {
  readonly history: HistoryService;
}

/** What came of a file: how many of what. */
export type Imported = Readonly<Record<string, number>>;

export interface ImportKind<D extends Destination = Destination> {
  readonly name: string;
  readonly about: string;
  readonly columns: Cells;
  /** @throws FileRefused with every line that needs correcting; then nothing is stored */
  readonly run: (content: Buffer, destination: D) => Promise<Imported>;
}

/** Where in a file a problem of a request is: its line and column. */
export type Place = (index: number, pointer: string) => Omit<FileError, 'detail'>;

/**
 * Waits for `work`; what it refuses of its list is told by lines and columns of the file.
 * @throws FileRefused
 */
export async function byLines<T>(work: Promise<T>, place: Place): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (!(error instanceof LinesRefused)) throw error;
    throw new FileRefused(
      error.refusals
        .map(({ line, problem: { pointer = '', message } }) => ({
          ...place(line, pointer),
          detail: message,
        }))
        .sort((a, b) => a.line - b.line),
    );
  }
}

/** The column of a request's field: "/reorder/keepSealed" -> "keep_sealed"; none of a place. */
export function columnOf(pointer: string): string | undefined {
  const field = pointer.split('/').at(-1) ?? '';
  if (/^\d*$/.test(field)) return undefined;
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** For kinds in which each line is one request. */
export function lineByLine(lines: readonly { readonly line: number }[]): Place {
  return (index, pointer) => ({ line: lines[index]?.line ?? 1, column: columnOf(pointer) });
}

/**
 * For kinds in which several lines are one request, its `lines` in their order.
 * @param columns of a line's fields whose columns have another name
 */
export function groupByGroup(
  groups: readonly (readonly { readonly line: number }[])[],
  columns: Readonly<Record<string, string>>,
): Place {
  return (index, pointer) => {
    const [, list, place = '0', field = ''] = pointer.split('/');
    const inLine = list === 'lines';
    const line = groups[index]?.[inLine ? Number.parseInt(place, 10) : 0]?.line ?? 1;
    return { line, column: inLine ? (columns[field] ?? columnOf(field)) : columnOf(pointer) };
  };
}

/** The lines of a file that belong together, in the order of their first ones. */
export function grouped<L>(lines: readonly L[], keyOf: (line: L) => readonly unknown[]): L[][] {
  const groups = new Map<string, L[]>();
  for (const line of lines) {
    const key = JSON.stringify(keyOf(line));
    groups.set(key, [...(groups.get(key) ?? []), line]);
  }
  return [...groups.values()];
}

/** Gathers what cannot be made of lines, so that all of it is told at once. */
export class FileCheck {
  private readonly errors: FileError[] = [];

  refuse(line: number, column: string | undefined, detail: string): void {
    this.errors.push({ line, column, detail });
  }

  /** @throws FileRefused where anything was refused */
  done(): void {
    if (this.errors.length > 0) throw new FileRefused(this.errors);
  }
}

/** Lists in pages: `?limit=` and `?cursor=` in, `{items, next}` out. */
import { Field, Whole } from './fields.js';
import { MalformedRequest, Unreadable } from './unreadable.js';

/** Query parameters of a list; extend it for a list with filters. */
export class PageRequest {
  @Whole({ optional: true, min: 1, max: 500, description: 'How many, 50 unless told.' })
  limit: number = 50;

  @Field(
    readCursor,
    { type: 'string' },
    { optional: true, description: '`next` of the page before.' },
  )
  cursor?: readonly string[];
}

/** One page of a list. */
export interface Page<T> {
  readonly items: readonly T[];
  /** Cursor of the next page; null on the last one. */
  readonly next: string | null;
}

/**
 * A page from rows that were read with `limit + 1`.
 * @param keyOf values that the list is ordered by, as text; the next page begins after them
 */
export function pageOf<Row, T>(
  rows: readonly Row[],
  limit: number,
  keyOf: (row: Row) => readonly string[],
  view: (row: Row) => T,
): Page<T> {
  const shown = rows.slice(0, limit);
  const last = rows.length > limit ? shown.at(-1) : undefined;
  return { items: shown.map(view), next: last === undefined ? null : cursorFrom(keyOf(last)) };
}

/**
 * The values in a page's cursor.
 * @throws Problem `malformed_request` when it has not so many
 */
export function cursorValues(page: PageRequest, count: number): readonly string[] | undefined {
  if (page.cursor === undefined || page.cursor.length === count) return page.cursor;
  const { code, detail } = strange;
  throw new MalformedRequest([{ pointer: '/cursor', code, detail }]);
}

const strange = new Unreadable(
  'unknown_cursor',
  'Give `next` of the page before as it was, or leave the cursor out.',
);

function cursorFrom(values: readonly string[]): string {
  return Buffer.from(JSON.stringify(values)).toString('base64url');
}

function readCursor(value: unknown): readonly string[] | Unreadable {
  try {
    const read: unknown = JSON.parse(Buffer.from(String(value), 'base64url').toString());
    if (Array.isArray(read) && read.every((one) => typeof one === 'string')) return read;
  } catch {
    // said below
  }
  return strange;
}

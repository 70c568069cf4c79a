/** Rows of the ledger put together: what makes up an item whose demand is told. */
import type { Days, PeriodUse } from '../../../shared/ordering/demand-history.js';
import type { UnrecordedUse } from '../../../shared/ordering/unrecorded-use.js';

/** A product as demand knows it. */
export interface ProductRow {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly unit: string;
  readonly strength: string | null;
  readonly density: number;
  readonly first_day: string | null;
  readonly retired: boolean;
}

/** A product whose use counts as an item's, times the factor. */
export interface Part {
  readonly row: ProductRow;
  readonly factor: number;
}

export interface ReplacementRow {
  readonly product_id: string;
  readonly replaces_id: string;
  readonly factor: number;
}

export interface MarkRow extends Days {
  readonly product_id: string;
}

/** The product and all that it replaced, one after the other. */
export function partsOf(
  row: ProductRow,
  products: ReadonlyMap<string, ProductRow>,
  replaced: ReadonlyMap<string, ReplacementRow>,
): Part[] {
  const parts: Part[] = [{ row, factor: 1 }];
  const seen = new Set([row.id]);
  let last = parts[0];
  while (last) {
    const before: ReplacementRow | undefined = replaced.get(last.row.id);
    const old = before && products.get(before.replaces_id);
    if (!before || !old || seen.has(old.id)) break;
    seen.add(old.id);
    last = { row: old, factor: last.factor * before.factor };
    parts.push(last);
  }
  return parts;
}

/** Millilitres of one unit of a developer. */
export function millilitresOf({ unit, density }: ProductRow): number {
  return unit === 'g' ? 1 / density : 1;
}

export function byProduct<T extends { product_id: string }>(rows: readonly T[]): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const row of rows) {
    const own = found.get(row.product_id);
    if (own) own.push(row);
    else found.set(row.product_id, [row]);
  }
  return found;
}

/** Use of all parts together, by period. */
export function added(
  parts: readonly Part[],
  uses: ReadonlyMap<string, readonly PeriodUse[]>,
): PeriodUse[] {
  const total = new Map<string, number>();
  for (const { row, factor } of parts) {
    for (const { period, quantity } of uses.get(row.id) ?? []) {
      total.set(period, (total.get(period) ?? 0) + quantity * factor);
    }
  }
  return [...total].sort().map(([period, quantity]) => ({ period, quantity }));
}

/** Use not entered of all parts together. */
export function together(
  all: readonly { readonly learned: UnrecordedUse; readonly factor: number }[],
): UnrecordedUse {
  return {
    perDay: all.reduce((a, { learned, factor }) => a + learned.perDay * factor, 0),
    variancePerDay: all.reduce((a, { learned, factor }) => {
      return a + learned.variancePerDay * factor ** 2;
    }, 0),
    counts: all.reduce((a, { learned }) => a + learned.counts, 0),
  };
}

export function earliest(days: readonly (string | null)[]): string | null {
  return days.reduce((a, b) => (a === null || (b !== null && b < a) ? b : a), null);
}

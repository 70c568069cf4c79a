/** Checks what new or changed products refer to: their suppliers, and GTINs that must be theirs. */
import type { LineCheck } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { ProductCard } from '../../../shared/product-card.js';
import type { Transaction } from '../../platform/database/transaction.js';
import type { ProductDetail } from './product-rows.js';
import { GTINS_TAKEN, SUPPLIERS_KNOWN } from './products.queries.js';

/** An entry with its card, and which line of a list it is. */
export interface CheckedProduct {
  readonly line: number;
  readonly id: string;
  readonly entry: ProductDetail;
  readonly card: ProductCard;
}

/** Refuses lines in `check`: `not_found` for a supplier, `gtin_in_use`. Two statements for all. */
export async function checkReferences(
  tx: Transaction,
  products: readonly CheckedProduct[],
  check: LineCheck,
): Promise<void> {
  const suppliers = products.flatMap(({ entry }) => entry.supplierId ?? []);
  const gtins = products.flatMap(({ card }) => card.packs.flatMap(({ gtin }) => gtin ?? []));
  const only = products.length === 1 ? (products[0]?.id ?? null) : null;
  const [known, taken] = await Promise.all([
    tx.query<{ id: string }>(SUPPLIERS_KNOWN, [suppliers]),
    tx.query<{ gtin: string; name: string }>(GTINS_TAKEN, [gtins, only]),
  ]);
  const knownIds = new Set(known.map(({ id }) => id));
  const owners = new Map(taken.map(({ gtin, name }) => [gtin, name]));
  for (const { line, entry, card } of products) {
    if (entry.supplierId && !knownIds.has(entry.supplierId)) {
      const facts = { what: 'supplier', id: entry.supplierId };
      check.refuse(line, new Problem('not_found', facts, '/supplierId'));
    }
    card.packs.forEach(({ gtin }, index) => {
      if (gtin === null) return;
      const product = owners.get(gtin);
      if (product !== undefined) {
        check.refuse(line, new Problem('gtin_in_use', { gtin, product }, `/packs/${index}/gtin`));
      }
      owners.set(gtin, entry.name); // the next line with it is refused for this one
    });
  }
}

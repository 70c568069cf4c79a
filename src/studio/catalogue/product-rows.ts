/** A product as entered, worked out into the rows that are stored. */
import { uuidv7 } from 'uuidv7';
import type { Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { ProductCard, ProductEntry } from '../../../shared/product-card.js';
import type { PackEntity } from './pack.entity.js';
import type { ProductEntity } from './product.entity.js';
import type { PackRow } from './products.queries.js';
import type { NewRow } from './records.queries.js';

/** What is kept of a product besides what its card works out. */
export interface ProductDetail extends ProductEntry {
  readonly openLifeDays?: number | null | undefined;
  readonly workingMinutes?: number | null | undefined;
  readonly supplierId?: string | null | undefined;
  readonly reorder?: ReorderDetail | undefined;
  /** Poured before anybody entered it. */
  readonly namedLater?: boolean | undefined;
}

/** When to buy again; the point in the product's own unit, the service level a share. */
export interface ReorderDetail {
  readonly point?: Decimal | null | undefined;
  readonly leadTimeDays?: number | null | undefined;
  readonly serviceLevel?: Decimal | null | undefined;
  readonly keepSealed?: number | null | undefined;
}

export type NewPack = Omit<PackEntity, 'studioId'>;

export function productRow(
  id: string,
  entry: ProductDetail,
  card: ProductCard,
): Omit<NewRow<ProductEntity>, 'retiredAt'> {
  const { reorder = {} } = entry;
  return {
    id,
    name: entry.name,
    kind: entry.kind,
    unit: entry.unit,
    line: entry.line ?? null,
    strength_vol: card.strength_vol,
    percent: card.percent,
    density_g_per_ml: entry.density ?? null,
    gramsPerPiece: entry.gramsPerPiece ?? null,
    dose: card.dose,
    openLifeDays: entry.openLifeDays ?? null,
    workingMinutes: entry.workingMinutes ?? null,
    scalpCeiling_vol: entry.scalpCeiling ?? null,
    offScalpCeiling_vol: entry.offScalpCeiling ?? null,
    reorderPoint: reorder.point ?? null,
    leadTimeDays: reorder.leadTimeDays ?? null,
    serviceLevel: reorder.serviceLevel ?? null,
    keepSealed: reorder.keepSealed ?? null,
    supplierId: entry.supplierId ?? null,
    namedLater: entry.namedLater ?? false,
  };
}

/**
 * A product's packs; one that is there already, by its id or else by its label, keeps its id.
 * @throws Problem `pack_unknown` for an id that none of its packs has
 */
export function packRows(
  product: { readonly id: string; readonly name: string },
  card: ProductCard,
  present: readonly PackRow[] = [],
): NewPack[] {
  return card.packs.map((pack, position) => {
    const { id, ...facts } = pack;
    if (id !== undefined && present.length > 0 && !present.some((known) => known.id === id)) {
      const pointer = `/packs/${position}/id`;
      throw new Problem('pack_unknown', { id, product: product.name }, pointer);
    }
    const same = present.find(({ label }) => label === pack.label);
    return { ...facts, id: id ?? same?.id ?? uuidv7(), productId: product.id, position };
  });
}

/** One product as a posting reads it: what it is, what is on its shelf, how it is reordered. */
import type { CostingMethod, LotBalance } from '../../../shared/costing.js';
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import type { StockUnit } from '../../../shared/amount.js';
import type { ShelfLevel } from '../../../shared/moving/levels.js';
import type { OpenShortfall, ProductStock } from '../../../shared/moving/stock.js';

/** A row of READ_PRODUCTS. */
export interface ProductRow {
  id: string;
  name: string;
  kind: string;
  unit: StockUnit;
  line: string | null;
  strength_vol: string | null;
  percent: string | null;
  density_g_per_ml: string | null;
  grams_per_piece: string | null;
  dose_quantity: string | null;
  scalp_ceiling_vol: string | null;
  off_scalp_ceiling_vol: string | null;
  reorder_point: string | null;
  keep_sealed: number | null;
  service_level: string | null;
  lead_time_days: number | null;
  costing_method: CostingMethod;
  shelf_value: string;
  shortfall_open: string;
  last_counted_at: string | null;
  shortfall_lot_id: string | null;
  lots: {
    id: string;
    quantity: string;
    value: string;
    expiresOn: string | null;
    receivedOn: string;
  }[];
  packs: PackRow[];
  policy_point: string | null;
  on_order: string;
  recent_use: string | null;
  recent_since: string | null;
  fallback_unit_cost: string | null;
}

interface PackRow {
  id: string;
  label: string;
  quantity: string;
  emptyWeightG: string | null;
  listPrice: string | null;
}

/** How a product is bought; quantity in the product's stock unit, price in currency. */
export interface PackFacts {
  readonly id: string;
  readonly label: string;
  readonly quantity: Decimal;
  readonly emptyWeight_g: Decimal | null;
  readonly listPrice: Decimal | null;
}

/** What a product is; strengths in vol, density in g/ml. */
export interface ProductFacts {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly unit: StockUnit;
  readonly line: string | null;
  readonly strength_vol: Decimal | null;
  readonly percent: Decimal | null;
  readonly density_g_per_ml: Decimal | null;
  readonly grams_per_piece: Decimal | null;
  /** What one pump or capsule holds, in the stock unit. */
  readonly dose: Decimal | null;
  readonly scalpCeiling_vol: Decimal | null;
  readonly offScalpCeiling_vol: Decimal | null;
  readonly packs: readonly PackFacts[];
  readonly reorderPoint: Decimal | null;
  readonly keepSealed: number | null;
  readonly serviceLevel: Decimal | null;
  readonly leadTime_days: number | null;
  /** Reorder point worked out from demand, where there is one, and what is on order. */
  readonly policyPoint: Decimal | null;
  readonly onOrder: Decimal;
  /** Use in the months counted as recent, in stock unit, and the first of them. */
  readonly recentUse: Decimal;
  readonly recentSince: string | null;
}

const maybe = (text: string | null): Decimal | null => (text === null ? null : decimal(text));

/** The facts of a row, its numbers made exact. */
export function factsOf(row: ProductRow): ProductFacts {
  return {
    id: row.id,
    name: row.name,
    kind: row.kind,
    unit: row.unit,
    line: row.line,
    strength_vol: maybe(row.strength_vol),
    percent: maybe(row.percent),
    density_g_per_ml: maybe(row.density_g_per_ml),
    grams_per_piece: maybe(row.grams_per_piece),
    dose: maybe(row.dose_quantity),
    scalpCeiling_vol: maybe(row.scalp_ceiling_vol),
    offScalpCeiling_vol: maybe(row.off_scalp_ceiling_vol),
    packs: row.packs.map((pack) => ({
      id: pack.id,
      label: pack.label,
      quantity: decimal(pack.quantity),
      emptyWeight_g: maybe(pack.emptyWeightG),
      listPrice: maybe(pack.listPrice),
    })),
    reorderPoint: maybe(row.reorder_point),
    keepSealed: row.keep_sealed,
    serviceLevel: maybe(row.service_level),
    leadTime_days: row.lead_time_days,
    policyPoint: maybe(row.policy_point),
    onOrder: decimal(row.on_order),
    recentUse: maybe(row.recent_use) ?? zero,
    recentSince: row.recent_since,
  };
}

/** The shelf of a row, as the ledger's law works on it. */
export function stockOf(
  row: ProductRow,
  shortfallLotId: string,
  shortfalls: readonly OpenShortfall[],
  levels: readonly ShelfLevel[] = [],
): ProductStock {
  return {
    productId: row.id,
    method: row.costing_method,
    lots: row.lots.map((lot): LotBalance => ({
      id: lot.id,
      quantity: decimal(lot.quantity),
      value: decimal(lot.value),
      expiresOn: lot.expiresOn,
      receivedOn: lot.receivedOn,
    })),
    value: decimal(row.shelf_value),
    shortfalls,
    shortfallLotId,
    lastCountedAt: row.last_counted_at,
    fallbackUnitCost: maybe(row.fallback_unit_cost),
    ...(levels.length > 0 ? { levels } : {}),
  };
}

/** Rows of products as they travel, and back into what a change is worked out from. */
import { amount, type StockUnit } from '../../../shared/amount.js';
import type { PackView, ProductView } from '../../../shared/contract/catalogue.js';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import type { ProductEntry } from '../../../shared/product-card.js';
import { percentOfVolume } from '../../../shared/strength.js';
import { mayAct, type Role } from '../../platform/http/rights.js';
import type { ReorderDetail } from './product-rows.js';
import type { PackRow, ProductRow } from './products.queries.js';

const maybe = (text: string | null): Decimal | null => (text === null ? null : decimal(text));

/** A product; prices are shown to managers and owners. */
export function productView(row: ProductRow, role: Role): ProductView {
  const unit = row.unit as StockUnit;
  return {
    id: row.id,
    name: row.name,
    kind: row.kind as ProductKind,
    unit,
    line: row.line,
    strength: row.strength,
    percent: row.percent ?? usualPercent(row.strength),
    density: row.density,
    gramsPerPiece: row.gramsPerPiece,
    dose: row.dose === null ? null : { quantity: row.dose, unit },
    openLifeDays: row.openLifeDays,
    workingMinutes: row.workingMinutes,
    scalpCeiling: row.scalpCeiling,
    offScalpCeiling: row.offScalpCeiling,
    supplierId: row.supplierId,
    packs: row.packs.map((pack) => packView(pack, unit, mayAct({ role }, 'manager'))),
    reorder: {
      point: row.reorderPoint,
      leadTimeDays: row.leadTimeDays,
      serviceLevel: row.serviceLevel,
      keepSealed: row.keepSealed,
    },
    namedLater: row.namedLater,
    retiredAt: row.retiredAt?.toISOString() ?? null,
  };
}

function usualPercent(strength: string | null): string | null {
  return strength === null ? null : canonical(percentOfVolume(decimal(strength)));
}

function packView(pack: PackRow, unit: StockUnit, withMoney: boolean): PackView {
  const { id, label, quantity, gtin, orderCode, emptyWeight, listPrice } = pack;
  return {
    ...{ id, label, quantity, unit, gtin, orderCode },
    emptyWeight: emptyWeight === null ? null : { quantity: emptyWeight, unit: 'g' },
    ...(withMoney ? { listPrice } : {}),
  };
}

/** A product as it would be entered anew: what a change is laid over. */
export function entryOf(row: ProductRow): ProductEntry {
  const unit = row.unit as StockUnit;
  return {
    name: row.name,
    kind: row.kind as ProductKind,
    unit,
    line: row.line,
    strength: maybe(row.strength),
    percent: maybe(row.percent),
    density: maybe(row.density),
    gramsPerPiece: maybe(row.gramsPerPiece),
    scalpCeiling: maybe(row.scalpCeiling),
    offScalpCeiling: maybe(row.offScalpCeiling),
    dose: row.dose === null ? null : amount(row.dose, unit),
    packs: row.packs.map((pack) => ({
      ...pack,
      quantity: decimal(pack.quantity),
      emptyWeight:
        pack.emptyWeight === null ? null : { quantity: decimal(pack.emptyWeight), unit: 'g' },
      listPrice: maybe(pack.listPrice),
    })),
  };
}

/** How it is reordered at present. */
export function reorderOf(row: ProductRow): ReorderDetail {
  return {
    point: maybe(row.reorderPoint),
    leadTimeDays: row.leadTimeDays,
    serviceLevel: maybe(row.serviceLevel),
    keepSealed: row.keepSealed,
  };
}

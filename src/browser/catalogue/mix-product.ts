/** A product of the catalogue as the arithmetic of mixing reads it. */
import { amount, type StockUnit } from '../../../shared/amount.js';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { decimal } from '../../../shared/decimal.js';
import type { MixProduct } from '../../../shared/mix.js';

/** A product of the catalogue as the arithmetic reads it. */
export function mixProductOf(product: ProductView): MixProduct {
  const read = (text: string | null) => (text === null ? undefined : decimal(text));
  return {
    id: product.id,
    name: product.name,
    kind: product.kind,
    unit: product.unit,
    line: product.line ?? undefined,
    strength: read(product.strength),
    percent: read(product.percent),
    density: read(product.density),
    gramsPerPiece: read(product.gramsPerPiece),
    scalpCeiling: read(product.scalpCeiling),
    offScalpCeiling: read(product.offScalpCeiling),
    ...(product.dose === null
      ? {}
      : { dose: amount<StockUnit>(product.dose.quantity, product.dose.unit) }),
  };
}

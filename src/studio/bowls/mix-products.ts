/** Catalogue facts as the mixing arithmetic reads them. */
import { Amount } from '../../../shared/amount.js';
import { drawOrder } from '../../../shared/costing.js';
import type { MixProduct, ProductKind } from '../../../shared/mix.js';
import type { Posting, ProductFacts } from '../stock/ledger.service.js';

/** A product for planning; its expiry is that of the lot drawn next on `day`. */
export function mixProduct(posting: Posting, productId: string, day: string): MixProduct {
  const facts = posting.product(productId);
  const next = drawOrder(posting.stock(productId).lots, day)[0];
  return { ...plainProduct(facts), ...(next?.expiresOn ? { expiresOn: next.expiresOn } : {}) };
}

/** A product without its shelf. */
export function plainProduct(facts: ProductFacts): MixProduct {
  return {
    id: facts.id,
    name: facts.name,
    kind: facts.kind as ProductKind,
    unit: facts.unit,
    line: facts.line ?? undefined,
    strength: facts.strength_vol ?? undefined,
    percent: facts.percent ?? undefined,
    density: facts.density_g_per_ml ?? undefined,
    gramsPerPiece: facts.grams_per_piece ?? undefined,
    dose: facts.dose ? new Amount(facts.dose, facts.unit) : undefined,
    scalpCeiling: facts.scalpCeiling_vol ?? undefined,
    offScalpCeiling: facts.offScalpCeiling_vol ?? undefined,
  };
}

/** A mix as it was poured: the grams of each product are its parts. */
import { sum, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import type { MixJson } from './mix-json.js';

/** So much of a product. */
export interface PouredPart {
  readonly productId: string;
  readonly grams: Decimal;
  readonly kind: ProductKind;
}

/** True for the powder or cream side of a ratio. */
export function isPowder(kind: string): boolean {
  return ['lightener', 'toner', 'permanent', 'direct'].includes(kind);
}

/** The mix without its size; null where nothing of the powder side is in it. */
export function mixAsPoured(parts: readonly PouredPart[]): Omit<MixJson, 'size'> | null {
  const powders = parts.filter(({ kind }) => isPowder(kind));
  const developers = parts.filter(({ kind }) => kind === 'developer');
  if (powders.length === 0) return null;
  const share = ({ productId, grams }: PouredPart) => ({ productId, share: grams.toFixed(3) });
  const powder = sum(powders.map(({ grams }) => grams));
  const wet = sum(developers.map(({ grams }) => grams));
  const ratio = {
    ratio: `1:${wet.dividedBy(powder).toFixed(3)}`,
    developers: developers.map(share),
  };
  return { ...(developers.length === 0 ? {} : ratio), powders: powders.map(share) };
}

/** Strength and peroxide of what is, or would be, in a bowl. */
import { sum, zero, type Decimal } from './decimal.js';
import type { MixProduct } from './mix.js';
import {
  peroxidePercentOfBowl,
  strengthIfKnown,
  strengthOfBlend,
  waterStrength,
  type Strength,
} from './strength.js';
import { densityOf } from './units.js';

/** A product in a bowl and its grams. */
export interface BowlPart {
  readonly product: MixProduct;
  readonly grams: Decimal;
}

/** True for what makes the developer side of a bowl: developers, and water poured in. */
export function isWet({ product }: Pick<BowlPart, 'product'>): boolean {
  return product.kind === 'developer' || product.kind === 'water';
}

/**
 * "Developer in this bowl: 13 vol": the mean by volume of its developers, water as 0 vol; never
 * the strength of the bowl. Undefined without developer, and where one's strength is not known.
 * @throws Problem `density_out_of_range`, `strength_out_of_range`
 */
export function developerStrengthOf(parts: readonly BowlPart[]): Strength | undefined {
  const wet = parts.filter((part) => isWet(part) && part.grams.greaterThan(0));
  if (!wet.some(({ product }) => product.kind === 'developer')) return undefined;
  const blend = wet.flatMap(({ product, grams }) => {
    const strength = product.kind === 'water' ? waterStrength : strengthIfKnown(product);
    const millilitres = grams.dividedBy(densityOf(product).density);
    return strength ? [{ millilitres, strength }] : [];
  });
  return blend.length === wet.length ? strengthOfBlend(blend) : undefined;
}

/**
 * Peroxide of the whole bowl, per cent by weight, unrounded; 0 without developer. Undefined for
 * an empty bowl, and where a developer's strength is not known.
 * @throws Problem `strength_out_of_range`
 */
export function peroxidePercentOf(parts: readonly BowlPart[]): Decimal | undefined {
  if (!sum(parts.map((part) => part.grams)).greaterThan(0)) return undefined;
  const known = parts.flatMap(({ product, grams }) => {
    if (product.kind !== 'developer') return [{ grams, percent: zero }];
    const strength = strengthIfKnown(product);
    return strength ? [{ grams, percent: strength.percent }] : [];
  });
  return known.length === parts.length ? peroxidePercentOfBowl(known) : undefined;
}

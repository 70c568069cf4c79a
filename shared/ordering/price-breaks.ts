/** What a pack costs when many are bought: all packs at the price of the number reached. */
import { count, decimal, zero, type Decimal } from '../decimal.js';

/** From so many packs on, each costs so much (decimal text). */
export interface PriceBreak {
  readonly fromPacks: number;
  readonly packPrice: string;
}

/** A range of packs with one price for each of them; `most` null: no end. */
export interface PriceTier {
  readonly least: number;
  readonly most: number | null;
  readonly packPrice: Decimal;
}

/** The price of each of so many packs; null where none is known. Breaks in any order. */
export function priceAt(
  listPrice: string | null,
  breaks: readonly PriceBreak[],
  packs: number,
): string | null {
  const reached = breaks.filter(({ fromPacks }) => fromPacks <= packs);
  const best = reached.sort((a, b) => b.fromPacks - a.fromPacks)[0];
  return best?.packPrice ?? listPrice;
}

/**
 * Tiers from 1 pack on. Without a list price a pack counts as costing nothing.
 * Example: list 10, from 6 packs 9 -> 1-5 at 10, 6 and more at 9.
 */
export function priceTiers(listPrice: string | null, breaks: readonly PriceBreak[]): PriceTier[] {
  const sorted = [...breaks].sort((a, b) => a.fromPacks - b.fromPacks);
  const starts = [
    { fromPacks: 1, packPrice: listPrice === null ? zero : decimal(listPrice) },
    ...sorted.map(({ fromPacks, packPrice }) => ({ fromPacks, packPrice: decimal(packPrice) })),
  ];
  return starts.map(({ fromPacks, packPrice }, index) => {
    const next = starts[index + 1];
    return { least: fromPacks, most: next ? next.fromPacks - 1 : null, packPrice };
  });
}

/** True where prices fall from list price to the last break, each number of packs once. */
export function breaksAreInOrder(listPrice: string | null, breaks: readonly PriceBreak[]): boolean {
  const tiers = priceTiers(listPrice, breaks);
  return tiers.every((tier, index) => {
    const before = tiers[index - 1];
    if (!before) return true;
    const falls =
      listPrice === null && index === 1 ? true : tier.packPrice.lessThan(before.packPrice);
    return tier.least > before.least && falls;
  });
}

/** Price of so many packs: each at the price of the number reached. */
export function totalPrice(tiers: readonly PriceTier[], packs: number): Decimal {
  const tier = tiers.findLast(({ least }) => least <= packs);
  return packs === 0 || !tier ? zero : tier.packPrice.times(count(packs));
}

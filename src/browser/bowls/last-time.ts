/** The bowls of a client's last visit, to be planned again in the size that was really applied. */
import type { ClientBowlView } from '../../../shared/contract/clients.js';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { sizeAsBefore, type SizeAsBefore } from '../../../shared/repeating.js';
import { mixAsPoured, type PouredPart } from './as-poured.js';
import type { MixJson } from './mix-json.js';
import { productIn, type Known } from './next.js';

/** One bowl to do again. */
export interface Repeat {
  readonly purpose: string;
  readonly mix: Omit<MixJson, 'size'>;
  readonly size: SizeAsBefore;
}

export interface LastTime {
  readonly startedAt: string;
  readonly repeats: readonly Repeat[];
}

/** The last visit before this one in which something was applied; undefined: none. */
export function lastTime(
  bowls: readonly ClientBowlView[],
  visitId: string,
  products: Known['products'],
): LastTime | undefined {
  const settled = bowls.filter((bowl) => bowl.state === 'settled' && bowl.visitId !== visitId);
  const [last] = settled;
  if (!last) return undefined;
  const then = settled.filter((bowl) => bowl.visitId === last.visitId).toReversed();
  const purposes = [...new Set(then.map(({ purpose }) => purpose))];
  const repeats = purposes.flatMap((purpose) => {
    const like = settled.filter((bowl) => bowl.purpose === purpose);
    const size = sizeAsBefore(like.map((bowl, index) => taken(bowl, like.length - index)));
    const first = then.find((bowl) => bowl.purpose === purpose);
    const mix = first && mixOfBowl(first, products);
    return mix && size ? [{ purpose, mix, size }] : [];
  });
  return { startedAt: last.visitStartedAt, repeats };
}

/** The plan of an earlier bowl without its size; where it had none, as it was poured. */
export function mixOfBowl(
  bowl: Pick<ClientBowlView, 'plan' | 'pours'>,
  products: Known['products'],
): Omit<MixJson, 'size'> | null {
  if (!bowl.plan) return mixAsPoured(partsOf(bowl.pours, products));
  const mix = { ...(bowl.plan as unknown as MixJson) };
  delete (mix as { size?: unknown }).size;
  return mix;
}

/** What was poured, product by product. */
export function partsOf(
  pours: readonly { readonly productId: string; readonly grams: string }[],
  products: Known['products'],
): PouredPart[] {
  const parts = new Map<string, Decimal>();
  for (const { productId, grams } of pours) {
    parts.set(productId, decimal(grams).plus(parts.get(productId) ?? 0));
  }
  return [...parts].map(([productId, grams]) => ({
    ...{ productId, grams, kind: productIn(products, productId).kind },
  }));
}

function taken(bowl: ClientBowlView, order: number) {
  const { visitId, purpose, applied, wasted, estimated } = bowl;
  return {
    ...{ visitId, purpose, order, weighed: !estimated },
    applied_g: decimal(applied.quantity),
    leftover_g: decimal(wasted.quantity),
  };
}

/** A count as a person makes it: full packs, and started ones put on the scale. */
import { canonical, count, sum, zero, type Decimal } from '../decimal.js';
import { Problem, within } from '../problems/problem.js';
import { stockQuantityOf, type Weighable } from '../units.js';
import { packNamed } from './arrival.js';

/** A pack with what it holds in stock unit, and the weight of the empty one in g. */
export interface CountedPack {
  readonly label: string;
  readonly quantity: Decimal;
  readonly emptyWeight_g: Decimal | null;
}

/** Full packs of one size, and started ones by their weight in g. */
export interface PackCount {
  readonly fullPacks: number;
  readonly packLabel?: string | undefined;
  readonly open: readonly { readonly gross: Decimal; readonly emptyPack?: Decimal | undefined }[];
}

/** What was counted in stock unit, and whether a started pack holds more than a full one. */
export interface CountedQuantity {
  readonly quantity: Decimal;
  readonly fullerThanFull: boolean;
}

/**
 * Full packs times their content, plus every started pack's weight less that of the empty one,
 * by density where the product is kept in ml, half-even to 0.001.
 * Example: 2 bottles of 1000 ml, one weighing 562 g of which 45 g are the bottle, 1.02 g/ml ->
 * 2506.863 ml.
 * @throws Problem `unknown_pack`, `empty_pack_unknown`, `lighter_than_empty`
 */
export function countedPacks(
  counted: PackCount,
  product: Weighable,
  packs: readonly CountedPack[],
): CountedQuantity {
  const name = product.name ?? product.id;
  const needsPack = counted.fullPacks > 0 || counted.open.some((each) => !each.emptyPack);
  const pack = needsPack ? packNamed(counted.packLabel, name, packs) : null;
  const started = counted.open.map((each, index) =>
    within(`/open/${index}`, () => {
      const empty_g = each.emptyPack ?? pack?.emptyWeight_g ?? null;
      if (empty_g === null) throw new Problem('empty_pack_unknown', { product: name });
      return contentOf(each.gross, empty_g, product);
    }),
  );
  const full = (pack?.quantity ?? zero).times(count(counted.fullPacks));
  return {
    quantity: full.plus(sum(started)),
    fullerThanFull: pack !== null && started.some((each) => each.greaterThan(pack.quantity)),
  };
}

function contentOf(gross_g: Decimal, empty_g: Decimal, product: Weighable): Decimal {
  if (gross_g.lessThan(empty_g)) {
    const facts = { gross: canonical(gross_g), empty: canonical(empty_g) };
    throw new Problem('lighter_than_empty', facts, '/gross');
  }
  return stockQuantityOf(gross_g.minus(empty_g), product);
}

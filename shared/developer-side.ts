/** The developer side of a plan: its developers, their weight for the powder, their strength. */
import { sum, type Decimal } from './decimal.js';
import {
  chooseDevelopers,
  statedDevelopers,
  statesShares,
  type DeveloperPart,
} from './developers.js';
import { nameOf, type MixProduct, type MixRequest } from './mix.js';
import { Problem, within } from './problems/problem.js';
import { developerPerPowder, parseRatio } from './ratio.js';
import { judgeStrength, strengthOfBlend, strengthOfBottle, type Strength } from './strength.js';
import { densityOf } from './units.js';

/** One developer of the side, in grams to one gram of the powder side. */
export interface WeighedDeveloper {
  readonly product: MixProduct;
  readonly gramsPerPowder: Decimal;
  /** Per cent of peroxide */
  readonly percent: Decimal;
}

export interface DeveloperSide {
  readonly parts: readonly WeighedDeveloper[];
  /** Grams of the whole side to one gram of the powder side */
  readonly gramsPerPowder: Decimal;
  /** g/ml of the whole side */
  readonly density: Decimal;
  readonly strength: Strength;
}

/**
 * Works out the developer side of a request; undefined without a ratio. Developers share their
 * side by volume: in a ratio by weight ml_i = D_grams x v_i / sum(v_j x density_j); in a ratio
 * by volume ml_i = D_ml x v_i / sum(v_j).
 * @throws Problem of ratio.ts and developers.ts and: `developer_without_ratio`, `no_developer`,
 *   `product_not_given`, `product_twice`, `wrong_kind`
 */
export function developerSide(
  request: MixRequest,
  byId: ReadonlyMap<string, MixProduct>,
  inStock: readonly MixProduct[],
  line?: string,
): DeveloperSide | undefined {
  const { ratio, strength } = request;
  const named = request.developers ?? [];
  if (ratio === undefined) {
    if (strength || named.length > 0) throw new Problem('developer_without_ratio', {}, '/ratio');
    return undefined;
  }
  const perPowder = developerPerPowder(within('/ratio', () => parseRatio(ratio)));
  if (strength) within('/strength', () => judgeStrength(strength));
  const chosen = developersOf(request, byId, inStock, line);
  const weights = chosen.map(({ product, parts }) => parts.times(densityOf(product).density));
  const parts_ml = sum(chosen.map((each) => each.parts));
  const density = sum(weights).dividedBy(parts_ml);
  const gramsPerPowder = request.basis === 'volume' ? perPowder.times(density) : perPowder;
  return {
    gramsPerPowder,
    density,
    strength: strengthOfBlend(
      chosen.map(({ parts, product }) => ({
        millilitres: parts,
        strength: strengthOfBottle(product),
      })),
    ),
    parts: chosen.map(({ product }, index) => ({
      product,
      gramsPerPowder: gramsPerPowder.times(weights[index] ?? 0).dividedBy(sum(weights)),
      percent: strengthOfBottle(product).percent,
    })),
  };
}

function developersOf(
  request: MixRequest,
  byId: ReadonlyMap<string, MixProduct>,
  inStock: readonly MixProduct[],
  line?: string,
): DeveloperPart[] {
  const { strength } = request;
  const named = (request.developers ?? []).map(({ productId, share }, index, all) =>
    within(`/developers/${index}`, () => {
      const product = byId.get(productId);
      if (!product) throw new Problem('product_not_given', { id: productId }, '/productId');
      const { kind } = product;
      if (kind !== 'developer') {
        throw new Problem('wrong_kind', { product: nameOf(product), kind, place: 'developers' });
      }
      if (all.findIndex((each) => each.productId === productId) < index) {
        throw new Problem('product_twice', { product: nameOf(product) });
      }
      return { product, share };
    }),
  );
  if (named.length > 0 && (!strength || statesShares(request.developers ?? []))) {
    return statedDevelopers(named, strength);
  }
  if (!strength) throw new Problem('no_developer', {}, '/developers');
  const candidates = named.length > 0 ? named.map((each) => each.product) : inStock;
  return chooseDevelopers(candidates, strength, line);
}

/** From ratio, strength and size to what to pour: the plan of a bowl. */
import {
  additiveGrams,
  additiveRule,
  dosesFor,
  powderForTotal,
  type AdditiveRule,
  type PowderAndDoses,
} from './additives.js';
import { shareOut } from './allocation.js';
import { Amount, grams } from './amount.js';
import { cautionsOfMix, type Circumstances } from './cautioning.js';
import { canonical, count, one, round, sum, zero, type Decimal } from './decimal.js';
import { developerSide, type DeveloperSide } from './developer-side.js';
import {
  nameOf,
  type Assumption,
  type MixPlan,
  type MixProduct,
  type MixRequest,
  type PlannedPour,
  type SharedPart,
  type Side,
} from './mix.js';
import { Problem, within } from './problems/problem.js';
import { peroxidePercentOfBowl } from './strength.js';
import { densityOf, millilitresOf, stockPlaces, stockQuantityOf } from './units.js';

/** Above this many grams a bowl is refused; a kilogram typed for a gram shows here. */
export const largestBowl_g = count(5000);

/**
 * Plans a bowl. Ratio and basis give the developer side from the powder side (or back); several
 * powders share theirs by weight, developers theirs by volume; additives stand outside the ratio.
 * Targets are rounded to 0.001 g by largest remainder so that they add up to the size; the stock
 * quantity follows from the grams. 90 g of 1:2 -> 30 g of powder, 60 g of developer.
 * @param products every product the request names
 * @param inStock developers to choose from for a strength where the request names none
 * @throws Problem of ratio.ts, developers.ts, additives.ts, units.ts and: `product_not_given`,
 *   `product_twice`, `wrong_kind`, `no_powder`, `no_parts`, `developer_without_ratio`,
 *   `size_not_positive`, `size_too_large`, `size_in_wrong_unit`
 */
export function planMix(
  request: MixRequest,
  products: readonly MixProduct[],
  inStock: readonly MixProduct[] = [],
  circumstances: Circumstances = {},
): MixPlan {
  const byId = new Map(products.map((each) => [each.id, each]));
  const powders = powderSide(request.powders, byId);
  const developers = developerSide(request, byId, inStock, powders[0]?.product.line);
  const perPowder = developers?.gramsPerPowder ?? zero;
  const rules = (request.additives ?? []).map((each, index) =>
    within(`/additives/${index}`, () => additiveRule(each, known(each.productId, byId), perPowder)),
  );
  refuseTwice('/powders', powders);
  refuseTwice('/additives', rules, powders);
  const size = within('/size', () => sized(request, developers, rules));
  const planned = portions(powders, developers, rules, size);
  const pours = rounded(planned, size, perPowder).map((each) => poured(each, request));
  const parts = planned.map(({ product }, index) => ({
    product,
    grams: pours[index]?.grams ?? zero,
  }));
  return {
    pours,
    total: grams(sum(pours.filter((each) => each.counted).map((each) => each.grams))),
    contents: grams(sum(pours.map((each) => each.grams))),
    ...(developers ? { strength: developers.strength } : {}),
    peroxidePercent: peroxidePercentOfBowl(
      planned.map(({ percent }, index) => ({ grams: pours[index]?.grams ?? zero, percent })),
    ),
    cautions: cautionsOfMix({ parts, contact: request.contact }, circumstances),
    assumed: assumptions(planned, request),
  };
}

/** A product on the powder side and its weight there, as a bare number. */
interface PowderShare {
  readonly product: MixProduct;
  readonly share: Decimal;
}

/** One ingredient before rounding. */
interface Portion {
  readonly product: MixProduct;
  readonly side: Side;
  readonly exact_g: Decimal;
  readonly counted: boolean;
  /** Fixed grams and doses are not shared out with the rest. */
  readonly fixed: boolean;
  /** Per cent of peroxide */
  readonly percent: Decimal;
}

interface SizedMix extends PowderAndDoses {
  /** Set where the size is of the whole; the counted pours add up to it. */
  readonly total_g?: Decimal;
}

function known(id: string, byId: ReadonlyMap<string, MixProduct>): MixProduct {
  const product = byId.get(id);
  if (!product) throw new Problem('product_not_given', { id }, '/productId');
  return product;
}

function refuseTwice(
  pointer: string,
  parts: readonly { readonly product: MixProduct }[],
  before: readonly { readonly product: MixProduct }[] = [],
): void {
  const seen = new Set(before.map(({ product }) => product.id));
  parts.forEach(({ product }, index) => {
    if (seen.has(product.id)) {
      throw new Problem('product_twice', { product: nameOf(product) }, `${pointer}/${index}`);
    }
    seen.add(product.id);
  });
}

function powderSide(
  powders: readonly SharedPart[],
  byId: ReadonlyMap<string, MixProduct>,
): PowderShare[] {
  if (powders.length === 0) throw new Problem('no_powder', {}, '/powders');
  return powders.map(({ productId, share = one }, index) =>
    within(`/powders/${index}`, () => {
      const product = known(productId, byId);
      const { kind } = product;
      if (kind === 'developer' || kind === 'water' || kind === 'sundry') {
        throw new Problem('wrong_kind', { product: nameOf(product), kind, place: 'powders' });
      }
      if (!share.greaterThan(0)) throw new Problem('no_parts', { what: nameOf(product) }, '/share');
      return { product, share };
    }),
  );
}

function sized(
  request: MixRequest,
  developers: DeveloperSide | undefined,
  rules: readonly AdditiveRule[],
): SizedMix {
  const { size } = request;
  const perPowder = developers?.gramsPerPowder ?? zero;
  const withDoses = (powder_g: Decimal): SizedMix => ({
    powder_g,
    doses: rules.map((rule) => dosesFor(rule, powder_g)),
  });
  if ('total' in size) {
    const total_g = within('/total', () => measuredIn(size.total, ['g']));
    return { ...powderForTotal(total_g, perPowder, rules), total_g };
  }
  if ('powder' in size) return withDoses(within('/powder', () => measuredIn(size.powder, ['g'])));
  if (!developers) throw new Problem('developer_without_ratio', {}, '/developer');
  const measured = within('/developer', () => measuredIn(size.developer, ['g', 'ml']));
  const side_g = size.developer.unit === 'ml' ? measured.times(developers.density) : measured;
  return withDoses(side_g.dividedBy(perPowder));
}

function measuredIn(size: Amount, wanted: readonly string[]): Decimal {
  if (!wanted.includes(size.unit)) {
    throw new Problem('size_in_wrong_unit', { unit: size.unit, wanted: wanted.join(' or ') });
  }
  const value = round(size.value, stockPlaces, 'half_even');
  if (!value.greaterThan(0)) throw new Problem('size_not_positive', { size: size.toString() });
  if (value.greaterThan(largestBowl_g)) {
    throw new Problem('size_too_large', {
      size: size.toString(),
      highest: canonical(largestBowl_g),
    });
  }
  return value;
}

function portions(
  powders: readonly PowderShare[],
  developers: DeveloperSide | undefined,
  rules: readonly AdditiveRule[],
  { powder_g, doses }: SizedMix,
): Portion[] {
  const shares = sum(powders.map((each) => each.share));
  const bothSides = { counted: true, fixed: false };
  return [
    ...powders.map(({ product, share }) => ({
      ...bothSides,
      product,
      side: 'powder' as const,
      exact_g: powder_g.times(share).dividedBy(shares),
      percent: zero,
    })),
    ...(developers?.parts ?? []).map(({ product, gramsPerPowder, percent }) => ({
      ...bothSides,
      product,
      side: 'developer' as const,
      exact_g: powder_g.times(gramsPerPowder),
      percent,
    })),
    ...rules.map((rule, index) => ({
      product: rule.product,
      side: 'additive' as const,
      exact_g: additiveGrams(rule, powder_g, doses[index] ?? zero),
      counted: rule.counted,
      fixed: rule.perPowder.isZero(),
      percent: zero,
    })),
  ];
}

type RoundedPortion = Portion & { readonly grams: Decimal };

/**
 * Rounds to 0.001 g. Sized by the whole, all that is counted and not fixed shares what fixed
 * additives leave of it; else each side is rounded and shared within itself.
 */
function rounded(
  planned: readonly Portion[],
  { total_g, powder_g }: SizedMix,
  perPowder: Decimal,
): RoundedPortion[] {
  const alone = (portion: Portion): Decimal => round(portion.exact_g, stockPlaces, 'half_even');
  const result = planned.map((portion) => ({ ...portion, grams: alone(portion) }));
  const share = (whole: Decimal, belongs: (portion: Portion) => boolean): void => {
    const members = result.filter(belongs);
    if (members.length === 0) return;
    const shares = shareOut(
      whole,
      members.map((each) => each.exact_g),
      stockPlaces,
    );
    members.forEach((each, index) => (each.grams = shares[index] ?? zero));
  };
  if (total_g) {
    const fixed = result.filter((each) => each.counted && each.fixed).map((each) => each.grams);
    share(total_g.minus(sum(fixed)), (each) => each.counted && !each.fixed);
    return result;
  }
  const developer_g = powder_g.times(perPowder);
  share(round(powder_g, stockPlaces, 'half_even'), (each) => each.side === 'powder');
  share(round(developer_g, stockPlaces, 'half_even'), (each) => each.side === 'developer');
  return result;
}

function poured(portion: RoundedPortion, request: MixRequest): PlannedPour {
  const { product, side, grams: weight, counted } = portion;
  const byVolume = side === 'developer' && request.basis === 'volume';
  return {
    productId: product.id,
    side,
    quantity: stockQuantityOf(weight, product),
    unit: product.unit,
    grams: weight,
    ...(byVolume || product.unit === 'ml' ? { millilitres: millilitresOf(weight, product) } : {}),
    counted,
  };
}

/** A density is supposed only where one was needed: kept in ml, or reckoned by volume. */
function assumptions(planned: readonly Portion[], request: MixRequest): Assumption[] {
  const developers = planned.filter((each) => each.side === 'developer');
  const sizedByVolume = 'developer' in request.size && request.size.developer.unit === 'ml';
  const volumeMatters = developers.length > 1 || request.basis === 'volume' || sizedByVolume;
  return planned
    .filter(({ product, side }) => product.unit === 'ml' || (side === 'developer' && volumeMatters))
    .filter(({ product }) => densityOf(product).assumedDensity)
    .map(({ product }) => ({
      code: 'density',
      productId: product.id,
      text: `The density of ${nameOf(product)} is not known; 1 ml was counted as 1.00 g.`,
    }));
}

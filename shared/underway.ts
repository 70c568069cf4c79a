/** A bowl being poured: its plan line by line, what is in it, and what it makes. */
import { developerStrengthOf, isWet, type BowlPart } from './bowl-strength.js';
import { one, round, sum, zero, type Decimal } from './decimal.js';
import type { MixPlan, MixProduct, MixRequest, PercentOf, RatioBasis, Side } from './mix.js';
import { Problem } from './problems/problem.js';
import { ratioInWords } from './ratio.js';
import type { Strength } from './strength.js';
import { densityOf } from './units.js';

/** An ingredient of one of the two sides. */
export interface SideLine {
  readonly product: MixProduct;
  readonly side: 'powder' | 'developer';
  /** As planned; all of them add up to the bowl's planned size. Its share is target / size */
  readonly target_g: Decimal;
  readonly poured_g: Decimal;
  /** The bench has moved on from it */
  readonly finished: boolean;
  /** There is no more of it */
  readonly ranOut: boolean;
}

/** An additive: grams fixed by the plan, or a per cent that follows its side. */
export interface AdditiveLine {
  readonly product: MixProduct;
  readonly planned_g: Decimal;
  readonly follows?: { readonly of: PercentOf; readonly percent: Decimal };
  readonly poured_g: Decimal;
}

export interface BowlUnderway {
  /** g of both sides together as planned */
  readonly planned_g: Decimal;
  readonly basis: RatioBasis;
  readonly lines: readonly SideLine[];
  readonly additives: readonly AdditiveLine[];
  /** In the bowl without being planned, water among it */
  readonly unplanned: readonly BowlPart[];
}

/** What was poured of a product, in one pour or in several. */
export interface WeighedPour {
  readonly productId: string;
  readonly grams: Decimal;
}

/** How far the bench has come beside what it weighed. */
export interface BenchProgress {
  /** g; the scale's interval */
  readonly interval?: Decimal | undefined;
  /** Moved on from by hand, though short of the notch */
  readonly finished?: readonly string[] | undefined;
  /** Used up */
  readonly ranOut?: readonly string[] | undefined;
}

/**
 * Puts a plan and the pours so far together. Pours of one product add up, in any order. A line
 * counts as finished when it is in its notch or above, is named finished, or has run out.
 * @param products every product planned or poured
 * @throws Problem `product_not_given`
 */
export function bowlUnderway(
  plan: Pick<MixPlan, 'pours'>,
  formula: Pick<MixRequest, 'basis' | 'additives'>,
  products: readonly MixProduct[],
  pours: readonly WeighedPour[],
  progress: BenchProgress = {},
): BowlUnderway {
  const byId = new Map(products.map((each) => [each.id, each]));
  const product = (id: string): MixProduct => {
    const found = byId.get(id);
    if (!found) throw new Problem('product_not_given', { id });
    return found;
  };
  const pouredOf = (id: string): Decimal =>
    sum(pours.filter((pour) => pour.productId === id).map((pour) => pour.grams));
  const sides = plan.pours.filter((pour) => pour.side !== 'additive');
  const planned_g = sum(sides.map((pour) => pour.grams));
  const inPlan = new Set(plan.pours.map((pour) => pour.productId));
  const lines = sides.map((pour) => {
    const poured_g = pouredOf(pour.productId);
    const tolerance = toleranceOf(pour.grams, product(pour.productId), progress.interval);
    const ranOut = progress.ranOut?.includes(pour.productId) ?? false;
    return {
      product: product(pour.productId),
      side: pour.side as Exclude<Side, 'additive'>,
      target_g: pour.grams,
      poured_g,
      ranOut,
      finished:
        ranOut ||
        (progress.finished?.includes(pour.productId) ?? false) ||
        poured_g.greaterThanOrEqualTo(pour.grams.minus(tolerance)),
    };
  });
  const additives = plan.pours
    .filter((pour) => pour.side === 'additive')
    .map((pour, index) => {
      const asked = formula.additives?.[index];
      const follows =
        asked && 'percent' in asked ? { of: asked.of, percent: asked.percent } : undefined;
      return {
        product: product(pour.productId),
        planned_g: pour.grams,
        poured_g: pouredOf(pour.productId),
        ...(follows ? { follows } : {}),
      };
    });
  const others = [...new Set(pours.map((pour) => pour.productId))].filter((id) => !inPlan.has(id));
  const unplanned = others.map((id) => ({ product: product(id), grams: pouredOf(id) }));
  return { planned_g, basis: formula.basis ?? 'weight', lines, additives, unplanned };
}

/** True for colours that are measured out as shades: toner, permanent, direct. */
export function isShade(product: Pick<MixProduct, 'kind'>): boolean {
  return product.kind === 'toner' || product.kind === 'permanent' || product.kind === 'direct';
}

const shareOfTarget = { shade: one.times('0.05'), other: one.times('0.02') };

/**
 * How far a pour may lie from its target, in g: the larger of two intervals of the scale and 2 %
 * of the target, for shades 5 %. 30 g of powder on a scale of 1 g -> 2 g.
 */
export function toleranceOf(
  target_g: Decimal,
  product: Pick<MixProduct, 'kind'>,
  interval: Decimal = zero,
): Decimal {
  const share = target_g.times(isShade(product) ? shareOfTarget.shade : shareOfTarget.other);
  const steps = interval.times(2);
  return steps.greaterThan(share) ? steps : share;
}

/** Where a pour stands against its target; the difference is poured - target, in g. */
export interface PourStanding {
  readonly state: 'to go' | 'in the notch' | 'over';
  readonly difference_g: Decimal;
}

/** "18 g to go", "in the notch", "3 g over": a pour against its target and its tolerance. */
export function standing(
  poured_g: Decimal,
  target_g: Decimal,
  product: Pick<MixProduct, 'kind'>,
  interval?: Decimal,
): PourStanding {
  const difference_g = poured_g.minus(target_g);
  const within = toleranceOf(target_g, product, interval);
  const inNotch = difference_g.abs().lessThanOrEqualTo(within);
  const state = inNotch ? 'in the notch' : difference_g.lessThan(0) ? 'to go' : 'over';
  return { state, difference_g };
}

/** What the bowl makes with so much more of each line: sides, ratio in words, strength. */
export interface Outcome {
  /** g in the bowl, additives and unplanned products included */
  readonly contents_g: Decimal;
  /** g on both sides as planned products */
  readonly sides_g: Decimal;
  /** "1 : 2.33"; g to g, or g to ml for a ratio by volume */
  readonly ratio?: string;
  /** Of the developer side, water and unplanned developer included */
  readonly strength?: Strength;
}

/**
 * Reckons what a bowl will be with `more` grams of each line (in their order) and of additives.
 * @throws Problem `density_out_of_range`, `strength_out_of_range`
 */
export function outcomeOf(
  bowl: BowlUnderway,
  more: readonly Decimal[],
  moreAdditives: readonly Decimal[],
): Outcome {
  const inBowl = bowl.lines.map(({ product, poured_g }, index) => ({
    product,
    grams: poured_g.plus(more[index] ?? zero),
  }));
  const everything = [...inBowl, ...bowl.unplanned].filter((part) => part.grams.greaterThan(0));
  const wet = everything.filter(isWet);
  const dry = everything.filter(
    ({ product }) => product.kind === 'lightener' || isShade(product) || isPlanned(product, bowl),
  );
  const powder = sum(dry.map((part) => part.grams));
  const developer = sum(
    wet.map(({ product, grams }) =>
      bowl.basis === 'volume' ? grams.dividedBy(densityOf(product).density) : grams,
    ),
  );
  const strength = developerStrengthOf(everything);
  const ratio = ratioInWords(powder, developer);
  const additives = sum(bowl.additives.map((each) => each.poured_g)).plus(sum(moreAdditives));
  return {
    contents_g: sum(everything.map((part) => part.grams)).plus(additives),
    sides_g: sum(inBowl.map((part) => part.grams)),
    ...(ratio === undefined ? {} : { ratio }),
    ...(strength ? { strength } : {}),
  };
}

function isPlanned(product: MixProduct, bowl: BowlUnderway): boolean {
  return bowl.lines.some((line) => line.side === 'powder' && line.product.id === product.id);
}

/** Shades of the powder side as they will be, "7 : 10 : 15", in g to 0.1, half-even. */
export function shadesInWords(grams: readonly Decimal[]): string {
  return grams.map((each) => round(each, 1, 'half_even').toFixed()).join(' : ');
}

/**
 * All that will be in a bowl once `toPour` is poured (nothing more, where it is left out): what
 * the cautions of an offer are asked about.
 */
export function partsAfter(
  bowl: BowlUnderway,
  toPour: readonly WeighedPour[] = [],
): readonly BowlPart[] {
  const more = new Map(toPour.map((each) => [each.productId, each.grams]));
  const planned = [...bowl.lines, ...bowl.additives].map(({ product, poured_g }) => ({
    product,
    grams: poured_g.plus(more.get(product.id) ?? zero),
  }));
  return [...planned, ...bowl.unplanned].filter((part) => part.grams.greaterThan(0));
}

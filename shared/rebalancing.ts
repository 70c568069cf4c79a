/** What to pour next after what was really poured, and the offers after too much or too little. */
import { shareOut } from './allocation.js';
import { canonical, count, decimal, larger, round, sum, zero, type Decimal } from './decimal.js';
import { nameOf } from './mix.js';
import { Problem } from './problems/problem.js';
import type { Strength } from './strength.js';
import {
  isShade,
  outcomeOf,
  shadesInWords,
  standing,
  type BowlUnderway,
  type SideLine,
} from './underway.js';
import { stockPlaces } from './units.js';

export type OfferKind = 'restore' | 'keep_the_size' | 'leave_it' | 'thats_all';

/** Grams still to pour of a product; none is ever below zero. */
export interface ToPour {
  readonly productId: string;
  readonly grams: Decimal;
}

export interface Offer {
  readonly kind: OfferKind;
  /** Sides first, then additives, in the order of the plan; what needs nothing more is 0 */
  readonly toPour: readonly ToPour[];
  /** g in the bowl afterwards, additives and unplanned products included */
  readonly contents_g: Decimal;
  /** g on both sides afterwards */
  readonly sides_g: Decimal;
  readonly ratio?: string;
  readonly strength?: Strength;
  /** "7 : 10 : 15", where the proportions of shades stay as poured */
  readonly shades?: string;
  /** What it does, in a sentence */
  readonly text: string;
}

/** Restore comes first up to this many times the planned size. */
export const restoreFirstUpTo = decimal('1.15');

/**
 * Restore: every share comes back. T = max(P, max p_i / f_i); to pour f_i T - p_i, never below
 * zero; rounded to 0.001 g by largest remainder. 36 g of powder in a bowl of 30 + 60: 12 g more
 * developer than planned. Undefined where a product that has run out would be needed.
 */
export function restore(bowl: BowlUnderway): Offer | undefined {
  const target_g = restoredTotal(bowl);
  const more = toReach(bowl, target_g);
  if (bowl.lines.some((line, index) => line.ranOut && more[index]?.greaterThan(0))) {
    return undefined;
  }
  const offer = offered('restore', bowl, more);
  const grows = target_g.greaterThan(bowl.planned_g);
  const size = `${canonical(round(offer.sides_g, 1, 'half_even'))} g`;
  const text = grows ? `Grow to ${size}: ratio and strength as planned.` : `Carry on to ${size}.`;
  return { ...offer, text };
}

/**
 * Keep the size: R = max(0, P - sum p) is shared in proportion to max(0, f_i P - p_i); the offer
 * says which ratio and strength result. What has run out takes no share.
 */
export function keepTheSize(bowl: BowlUnderway): Offer {
  const rest = bowl.planned_g.minus(sum(bowl.lines.map((line) => line.poured_g)));
  const wanted = bowl.lines.map((line) =>
    line.ranOut ? zero : larger(zero, line.target_g.minus(line.poured_g)),
  );
  const offer = offered('keep_the_size', bowl, shared(larger(zero, rest), wanted));
  const size = canonical(round(offer.sides_g, 1, 'half_even'));
  return { ...offer, text: `Keep ${size} g: ${resultInWords(offer, bowl)}.` };
}

/**
 * Leave it, for shades: their proportions stay as poured, shades still to come keep their planned
 * grams, and the developer follows the weight of the shades, so that ratio and strength hold.
 */
export function leaveIt(bowl: BowlUnderway): Offer {
  const powders = bowl.lines.filter((line) => line.side === 'powder');
  const finalOf = (line: SideLine): Decimal =>
    line.finished ? line.poured_g : larger(line.poured_g, line.target_g);
  const powder_g = sum(powders.map(finalOf));
  const powderTarget = sum(powders.map((line) => line.target_g));
  const wanted = bowl.lines.map((line) => {
    if (line.side === 'powder') return finalOf(line).minus(line.poured_g);
    const follows = powder_g.times(line.target_g).dividedBy(powderTarget);
    return line.ranOut ? zero : larger(zero, follows.minus(line.poured_g));
  });
  const offer = offered('leave_it', bowl, shared(sum(wanted), wanted));
  const shades = shadesInWords(powders.map(finalOf));
  return { ...offer, shades, text: `Leave it: shades ${shades}; the developer follows.` };
}

/**
 * That's all: a pour ends short, and the bowl shrinks to it: T = p_i / f_i, not below what the
 * others already need; where they need more, the offer says what results. 25 g of 30 g powder
 * before any developer: 50 g of developer instead of 60.
 * @throws Problem `not_in_the_plan` for a product that is on no side
 */
export function thatsAll(bowl: BowlUnderway, productId: string): Offer {
  const short = bowl.lines.find((line) => line.product.id === productId);
  if (!short) throw new Problem('not_in_the_plan', { id: productId });
  const others = bowl.lines.filter((line) => line !== short);
  const own_g = neededTotal(short, bowl);
  const target_g = mostNeeded(others, bowl, own_g);
  const wanted = bowl.lines.map((line) =>
    line === short || line.ranOut
      ? zero
      : larger(zero, targetAt(line, target_g, bowl).minus(line.poured_g)),
  );
  const offer = offered('thats_all', bowl, shared(sum(wanted), wanted));
  const size = canonical(round(offer.sides_g, 1, 'half_even'));
  const end = `That's all of ${nameOf(short.product)}: ${size} g`;
  const holds = target_g.equals(own_g);
  return {
    ...offer,
    text: holds
      ? `${end}, ratio and strength as planned.`
      : `${end}, ${resultInWords(offer, bowl)}.`,
  };
}

/**
 * What to pour next while nothing is over: later targets follow what was really poured. With the
 * finished lines F, T = sum of their pours / sum of their shares, not below what the others
 * already need; to pour f_j T - p_j of each line not finished. 29.4 g of 30 g powder at 1:2 ->
 * 58.8 g of developer.
 */
export function nextTargets(bowl: BowlUnderway): readonly ToPour[] {
  const done = bowl.lines.filter((line) => line.finished);
  const doneTarget_g = sum(done.map((line) => line.target_g));
  const follow_g = doneTarget_g.isZero()
    ? bowl.planned_g
    : sum(done.map((line) => line.poured_g))
        .times(bowl.planned_g)
        .dividedBy(doneTarget_g);
  const open = bowl.lines.filter((line) => !line.finished);
  const target_g = mostNeeded(open, bowl, follow_g);
  const wanted = bowl.lines.map((line) =>
    line.finished ? zero : larger(zero, targetAt(line, target_g, bowl).minus(line.poured_g)),
  );
  return pourList(bowl, shared(sum(wanted), wanted));
}

/** What the bench is told after a pour. */
export interface AfterPour {
  readonly toPour: readonly ToPour[];
  /** Empty while nothing is over its notch */
  readonly offers: readonly Offer[];
}

/**
 * After a pour: what to pour next, and, where a line is over its tolerance, the offers. First is
 * Restore up to 1.15 times the planned size, above it Keep the size; for shades Leave it, then
 * Keep the size, then Restore. A Restore above `largest_g` (the vessel) is not offered.
 * `toPour` follows the first offer.
 */
export function afterPour(
  bowl: BowlUnderway,
  { interval, largest_g }: { interval?: Decimal; largest_g?: Decimal } = {},
): AfterPour {
  const over = bowl.lines.filter((line) => {
    const { state } = standing(line.poured_g, line.target_g, line.product, interval);
    return state === 'over';
  });
  if (over.length === 0) return { toPour: nextTargets(bowl), offers: [] };
  const restored = restore(bowl);
  const fits = restored && !(largest_g && restored.contents_g.greaterThan(largest_g));
  const growing = fits ? [restored] : [];
  const keeping = keepTheSize(bowl);
  const small = restoredTotal(bowl).lessThanOrEqualTo(bowl.planned_g.times(restoreFirstUpTo));
  const severalShades = bowl.lines.filter((line) => isShade(line.product)).length > 1;
  const offers =
    severalShades && over.some((line) => isShade(line.product))
      ? [leaveIt(bowl), keeping, ...growing]
      : small
        ? [...growing, keeping]
        : [keeping, ...growing];
  return { toPour: offers[0]?.toPour ?? [], offers };
}

/** The whole that a line's pour would be its share of: p_i / f_i, with f_i = target / P. */
function neededTotal(line: SideLine, bowl: BowlUnderway): Decimal {
  if (line.target_g.isZero()) return zero;
  return line.poured_g.times(bowl.planned_g).dividedBy(line.target_g);
}

/** A line's target in a bowl of `total_g`: f_i T. */
function targetAt(line: SideLine, total_g: Decimal, bowl: BowlUnderway): Decimal {
  return line.target_g.times(total_g).dividedBy(bowl.planned_g);
}

/** The largest whole that any of these lines needs, at least `least_g`. */
function mostNeeded(lines: readonly SideLine[], bowl: BowlUnderway, least_g: Decimal): Decimal {
  return lines.map((line) => neededTotal(line, bowl)).reduce(larger, least_g);
}

function restoredTotal(bowl: BowlUnderway): Decimal {
  return mostNeeded(bowl.lines, bowl, bowl.planned_g);
}

function toReach(bowl: BowlUnderway, total_g: Decimal): Decimal[] {
  const wanted = bowl.lines.map((line) =>
    larger(zero, targetAt(line, total_g, bowl).minus(line.poured_g)),
  );
  return shared(sum(wanted), wanted);
}

/** Shares what is to pour, to 0.001 g; nothing to share is nothing for all. */
function shared(rest_g: Decimal, wanted: readonly Decimal[]): Decimal[] {
  const whole = round(rest_g, stockPlaces, 'half_even');
  if (whole.isZero() || sum(wanted).isZero()) return wanted.map(() => zero);
  return shareOut(whole, wanted, stockPlaces);
}

function offered(
  kind: OfferKind,
  bowl: BowlUnderway,
  more: readonly Decimal[],
): Omit<Offer, 'text'> {
  const outcome = outcomeOf(bowl, more, additivesToPour(bowl, more));
  return { kind, toPour: pourList(bowl, more), ...outcome };
}

function pourList(bowl: BowlUnderway, more: readonly Decimal[]): ToPour[] {
  const additives = additivesToPour(bowl, more);
  return [
    ...bowl.lines.map((line, index) => ({
      productId: line.product.id,
      grams: more[index] ?? zero,
    })),
    ...bowl.additives.map((each, index) => ({
      productId: each.product.id,
      grams: additives[index] ?? zero,
    })),
  ];
}

/** Per-cent additives follow their side as it will be; the others keep their planned grams. */
function additivesToPour(bowl: BowlUnderway, more: readonly Decimal[]): Decimal[] {
  const sideOf = (side: SideLine['side']): Decimal =>
    sum(
      bowl.lines.map((line, index) =>
        line.side === side ? line.poured_g.plus(more[index] ?? zero) : zero,
      ),
    );
  const powder = sideOf('powder');
  const developer = sideOf('developer');
  const sides = { powder, developer, total: powder.plus(developer) };
  return bowl.additives.map(({ planned_g, follows, poured_g }) => {
    const target_g = follows
      ? sides[follows.of].times(follows.percent).dividedBy(count(100))
      : planned_g;
    return larger(zero, round(target_g.minus(poured_g), stockPlaces, 'half_even'));
  });
}

/** "1 : 2.3 instead of 1 : 2, 13 vol" */
function resultInWords(offer: Omit<Offer, 'text'>, bowl: BowlUnderway): string {
  const planned = outcomeOf(
    { ...bowl, unplanned: [] },
    bowl.lines.map((line) => line.target_g.minus(line.poured_g)),
    [],
  );
  const ratio =
    offer.ratio === undefined || offer.ratio === planned.ratio
      ? 'ratio as planned'
      : `${offer.ratio} instead of ${planned.ratio ?? 'none'}`;
  if (!offer.strength) return ratio;
  return `${ratio}, developer ${canonical(round(offer.strength.volume, 1, 'half_even'))} vol`;
}

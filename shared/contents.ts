/** What a bowl holds, and how it splits: on the head or in the bin, staying or handed on. */
import { shareOut } from './allocation.js';
import { canonical, one, round, sum, zero, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';
import { developerPerPowder, ratioText, type Ratio } from './ratio.js';
import { stockPlaces } from './units.js';

/** Part of a lot in the bowl, in the product's stock unit, and its value. */
export interface ContentLot {
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** What is in the bowl of one pour now: all of it, or what an earlier weighing left. */
export interface ContentLine {
  readonly pourId: string;
  readonly productId: string;
  readonly grams: Decimal;
  /** In the product's stock unit; what its lots add up to */
  readonly quantity: Decimal;
  readonly lots: readonly ContentLot[];
}

export interface Portion {
  readonly quantity: Decimal;
  readonly value: Decimal;
}

export interface SplitLot {
  readonly lotId: string;
  readonly applied: Portion;
  readonly wasted: Portion;
}

export interface SplitLine {
  readonly pourId: string;
  readonly productId: string;
  readonly applied: Portion & { readonly grams: Decimal };
  readonly wasted: Portion & { readonly grams: Decimal };
  readonly lots: readonly SplitLot[];
}

/**
 * Contents split in two: `wasted` is what was left in the bowl, `applied` the rest. At an interim
 * weighing the wasted part is what stays; at a division it is what is handed on.
 */
export interface ContentSplit {
  readonly contents_g: Decimal;
  readonly applied_g: Decimal;
  readonly wasted_g: Decimal;
  /** wasted over contents, 0 to 1, unrounded */
  readonly share: Decimal;
  readonly lines: readonly SplitLine[];
}

/** Ledger values have six decimals. */
const valuePlaces = 6;

const likelyCauses: readonly string[] = [
  'the brush is in the bowl',
  'another vessel than the one that was tared',
  'a pour was not recorded',
];

/**
 * How far a leftover may lie above the contents, in g: one interval of the scale, two where the
 * tare was a stored one, 1 g where the interval is unknown.
 */
export function leftoverTolerance(interval?: Decimal, tareWasStored = false): Decimal {
  if (!interval) return one;
  return tareWasStored ? interval.times(2) : interval;
}

/** True where a leftover above half of the contents makes one ask: is the brush in it? */
export function asksAboutBrush(leftover_g: Decimal, contents_g: Decimal): boolean {
  return leftover_g.times(2).greaterThan(contents_g);
}

/** Grams of all that a bowl holds. */
export function contentsGrams(contents: readonly ContentLine[]): Decimal {
  return sum(contents.map((line) => line.grams));
}

/**
 * Splits a bowl's present contents by what is left of them. Share s = leftover / contents. Per
 * pour: wasted = s x quantity in its stock unit, half-even to 0.001, applied the rest; its lots
 * share the wasted quantity by largest remainder; value wasted = value x wasted / quantity at six
 * decimals, half-even, applied the rest. Grams of the pours add up to the weighed leftover by
 * largest remainder. 9 g left of 15 g toner and 30 g developer -> 3 g and 6 g.
 * @param leftover_g net g weighed; up to `tolerance_g` above the contents it counts as all of them
 * @throws Problem `quantity_negative`, `contents_unknown` (an empty bowl with a leftover),
 *   `leftover_exceeds_contents` with both figures and the likely causes
 */
export function splitLeftover(
  contents: readonly ContentLine[],
  leftover_g: Decimal,
  tolerance_g: Decimal = leftoverTolerance(),
): ContentSplit {
  const contents_g = contentsGrams(contents);
  if (leftover_g.lessThan(0)) {
    const facts = { what: 'What is left', quantity: `${canonical(leftover_g)} g` };
    throw new Problem('quantity_negative', facts);
  }
  if (contents.length === 0 && leftover_g.greaterThan(0)) throw new Problem('contents_unknown', {});
  if (leftover_g.greaterThan(contents_g.plus(tolerance_g))) {
    throw new Problem('leftover_exceeds_contents', {
      leftover: canonical(leftover_g),
      contents: canonical(contents_g),
      causes: likelyCauses,
    });
  }
  const wasted_g = leftover_g.greaterThan(contents_g) ? contents_g : leftover_g;
  const lineGrams = sharedGrams(contents, wasted_g);
  return {
    contents_g,
    wasted_g,
    applied_g: contents_g.minus(wasted_g),
    share: contents_g.isZero() ? zero : wasted_g.dividedBy(contents_g),
    lines: contents.map((line, index) =>
      splitLine(line, lineGrams[index] ?? zero, wasted_g, contents_g),
    ),
  };
}

/**
 * Splits contents that were not weighed by a share left over, 0 to 1: "rinsed, about 10 %". The
 * caller marks the bowl estimated.
 * @throws Problem `percent_out_of_range` for a share below 0 or above 1
 */
export function splitEstimated(contents: readonly ContentLine[], share: Decimal): ContentSplit {
  if (share.lessThan(0) || share.greaterThan(1)) {
    const percent = canonical(share.times(100));
    throw new Problem('percent_out_of_range', { what: 'The share left over', percent });
  }
  const left = round(contentsGrams(contents).times(share), stockPlaces, 'half_even');
  return splitLeftover(contents, left, one);
}

/** What is still in the bowl after an interim weighing: the part that was left of every pour. */
export function stillInBowl(split: ContentSplit): ContentLine[] {
  return linesOf(split, 'wasted');
}

/**
 * Divides a bowl: `handedOn_g` go into another bowl, every pour and lot in the bowl's proportion.
 * @throws Problem as `splitLeftover`, and `quantity_not_positive` where nothing is handed on
 */
export function divideContents(
  contents: readonly ContentLine[],
  handedOn_g: Decimal,
  tolerance_g: Decimal = leftoverTolerance(),
): { stays: ContentLine[]; handedOn: ContentLine[]; split: ContentSplit } {
  if (!handedOn_g.greaterThan(0)) {
    const facts = { what: 'What is handed on', quantity: `${canonical(handedOn_g)} g` };
    throw new Problem('quantity_not_positive', facts);
  }
  const split = splitLeftover(contents, handedOn_g, tolerance_g);
  return { stays: linesOf(split, 'applied'), handedOn: linesOf(split, 'wasted'), split };
}

/** The two sides of a bowl as it is now, both in g, or developer in ml for a ratio by volume. */
export interface Sides {
  readonly powder: Decimal;
  readonly developer: Decimal;
}

/**
 * Thinning: the developer to add so that the sides come to `ratio`, unrounded, in the unit of the
 * developer side. 15 g and 15 g to 1:2 -> 15 g.
 * @throws Problem `nothing_to_add` where there is too much developer already
 */
export function developerToThin(sides: Sides, ratio: Ratio): Decimal {
  const wanted = sides.powder.times(developerPerPowder(ratio));
  if (wanted.lessThan(sides.developer)) {
    const now = `${canonical(sides.powder)} to ${canonical(sides.developer)}`;
    throw new Problem('nothing_to_add', { now, wanted: ratioText(ratio) });
  }
  return wanted.minus(sides.developer);
}

/**
 * A bit more of the same: `more_g` shared over what the bowl holds now, in its own proportions,
 * to 0.001 g by largest remainder; one figure a line of the contents.
 * @throws Problem `contents_unknown`, `quantity_not_positive`
 */
export function moreOfTheSame(contents: readonly ContentLine[], more_g: Decimal): Decimal[] {
  if (contentsGrams(contents).isZero()) throw new Problem('contents_unknown', {});
  if (!more_g.greaterThan(0)) {
    const facts = { what: 'What is added', quantity: `${canonical(more_g)} g` };
    throw new Problem('quantity_not_positive', facts);
  }
  const weights = contents.map((line) => line.grams);
  return shareOut(round(more_g, stockPlaces, 'half_even'), weights, stockPlaces);
}

/** Finer than 0.001 g only where a line is, so that no line gives more than it holds. */
function sharedGrams(contents: readonly ContentLine[], wasted_g: Decimal): Decimal[] {
  const weights = contents.map((line) => line.grams);
  if (wasted_g.isZero()) return weights.map(() => zero);
  const places = Math.max(
    stockPlaces,
    ...[wasted_g, ...weights].map((each) => each.decimalPlaces()),
  );
  return shareOut(wasted_g, weights, places);
}

function splitLine(
  line: ContentLine,
  wastedGrams: Decimal,
  wasted_g: Decimal,
  contents_g: Decimal,
): SplitLine {
  const { pourId, productId, quantity } = line;
  const wasted = wasted_g.isZero() ? zero : partOf(quantity, wasted_g, contents_g, stockPlaces);
  const quantities = line.lots.map((lot) => lot.quantity);
  const shares =
    sum(quantities).isZero() || wasted.isZero()
      ? quantities.map(() => zero)
      : shareOut(wasted, quantities, stockPlaces);
  const lots = line.lots.map((lot, index) => splitLot(lot, shares[index] ?? zero));
  return {
    pourId,
    productId,
    lots,
    applied: {
      grams: line.grams.minus(wastedGrams),
      quantity: quantity.minus(wasted),
      value: sum(lots.map((lot) => lot.applied.value)),
    },
    wasted: {
      grams: wastedGrams,
      quantity: wasted,
      value: sum(lots.map((lot) => lot.wasted.value)),
    },
  };
}

/** amount x part / whole, half-even to `places`; all of it where the part is the whole. */
function partOf(amount: Decimal, part: Decimal, whole: Decimal, places: number): Decimal {
  if (part.equals(whole)) return amount;
  return round(amount.times(part).dividedBy(whole), places, 'half_even');
}

function splitLot(lot: ContentLot, wasted: Decimal): SplitLot {
  const { lotId, quantity, value } = lot;
  const wastedValue = wasted.isZero() ? zero : partOf(value, wasted, quantity, valuePlaces);
  return {
    lotId,
    applied: { quantity: quantity.minus(wasted), value: value.minus(wastedValue) },
    wasted: { quantity: wasted, value: wastedValue },
  };
}

function linesOf(split: ContentSplit, part: 'applied' | 'wasted'): ContentLine[] {
  return split.lines
    .map(({ pourId, productId, lots, ...line }) => ({
      pourId,
      productId,
      grams: line[part].grams,
      quantity: line[part].quantity,
      lots: lots
        .map((lot) => ({ lotId: lot.lotId, ...lot[part] }))
        .filter((lot) => lot.quantity.greaterThan(0)),
    }))
    .filter((line) => line.quantity.greaterThan(0) || line.grams.greaterThan(0));
}

/** Says on which side of its bowl a product stands. */
export type SideOfProduct = (productId: string) => 'powder' | 'developer' | 'other';

/** The sides of a bowl's present contents, both in g; what is on neither side is left out. */
export function sidesOf(contents: readonly ContentLine[], side: SideOfProduct): Sides {
  const of = (wanted: 'powder' | 'developer'): Decimal =>
    sum(contents.filter((line) => side(line.productId) === wanted).map((line) => line.grams));
  return { powder: of('powder'), developer: of('developer') };
}

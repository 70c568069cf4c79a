/** What a sheet asks for next: the lines of its page, what is due, offers, strength, cautions. */
import { cautionsOfMix } from '../../../shared/cautioning.js';
import type { Caution } from '../../../shared/cautions.js';
import type { VesselView } from '../../../shared/contract/catalogue.js';
import { decimal, larger, sum, zero, type Decimal } from '../../../shared/decimal.js';
import type { MixProduct, MixRequest, PlannedPour, Side } from '../../../shared/mix.js';
import { afterPour, type Offer, type ToPour } from '../../../shared/rebalancing.js';
import type { Strength } from '../../../shared/strength.js';
import { developerStrengthOf } from '../../../shared/bowl-strength.js';
import { bowlUnderway, standing, toleranceOf } from '../../../shared/underway.js';
import type { PourWanted } from '../../../shared/weighing/happenings.js';
import { mixRequestOf } from './mix-json.js';
import { contentsByProduct, type Sheet, type SheetPour } from './sheet.js';

/** One line of the account book. */
export interface PageLine {
  readonly product: MixProduct;
  readonly side: Side | 'unplanned';
  /** Null for a product without a target. */
  readonly due: Decimal | null;
  readonly poured: Decimal;
  readonly toPour: Decimal;
  readonly state: 'to go' | 'in the notch' | 'over';
  readonly pours: readonly SheetPour[];
}

/** What is to be poured now. */
export interface Due {
  readonly product: MixProduct;
  /** Null: as much as the person says. */
  readonly grams: Decimal | null;
  readonly band: Decimal;
}

export interface Next {
  readonly lines: readonly PageLine[];
  readonly due: Due | null;
  readonly offers: readonly Offer[];
  readonly taken: Offer | null;
  readonly strength: Strength | undefined;
  readonly cautions: readonly Caution[];
}

/** What the reckoning needs besides the sheet. */
export interface Known {
  readonly products: ReadonlyMap<string, MixProduct>;
  readonly interval: Decimal;
  readonly country: string | undefined;
  /** The line that the person tapped to pour it now. */
  readonly wanted?: string | undefined;
}

/** What a bowl in the hand knows: the catalogue, and the studio's vessels. */
export interface KnownHere extends Omit<Known, 'interval' | 'wanted'> {
  readonly vessels: readonly VesselView[];
}

/** A product nobody knows any more still has a line. */
export function productIn(products: Known['products'], id: string): MixProduct {
  return products.get(id) ?? { id, unit: 'g', kind: 'additive' };
}

/** Works out the page from the sheet. The same sheet always gives the same page. */
export function whatNext(sheet: Sheet, known: Known): Next {
  const { products, interval } = known;
  const product = (id: string) => productIn(products, id);
  const since = sheet.pours.slice(sheet.planFrom);
  const planned = sheet.planned.map(plannedPour);
  const ids = [...planned, ...since].map((each) => each.productId);
  const asked: Partial<MixRequest> = sheet.request ? mixRequestOf(sheet.request) : {};
  const underway = bowlUnderway(
    { pours: planned },
    { basis: asked.basis, additives: asked.additives },
    [...new Set(ids)].map(product),
    since.map(({ productId, grams }) => ({ productId, grams: decimal(grams) })),
    { interval, finished: sheet.finished },
  );
  const { toPour, offers } =
    underway.lines.length === 0 ? { toPour: [], offers: [] } : afterPour(underway, { interval });
  const taken = offers.find((offer) => offer.kind === sheet.choice) ?? offers[0] ?? null;
  const lines = linesOf(sheet, taken?.toPour ?? toPour, since, known);
  const parts = [...contentsByProduct(sheet)].map(([id, grams]) => ({
    product: product(id),
    grams,
  }));
  const mix = { parts, ...(sheet.contact ? { contact: sheet.contact } : {}) };
  return {
    lines,
    due: dueOf(sheet, lines, known),
    offers,
    taken,
    strength: developerStrengthOf(parts),
    cautions: cautionsOfMix(mix, { interval, country: known.country }),
  };
}

/** A planned pour as the arithmetic reads it. */
export function plannedPour(view: Sheet['planned'][number]): PlannedPour {
  const { millilitres, ...pour } = view;
  return {
    ...pour,
    quantity: decimal(pour.quantity),
    grams: decimal(pour.grams),
    counted: pour.side !== 'additive',
    ...(millilitres === undefined ? {} : { millilitres: decimal(millilitres) }),
  };
}

function linesOf(
  sheet: Sheet,
  toPour: readonly ToPour[],
  since: readonly SheetPour[],
  { products, interval }: Known,
): PageLine[] {
  const line = (id: string, side: PageLine['side'], more: Decimal | undefined): PageLine => {
    const product = productIn(products, id);
    const pours = since.filter((pour) => pour.productId === id);
    const poured = sum(pours.map((pour) => decimal(pour.grams)));
    const asked = more === undefined ? null : poured.plus(larger(zero, more));
    const open = asked !== null && standing(poured, asked, product, interval).state === 'to go';
    const before = pours.at(-1)?.due;
    const due = open || before === undefined || before === null ? asked : decimal(before);
    const state = due === null ? 'in the notch' : standing(poured, due, product, interval).state;
    return { product, side, due, poured, toPour: more ?? zero, state, pours };
  };
  const planned = sheet.planned.map(({ productId, side }) => {
    const more = toPour.find((each) => each.productId === productId)?.grams ?? zero;
    return line(productId, side, more);
  });
  const inPlan = new Set(sheet.planned.map((each) => each.productId));
  const others = new Set(since.map((pour) => pour.productId).filter((id) => !inPlan.has(id)));
  const { extra } = sheet;
  if (extra && !inPlan.has(extra.productId)) others.add(extra.productId);
  const unplanned = [...others].map((id) => {
    if (extra?.productId !== id || extra.grams === null) return line(id, 'unplanned', undefined);
    const poured = sum(since.filter((p) => p.productId === id).map((p) => decimal(p.grams)));
    return line(id, 'unplanned', larger(zero, decimal(extra.grams).minus(poured)));
  });
  return [...planned, ...unplanned];
}

function dueOf(sheet: Sheet, lines: readonly PageLine[], { interval, wanted }: Known): Due | null {
  const { extra } = sheet;
  const dueFor = (line: PageLine, grams: Decimal | null): Due => ({
    product: line.product,
    grams,
    band:
      grams === null ? interval.times(2) : toleranceOf(line.due ?? zero, line.product, interval),
  });
  const extraLine = lines.find((line) => line.product.id === extra?.productId);
  if (extra?.grams === null && extraLine) return dueFor(extraLine, null);
  const open = lines.filter(
    (line) => line.state === 'to go' && !sheet.finished.includes(line.product.id),
  );
  const next = open.find((line) => line.product.id === wanted) ?? open[0];
  return next ? dueFor(next, next.toPour) : null;
}

/** True where powder and developer meet with this product: the mix's age begins. */
export function startsClock(
  sheet: Sheet,
  product: MixProduct,
  products: Known['products'],
): boolean {
  const isWet = ({ kind }: MixProduct) => kind === 'developer';
  const inside = [...contentsByProduct(sheet).keys()].map((id) => productIn(products, id));
  return inside.some((each) => isWet(each) !== isWet(product));
}

/** More than any bowl: a pour that only the person ends. */
const withoutEnd = decimal('5000');

/** The due pour as the scale is asked for it. */
export function pourWanted(
  id: string,
  due: Due,
  sheet: Sheet,
  products: Known['products'],
): PourWanted {
  return {
    ...{ id, targetGrams: due.grams ?? withoutEnd, bandGrams: due.band },
    startsClock: startsClock(sheet, due.product, products),
  };
}

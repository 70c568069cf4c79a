/** The cautions of a bowl in the hand: of what is in it, of its visit, and which one interrupts. */
import { byGravity, cautionSources, type Caution } from '../../../shared/cautions.js';
import { cautionsForBowl } from '../../../shared/visit-cautions.js';
import { useProducts } from '../catalogue/catalogue.js';
import { notedInVisit, useAskedVisit } from '../visits/answers.js';
import { contentsByProduct, type Sheet } from './sheet.js';
import { productIn, type Known, type Next } from './next.js';

type Said = Pick<Caution, 'code' | 'text' | 'manner'>;

export interface BowlCautions {
  /** All, the gravest first. */
  readonly all: readonly Said[];
  /** The one that interrupts now; a bowl interrupts once, and one of a visit once a visit. */
  readonly worst: Said | undefined;
}

const interrupting: ReadonlySet<string> = new Set(
  cautionSources()
    .filter(({ manner }) => manner === 'interrupts')
    .map(({ code }) => code),
);

/** True for a caution that stops the person, by its code. */
export function interrupts(code: string): boolean {
  return interrupting.has(code);
}

/** The line of the hair colour that is in the bowl or planned for it; undefined without colour. */
export function colourOf(
  sheet: Sheet,
  products: Known['products'],
): { readonly line: string | undefined } | undefined {
  const ids = [
    ...sheet.planned.map(({ productId }) => productId),
    ...contentsByProduct(sheet).keys(),
  ];
  const colour = ids
    .map((id) => productIn(products, id))
    .find(({ kind }) => kind === 'toner' || kind === 'permanent');
  return colour && { line: colour.line };
}

/** Cautions as they stand now; asked again with every change of the sheet. */
export function useBowlCautions(sheet: Sheet, next: Next): BowlCautions {
  const colour = colourOf(sheet, useProducts().byId);
  const visit = useAskedVisit(sheet.visitId, colour?.line);
  const ofVisit =
    sheet.visitId === null ? [] : cautionsForBowl(visit.cautions, colour !== undefined);
  const all = byGravity([...(ofVisit as Caution[]), ...next.cautions]);
  const before = new Set(sheet.visitId === null ? [] : notedInVisit(sheet.visitId));
  const fresh = all.filter(({ code }) => interrupts(code) && !before.has(code));
  return { all, worst: sheet.noted.some(interrupts) ? undefined : fresh[0] };
}

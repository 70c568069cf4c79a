/** A bowl while it is being planned: what was chosen so far, and what it comes to. */
import { uuidv7 } from 'uuidv7';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import type { Contact, MixPlan, MixProduct } from '../../../shared/mix.js';
import { planMix } from '../../../shared/mixing.js';
import { Problem } from '../../../shared/problems/problem.js';
import { mixRequestOf, plannedViews, strengthView, type MixJson } from './mix-json.js';
import type { Sheet } from './sheet.js';

/** A product of the powder side and its parts. */
export interface DraftPart {
  readonly productId: string;
  readonly parts: string;
}

export interface Draft {
  readonly purpose: string;
  readonly visitId: string | null;
  readonly vesselId: string | null;
  readonly mark: string | null;
  readonly contact: Contact | null;
  readonly ratio: string | null;
  readonly powders: readonly DraftPart[];
  /** Products beside the ratio, in per cent of the whole. */
  readonly additives: readonly DraftPart[];
  readonly strength: Decimal;
  readonly grams: Decimal;
}

/** What a new bowl begins with. */
export const freshDraft: Draft = {
  purpose: '',
  visitId: null,
  vesselId: null,
  mark: null,
  contact: null,
  ratio: '1:2',
  powders: [],
  additives: [],
  strength: decimal('20'),
  grams: decimal('60'),
};

/** The draft as a mix-plans request. */
export function mixOf(draft: Draft, developers: readonly string[]): MixJson {
  const wet =
    draft.ratio === null
      ? {}
      : { ratio: draft.ratio, strength: canonical(draft.strength), developers };
  return {
    ...wet,
    powders: draft.powders.map(({ productId, parts }) => ({ productId, share: parts })),
    ...(draft.additives.length === 0
      ? {}
      : {
          additives: draft.additives.map(({ productId, parts }) => ({
            productId,
            of: 'total' as const,
            percent: parts,
          })),
        }),
    size: { total: { quantity: canonical(draft.grams), unit: 'g' } },
    ...(draft.contact === null ? {} : { contact: draft.contact }),
  };
}

/** The plan, or why there is none yet, in a sentence. */
export function planOf(
  mix: MixJson,
  products: ReadonlyMap<string, MixProduct>,
  country: string | undefined,
): MixPlan | string {
  try {
    const circumstances = country === undefined ? {} : { country };
    return planMix(mixRequestOf(mix), [...products.values()], [], circumstances);
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}

/** A saved formula as a draft; what this page cannot show of it stays as it was before. */
export function draftOf(formula: FormulaView, before: Draft): Draft {
  const plan = (formula.poured ?? formula.plan) as unknown as MixJson;
  const part = (each: { productId: string; share?: string }): DraftPart => ({
    productId: each.productId,
    parts: each.share ?? '1',
  });
  const total = plan.size.total?.unit === 'g' ? decimal(plan.size.total.quantity) : before.grams;
  return {
    ...before,
    purpose: formula.purpose ?? before.purpose,
    ratio: plan.ratio ?? null,
    powders: plan.powders.map(part),
    additives: (plan.additives ?? []).flatMap((each) =>
      each.percent === undefined ? [] : [{ productId: each.productId, parts: each.percent }],
    ),
    strength: plan.strength === undefined ? before.strength : decimal(plan.strength),
    grams: total,
    contact: plan.contact ?? before.contact,
  };
}

/** What is said of a bowl beside its mix. */
export type BowlFacts = Pick<Draft, 'purpose' | 'visitId' | 'vesselId' | 'mark' | 'contact'>;

/** The bowl's sheet, ready to be poured. */
export function sheetFrom(draft: BowlFacts, request: MixJson, plan: MixPlan): Sheet {
  return {
    id: uuidv7(),
    visitId: draft.visitId,
    purpose: draft.purpose,
    contact: draft.contact,
    mark: draft.mark,
    vesselId: draft.vesselId,
    request,
    planned: plannedViews(plan),
    strength: strengthView(plan) ?? null,
    tareGrams: null,
    opened: false,
    pours: [],
    planFrom: 0,
    weighed: null,
    finished: [],
    choice: null,
    extra: null,
    firstContactAt: null,
    noted: [],
    settled: null,
  };
}

/** A planned bowl in another size; why it cannot be, in a sentence. */
export function resized(
  sheet: Sheet,
  grams: Decimal,
  products: ReadonlyMap<string, MixProduct>,
  country: string | undefined,
): Sheet | string {
  if (!sheet.request) return sheet;
  const size = { total: { quantity: canonical(grams), unit: 'g' as const } };
  const request = { ...sheet.request, size };
  const plan = planOf(request, products, country);
  if (typeof plan === 'string') return plan;
  return { ...sheet, request, planned: plannedViews(plan), strength: strengthView(plan) ?? null };
}

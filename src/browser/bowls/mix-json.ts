/** A request to plan a mix as it travels, and as the arithmetic reads it. */
import { amount, type StockUnit } from '../../../shared/amount.js';
import type { PlannedPourView, StrengthView } from '../../../shared/contract/bowls.js';
import type { Q } from '../../../shared/contract/quantity.js';
import { canonical, decimal, round } from '../../../shared/decimal.js';
import type { Contact, MixPlan, MixRequest, RatioBasis } from '../../../shared/mix.js';

interface Part {
  readonly productId: string;
  readonly share?: string;
}

interface AdditivePart {
  readonly productId: string;
  readonly of?: 'powder' | 'developer' | 'total';
  readonly percent?: string;
  readonly grams?: string;
  readonly dosesPer?: string;
  readonly counted?: boolean;
}

/** The body of a mix-plans call. */
export interface MixJson {
  readonly ratio?: string;
  readonly basis?: RatioBasis;
  readonly powders: readonly Part[];
  readonly strength?: string;
  readonly developers?: readonly (string | Part)[];
  readonly additives?: readonly AdditivePart[];
  readonly size: { readonly total?: Q; readonly powder?: Q; readonly developer?: Q };
  readonly contact?: Contact;
}

/** The request as shared/mixing.ts takes it. @throws Problem `not_a_decimal` */
export function mixRequestOf(json: MixJson): MixRequest {
  const part = ({ productId, share }: Part) => ({
    productId,
    ...(share === undefined ? {} : { share: decimal(share) }),
  });
  return {
    ratio: json.ratio,
    basis: json.basis,
    powders: json.powders.map(part),
    strength: json.strength === undefined ? undefined : decimal(json.strength),
    developers: json.developers?.map((each) =>
      typeof each === 'string' ? { productId: each } : part(each),
    ),
    additives: json.additives?.map(additiveOf),
    size: sizeOf(json.size),
    contact: json.contact,
  };
}

function additiveOf(part: AdditivePart): NonNullable<MixRequest['additives']>[number] {
  const base = { productId: part.productId, counted: part.counted };
  if (part.of !== undefined && part.percent !== undefined) {
    return { ...base, of: part.of, percent: decimal(part.percent) };
  }
  if (part.dosesPer !== undefined) return { ...base, dosesPer: decimal(part.dosesPer) };
  return { ...base, grams: decimal(part.grams ?? '0') };
}

function sizeOf({ total, powder, developer }: MixJson['size']): MixRequest['size'] {
  const read = ({ quantity, unit }: Q) => amount<StockUnit>(decimal(quantity), unit);
  if (total) return { total: read(total) };
  if (powder) return { powder: read(powder) };
  return { developer: read(developer ?? { quantity: '0', unit: 'g' }) };
}

/** A plan's pours as they travel; quantities half-even to 0.001. */
export function plannedViews(plan: MixPlan): PlannedPourView[] {
  return plan.pours.map(({ productId, side, quantity, unit, grams, millilitres }) => ({
    productId,
    side,
    quantity: canonical(quantity),
    unit,
    grams: canonical(grams),
    ...(millilitres ? { millilitres: canonical(millilitres) } : {}),
  }));
}

/** A strength as it travels; half-even to 0.001. */
export function strengthView({ strength }: Pick<MixPlan, 'strength'>): StrengthView | undefined {
  if (!strength) return undefined;
  const places = (value: typeof strength.volume) => canonical(round(value, 3, 'half_even'));
  return { volume: places(strength.volume), percent: places(strength.percent) };
}

/** The words of a mix: its products, what is asked for, and the plan that answers. */
import type { Amount, StockUnit } from './amount.js';
import type { Caution } from './cautions.js';
import type { Decimal } from './decimal.js';
import type { LabelledStrength, Strength } from './strength.js';
import type { Weighable } from './units.js';

export type ProductKind =
  | 'lightener'
  | 'developer'
  | 'toner'
  | 'permanent'
  | 'direct'
  | 'additive'
  | 'care'
  | 'sundry'
  | 'water';

/** Where a mix will be: touching the scalp or not. */
export type Contact = 'scalp' | 'off-scalp';

/** Whether a ratio is grams to grams, or grams of powder to millilitres of developer. */
export type RatioBasis = 'weight' | 'volume';

/** A product as the mixing arithmetic needs it. */
export interface MixProduct extends Weighable, LabelledStrength {
  readonly kind: ProductKind;
  readonly line?: string | undefined;
  /** vol; the most developer that the product's directions name for use on the scalp */
  readonly scalpCeiling?: Decimal | undefined;
  /** vol; the same off the scalp */
  readonly offScalpCeiling?: Decimal | undefined;
  /** YYYY-MM-DD of the lot that would be drawn next */
  readonly expiresOn?: string | undefined;
  /** What one dose (a pump, a capsule) holds */
  readonly dose?: Amount<StockUnit> | undefined;
}

/** A product and its share of a side; 1 where none is given. */
export interface SharedPart {
  readonly productId: string;
  readonly share?: Decimal | undefined;
}

/** What an additive's per cent is of; `total` is both sides of the ratio together. */
export type PercentOf = 'powder' | 'developer' | 'total';

/** An additive by per cent, by grams, or by doses: one for each started step of powder in g. */
export type Additive = {
  readonly productId: string;
  /** True: its weight is part of the bowl's size. */
  readonly counted?: boolean | undefined;
} & (
  | { readonly of: PercentOf; readonly percent: Decimal }
  | { readonly grams: Decimal }
  | { readonly dosesPer: Decimal }
);

/** How large: the whole on the scale, or one of the two sides. */
export type MixSize =
  | { readonly total: Amount<StockUnit> }
  | { readonly powder: Amount<StockUnit> }
  | { readonly developer: Amount<StockUnit> };

export interface MixRequest {
  /** "1:2"; none means no developer side */
  readonly ratio?: string | undefined;
  readonly basis?: RatioBasis | undefined;
  readonly powders: readonly SharedPart[];
  /** vol wanted of the developer side */
  readonly strength?: Decimal | undefined;
  /** Candidates for the strength; with shares, or without a strength, the blend itself */
  readonly developers?: readonly SharedPart[] | undefined;
  readonly additives?: readonly Additive[] | undefined;
  readonly size: MixSize;
  readonly contact?: Contact | undefined;
}

export type Side = 'powder' | 'developer' | 'additive';

/** One thing to pour. */
export interface PlannedPour {
  readonly productId: string;
  readonly side: Side;
  /** In the unit the product is kept in, to 0.001 */
  readonly quantity: Decimal;
  readonly unit: StockUnit;
  /** What the scale will show for it, to 0.001 */
  readonly grams: Decimal;
  /** For products kept in ml, and for every developer of a ratio by volume */
  readonly millilitres?: Decimal;
  /** Part of the bowl's size: both sides, and additives the formula counts */
  readonly counted: boolean;
}

/** Something not known that the plan had to suppose. */
export interface Assumption {
  readonly code: 'density';
  readonly productId: string;
  readonly text: string;
}

export interface MixPlan {
  readonly pours: readonly PlannedPour[];
  /** Grams of all that counts as the bowl's size */
  readonly total: Amount<'g'>;
  /** Grams of all that will be in the bowl, additives included */
  readonly contents: Amount<'g'>;
  /** Of the developer side; none without one */
  readonly strength?: Strength;
  /** Of the whole bowl, per cent by weight, unrounded */
  readonly peroxidePercent: Decimal;
  readonly cautions: readonly Caution[];
  readonly assumed: readonly Assumption[];
}

/** A product's name for a person, or its id where it has none. */
export function nameOf(product: Pick<MixProduct, 'id' | 'name'>): string {
  return product.name ?? product.id;
}

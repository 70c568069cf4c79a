/** Products as the first day types them, and the requests that they make. */
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import type { StockUnit } from '../../../shared/amount.js';
import type { ProductKind } from '../../../shared/mix.js';
import { Problem } from '../../../shared/problems/problem.js';
import { productCard } from '../../../shared/product-card.js';

/** A pack: how it is called, how much is in it, what the empty one weighs in g. */
export interface PackDraft {
  readonly label: string;
  readonly quantity: string;
  /** UCUM code, or piece. */
  readonly unit: string;
  readonly emptyGrams?: string | undefined;
  readonly gtin?: string | undefined;
  readonly orderCode?: string | undefined;
  /** What the studio pays for it, a tax that is got back taken off. */
  readonly listPrice?: string | undefined;
}

/** One product to be; its decimals are text in plain notation. */
export interface ProductDraft {
  readonly name: string;
  readonly kind: ProductKind;
  readonly unit: StockUnit;
  readonly line?: string | undefined;
  /** vol */
  readonly strength?: string | undefined;
  /** per cent, as printed */
  readonly percent?: string | undefined;
  readonly pack?: PackDraft | undefined;
}

/** In which unit products of a kind are kept, unless their pack says another. */
export const unitOfKind: Readonly<Record<ProductKind, StockUnit>> = {
  lightener: 'g',
  developer: 'ml',
  toner: 'g',
  permanent: 'g',
  direct: 'g',
  additive: 'ml',
  care: 'ml',
  sundry: 'piece',
  water: 'ml',
};

/** The request that enters a product, as `POST /products/many` takes it. */
export function requestOf(draft: ProductDraft) {
  const { name, kind, unit, line, strength, percent, pack } = draft;
  return {
    ...{ name, kind, unit },
    ...(line === undefined || line === '' ? {} : { line }),
    ...(strength === undefined ? {} : { strength }),
    ...(percent === undefined ? {} : { percent }),
    packs: pack ? [packRequest(pack)] : [],
  };
}

function packRequest({ label, quantity, unit, emptyGrams, ...more }: PackDraft) {
  const empty = emptyGrams === undefined ? {} : { quantity: emptyGrams, unit: 'g' };
  const given = Object.entries(more).filter(([, value]) => value !== undefined);
  return {
    ...{ label, quantity, unit },
    ...(emptyGrams === undefined ? {} : { emptyWeight: empty }),
    ...Object.fromEntries(given),
  };
}

/** What keeps a product from being entered, in a sentence; undefined where nothing does. */
export function troubleOf(draft: ProductDraft): string | undefined {
  const maybe = (text: string | undefined): Decimal | undefined =>
    text === undefined ? undefined : decimal(text);
  try {
    productCard({
      ...{ name: draft.name, kind: draft.kind, unit: draft.unit },
      strength: maybe(draft.strength),
      percent: maybe(draft.percent),
      packs: draft.pack
        ? [
            {
              ...{ label: draft.pack.label, unit: draft.pack.unit, gtin: draft.pack.gtin },
              quantity: decimal(draft.pack.quantity),
              emptyWeight: draft.pack.emptyGrams
                ? { quantity: decimal(draft.pack.emptyGrams), unit: 'g' }
                : null,
            },
          ]
        : [],
    });
    return undefined;
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}

/** A pack's usual label: "500 g tub", "1000 ml bottle". */
export function packLabel(quantity: Decimal, unit: string, vessel: string): string {
  return [canonical(quantity), unit === 'piece' ? 'pieces' : unit, vessel].join(' ').trim();
}

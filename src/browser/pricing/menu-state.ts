/** A version of a service as it is typed, as it is sent, and what becomes another by it. */
import type { ServiceTermsView } from '../../../shared/contract/menu.js';
import type { InThePriceItem, KitItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { money, percent, countInWords } from './money.js';
import { words } from './menu-texts.js';
import { chargedKinds, readRate } from './rules-state.js';

export type ChargedKind = (typeof chargedKinds)[number];

/** What of a kind is in the price and how it is charged on top; figures as they were typed. */
export interface TypedKind {
  readonly kind: ChargedKind;
  readonly amount: string;
  readonly unit: 'g' | 'bowls';
  readonly by: OnTopSetting['by'] | 'usual';
  /** A cost's markup in per cent. */
  readonly rate: string;
}

export interface TypedService {
  readonly price: string;
  readonly handsOn: string;
  readonly chair: string;
  readonly kit: readonly KitItem[];
  readonly kinds: readonly TypedKind[];
}

export const emptyService: TypedService = {
  ...{ price: '', handsOn: '', chair: '', kit: [], kinds: [] },
};

/** The terms of now, ready to be changed. */
export function typedService(terms: ServiceTermsView): TypedService {
  const named = chargedKinds.filter((kind) =>
    [...terms.inThePrice, ...terms.onTop].some((each) => each.kind === kind),
  );
  return {
    price: terms.price,
    handsOn: String(terms.handsOnMinutes),
    chair: String(terms.chairMinutes),
    kit: terms.kit,
    kinds: named.map((kind) => {
      const within = terms.inThePrice.find((each) => each.kind === kind);
      const rule = terms.onTop.find((each) => each.kind === kind);
      return {
        kind,
        amount: within?.grams ?? within?.bowls ?? '',
        unit: within?.bowls === undefined ? 'g' : 'bowls',
        by: rule?.by ?? 'usual',
        rate: rule ? (rule.by === 'cost' ? percentOf(rule.rate) : rule.rate) : '',
      };
    }),
  };
}

/** Kinds that nothing is said of yet. */
export function kindsLeft({ kinds }: TypedService): ChargedKind[] {
  return chargedKinds.filter((kind) => !kinds.some((each) => each.kind === kind));
}

const percentOf = (share: string) => canonical(decimal(share).times(100));

function minutesIn(text: string): number | undefined {
  const plain = text.trim();
  if (plain === '') return 0;
  return /^\d{1,4}$/.test(plain) && parseInt(plain, 10) <= 1440 ? parseInt(plain, 10) : undefined;
}

/** What is sent; undefined while a figure is missing or cannot be read. */
export function termsTyped(typed: TypedService): ServiceTermsView | undefined {
  const price = readRate(typed.price);
  const [handsOnMinutes, chairMinutes] = [minutesIn(typed.handsOn), minutesIn(typed.chair)];
  const kit = typed.kit.map((item) => ({ ...item, read: readRate(item.quantity) }));
  if (!price || handsOnMinutes === undefined || chairMinutes === undefined) return undefined;
  if (kit.some(({ read }) => !read || read.isZero()) || !typed.kinds.every(isWhole)) {
    return undefined;
  }
  return {
    price: canonical(price),
    handsOnMinutes,
    chairMinutes,
    kit: kit.map(({ productId, unit, read }) => ({
      ...{ productId, unit, quantity: read ? canonical(read) : '0' },
    })),
    inThePrice: typed.kinds.flatMap(({ kind, amount, unit }): InThePriceItem[] => {
      const read = readRate(amount);
      if (!read || read.isZero()) return [];
      return unit === 'g' ? [{ kind, grams: canonical(read) }] : [{ kind, bowls: canonical(read) }];
    }),
    onTop: typed.kinds.flatMap(({ kind, by, rate }): OnTopSetting[] => {
      const read = readRate(rate);
      if (by === 'usual' || !read) return [];
      return [{ kind, by, rate: canonical(by === 'cost' ? read.dividedBy(100) : read) }];
    }),
  };
}

function isWhole({ amount, unit, by, rate }: TypedKind): boolean {
  const read = readRate(amount);
  const amountReads = amount.trim() === '' || read !== undefined;
  const wholeBowls = unit === 'g' || !read || read.isInteger();
  return amountReads && wholeBowls && (by === 'usual' || readRate(rate) !== undefined);
}

/** One thing that becomes another. */
export interface Difference {
  readonly field: keyof ServiceTermsView;
  readonly before: string;
  readonly after: string;
}

/** How a version's figures are told. */
export interface Telling {
  readonly currency: string;
  readonly nameOf: (productId: string) => string;
}

const fields = ['price', 'handsOnMinutes', 'chairMinutes', 'kit', 'inThePrice', 'onTop'] as const;

/** What is another in `after`, in words. */
export function differences(
  before: ServiceTermsView,
  after: ServiceTermsView,
  telling: Telling,
): Difference[] {
  return fields
    .map((field) => ({
      field,
      before: inWords(before, field, telling),
      after: inWords(after, field, telling),
    }))
    .filter((each) => each.before !== each.after);
}

/** One field of a version in words. */
export function inWords(
  terms: ServiceTermsView,
  field: keyof ServiceTermsView,
  { currency, nameOf }: Telling,
): string {
  const list = (parts: readonly string[]) => parts.join(', ') || words.nothing;
  switch (field) {
    case 'price':
      return money(terms.price, currency);
    case 'handsOnMinutes':
    case 'chairMinutes':
      return words.minutesUnit(terms[field]);
    case 'kit':
      return list(
        terms.kit.map(
          ({ productId, quantity, unit }) => `${nameOf(productId)} ${countInWords(quantity, unit)}`,
        ),
      );
    case 'inThePrice':
      return list(
        terms.inThePrice.map(
          ({ kind, grams, bowls }) =>
            `${kind} ${grams === undefined ? words.bowls(bowls ?? '0') : countInWords(grams, 'g')}`,
        ),
      );
    case 'onTop':
      return list(
        terms.onTop.map(({ kind, label, by, rate }) =>
          words.onTopRule[by](label ?? kind, by === 'cost' ? percent(rate) : money(rate, currency)),
        ),
      );
  }
}

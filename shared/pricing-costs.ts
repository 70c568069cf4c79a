/** What a visit cost: product, sundries, hands-on time, chair; and product at today's prices. */
import { sum, zero, type Decimal } from './decimal.js';
import { roundMoney } from './money.js';
import type { MoneyRule, ProductUse, SheetInput, SundryUse } from './pricing-input.js';
import { given, setLines, type SheetLine, type UnsetLine } from './pricing-lines.js';

/** Costs of a visit, each group's total rounded once; cost is what the groups add up to. */
export interface Costs {
  readonly lines: readonly SheetLine[];
  readonly product: Decimal;
  readonly sundries: Decimal;
  readonly time: Decimal;
  readonly overhead: Decimal;
  readonly cost: Decimal;
  /** Product that the studio bears itself: in the ledger, not in this visit's cost. */
  readonly notCharged: Decimal;
  /** Product at replacement cost; null while it is not known of all of it. */
  readonly replacementProduct: Decimal | null;
  /** Products and sundries of which no cost is known. */
  readonly noCost: readonly UncostedProduct[];
}

export interface UncostedProduct {
  readonly productId: string | null;
  readonly label: string;
}

/**
 * Costs: product = all value to head and bin borne by the visit; sundries = what was used; time =
 * hands-on minutes x rate of the hour / 60; overhead = chair minutes x rate of the hour / 60.
 * Each total is rounded once from exact values; its lines are set to it by largest remainder.
 */
export function costs(input: SheetInput): Costs {
  const { money } = input;
  const products = input.products ?? [];
  const borne = products.filter((use) => use.borneBy !== 'studio');
  const studio = products.filter((use) => use.borneBy === 'studio');
  const product = setLines(borne.map(productLine('product', money)), money);
  const notCharged = setLines(studio.map(productLine('not_charged', money)), money);
  const sundries = setLines((input.sundries ?? []).map(sundryLine(money)), money);
  const time = setLines(timeLines(input), money);
  const overhead = setLines(overheadLines(input), money);
  return {
    lines: [product, sundries, time, overhead, notCharged].flatMap((group) => group.lines),
    product: product.total,
    sundries: sundries.total,
    time: time.total,
    overhead: overhead.total,
    cost: sum([product, sundries, time, overhead].map((group) => group.total)),
    notCharged: notCharged.total,
    replacementProduct: replacementOf(borne, money),
    noCost: uncosted([...products, ...(input.sundries ?? [])]),
  };
}

/** Each product without a cost, told once. */
function uncosted(uses: readonly (ProductUse | SundryUse)[]): UncostedProduct[] {
  const without = uses.filter((use) => use.noCost === true);
  return without
    .filter(
      ({ productId }, index) =>
        productId === undefined ||
        without.findIndex((use) => use.productId === productId) === index,
    )
    .map(({ productId, label }) => ({ productId: productId ?? null, label }));
}

function productLine(kind: 'product' | 'not_charged', money: MoneyRule) {
  return (use: ProductUse): UnsetLine => ({
    kind,
    label: use.label,
    inputs: [given('quantity', use.quantity, use.unit), given('value', use.value, money.currency)],
    formula:
      kind === 'product'
        ? 'value of what went to head and bin'
        : 'value of what the studio bears itself',
    exact: use.value,
    replacement: use.replacementValue ?? null,
  });
}

function sundryLine(money: MoneyRule) {
  return (use: SundryUse): UnsetLine => ({
    kind: 'sundry',
    label: use.label,
    inputs: [given('quantity', use.quantity, use.unit), given('value', use.value, money.currency)],
    formula: 'value of what was used',
    exact: use.value,
    replacement: use.replacementValue ?? null,
  });
}

function timeLines(input: SheetInput): UnsetLine[] {
  return (input.time ?? []).map(({ label, minutes, ratePerHour }) => ({
    kind: 'time',
    label,
    inputs: [
      given('hands-on', minutes, 'min'),
      given('rate', ratePerHour, `${input.money.currency}/h`),
    ],
    formula: 'hands-on minutes x rate / 60',
    exact: minutes.times(ratePerHour).dividedBy(60),
  }));
}

function overheadLines(input: SheetInput): UnsetLine[] {
  const minutes = input.chairMinutes ?? zero;
  const rate = input.overheadPerHour ?? zero;
  if (minutes.isZero() || rate.isZero()) return [];
  return [
    {
      kind: 'overhead',
      label: 'Chair',
      inputs: [given('chair', minutes, 'min'), given('rate', rate, `${input.money.currency}/h`)],
      formula: 'chair minutes x rate / 60',
      exact: minutes.times(rate).dividedBy(60),
    },
  ];
}

function replacementOf(uses: readonly ProductUse[], money: MoneyRule): Decimal | null {
  const known = uses.flatMap((use) => use.replacementValue ?? []);
  if (known.length < uses.length) return null;
  return roundMoney(sum(known), money.currency, money.rounding);
}

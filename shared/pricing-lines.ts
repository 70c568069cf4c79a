/** Lines of a price sheet: a figure, what it is made of, and how, in words. */
import { minorDigits } from './currency.js';
import { canonical, sum, type Decimal } from './decimal.js';
import { roundMoney, setToTotal } from './money.js';
import type { MoneyRule } from './pricing-input.js';

export type LineKind =
  | 'menu'
  | 'on_top'
  | 'discount'
  | 'net'
  | 'tax'
  | 'gross'
  | 'product'
  | 'not_charged'
  | 'sundry'
  | 'time'
  | 'overhead'
  | 'fee'
  | 'commission'
  | 'contribution'
  | 'profit'
  | 'deposit'
  | 'tip'
  | 'cash_rounding'
  | 'to_the_till';

/** One figure that went into a line, in plain notation, with its unit ("share" for a rate). */
export interface LineInput {
  readonly name: string;
  readonly value: string;
  readonly unit: string;
}

/** A line before it is set to its total. */
export interface UnsetLine {
  readonly kind: LineKind;
  readonly label: string;
  readonly inputs: readonly LineInput[];
  /** How the amount follows from the inputs, in words. */
  readonly formula: string;
  /** Unrounded. */
  readonly exact: Decimal;
  readonly replacement?: Decimal | null;
}

/** A line as it is shown; amounts in the currency's minor digits. */
export interface SheetLine {
  readonly kind: LineKind;
  readonly label: string;
  readonly inputs: readonly LineInput[];
  readonly formula: string;
  readonly amount: Decimal;
  /** Product and sundries: the same at replacement cost; null where it is not known. */
  readonly replacementAmount?: Decimal | null;
}

/** One figure with its name and unit. */
export function given(name: string, value: Decimal, unit: string): LineInput {
  return { name, value: canonical(value), unit };
}

/** Lines and the total that they were set to. */
export interface SetLines {
  readonly lines: readonly SheetLine[];
  readonly total: Decimal;
}

/**
 * Rounds the total of lines once, by the studio's rule, and sets the lines to it by largest
 * remainder; replacement amounts, where known, to their own total.
 */
export function setLines(unset: readonly UnsetLine[], money: MoneyRule): SetLines {
  const total = roundMoney(sum(unset.map((line) => line.exact)), money.currency, money.rounding);
  const places = minorDigits(money.currency);
  const amounts = setToTotal(
    unset.map((line) => line.exact),
    total,
    places,
  );
  const replacements = replacementAmounts(unset, money);
  const lines = unset.map(({ kind, label, inputs, formula, replacement }, index): SheetLine => {
    const line = { kind, label, inputs, formula, amount: amounts[index] ?? total };
    return replacement === undefined
      ? line
      : { ...line, replacementAmount: replacements.get(index) ?? null };
  });
  return { lines, total };
}

function replacementAmounts(unset: readonly UnsetLine[], money: MoneyRule): Map<number, Decimal> {
  const known = unset.flatMap(({ replacement }, index) =>
    replacement ? [{ index, exact: replacement }] : [],
  );
  const exact = known.map((each) => each.exact);
  const total = roundMoney(sum(exact), money.currency, money.rounding);
  const set = setToTotal(exact, total, minorDigits(money.currency));
  return new Map(known.map(({ index }, position) => [index, set[position] ?? total]));
}

/** A line that is rounded by itself: taxes, fee, commission, what follows the total. */
export function ownLine(unset: UnsetLine, money: MoneyRule): SheetLine {
  const { kind, label, inputs, formula, exact } = unset;
  const amount = roundMoney(exact, money.currency, money.rounding);
  return { kind, label, inputs, formula, amount };
}

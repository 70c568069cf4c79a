/** After the price: deposits, tip, coins, and what goes to the till. */
import { count, sum, zero, type Decimal } from './decimal.js';
import { roundForCash } from './money.js';
import type { Payment, SheetInput } from './pricing-input.js';
import { given, type SheetLine } from './pricing-lines.js';

export interface Due {
  readonly lines: readonly SheetLine[];
  /** Price less deposits and vouchers; below zero where they are more. */
  readonly due: Decimal;
  readonly tip: Decimal;
  /** What rounding to coins adds or takes; outside the price and its tax. */
  readonly cashRounding: Decimal;
  readonly toTheTill: Decimal;
}

/** Money paid by card, and in how many payments; what the fee is worked out from. */
export interface CardPaid {
  readonly amount: Decimal;
  readonly payments: Decimal;
  /** True while payments are not known: all that is due, in one card payment. */
  readonly assumed: boolean;
}

/**
 * What is due of a gross price: deposits and vouchers lower it, the tip stands beside it, and
 * the part paid in cash is rounded to the country's coins, its difference a line of its own.
 * To the till: due + cash rounding + tip.
 */
export function dueOf(gross: Decimal, input: SheetInput): Due {
  const { currency } = input.money;
  const deposits = input.deposits ?? [];
  const due = gross.minus(sum(deposits.map((deposit) => deposit.amount)));
  const cash = inCash(due, input.payments ?? []);
  const cashRounding = cash ? roundForCash(cash, currency).minus(cash) : zero;
  const tip = input.tip?.amount ?? zero;
  const toTheTill = due.plus(cashRounding).plus(tip);
  const lines: SheetLine[] = deposits.map(({ label, amount }) => ({
    kind: 'deposit',
    label,
    inputs: [given('paid before', amount, currency)],
    formula: 'less what was paid before',
    amount: amount.negated(),
  }));
  if (cash && !cashRounding.isZero()) {
    lines.push({
      kind: 'cash_rounding',
      label: 'Rounded to coins',
      inputs: [given('in cash', cash, currency)],
      formula: 'nearest coin - amount in cash',
      amount: cashRounding,
    });
  }
  if (!tip.isZero()) {
    lines.push({
      kind: 'tip',
      label: 'Tip',
      inputs: [given('tip', tip, currency)],
      formula: 'beside the price, its tax and commission',
      amount: tip,
    });
  }
  lines.push({
    kind: 'to_the_till',
    label: 'To the till',
    inputs: [given('gross', gross, currency), given('due', due, currency)],
    formula: 'gross - paid before + rounding to coins + tip',
    amount: toTheTill,
  });
  return { lines, due, tip, cashRounding, toTheTill };
}

/** The part of what is due that is left for cash; undefined where nothing is paid in cash. */
function inCash(due: Decimal, payments: readonly Payment[]): Decimal | undefined {
  if (!payments.some((payment) => payment.method === 'cash')) return undefined;
  const others = payments.filter((payment) => payment.method !== 'cash');
  const left = due.minus(sum(others.map((payment) => payment.amount)));
  return left.greaterThan(zero) ? left : undefined;
}

/** What is paid by card, with the tip's part where its fee is the studio's. */
export function paidByCard(gross: Decimal, input: SheetInput): CardPaid {
  const tip = input.tip;
  const onTip = tip?.method === 'card' && input.cardFee?.onTip !== 'person' ? tip.amount : zero;
  if (!input.payments) {
    const due = gross.minus(sum((input.deposits ?? []).map((deposit) => deposit.amount)));
    const amount = due.greaterThan(zero) ? due : zero;
    return { amount: amount.plus(onTip), payments: count(amount.isZero() ? 0 : 1), assumed: true };
  }
  const cards = input.payments.filter(({ method }) => method === 'card');
  return {
    amount: sum(cards.map(({ amount }) => amount)).plus(onTip),
    payments: count(cards.length),
    assumed: false,
  };
}

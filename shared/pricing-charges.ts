/** What the client is charged: menu prices, product on top, discounts, and the taxes on them. */
import { shareOut } from './allocation.js';
import { minorDigits } from './currency.js';
import { count, larger, one, sum, zero, type Decimal } from './decimal.js';
import { onTopLines } from './pricing-on-top.js';
import { taxRatesOf, type Discount, type MoneyRule, type SheetInput } from './pricing-input.js';
import { given, setLines, type SheetLine, type UnsetLine } from './pricing-lines.js';
import { Problem } from './problems/problem.js';
import { taxed, type Taxed } from './tax.js';

/** Charges as they are shown, and what they come to with their taxes. */
export interface Charges extends Taxed {
  readonly lines: readonly SheetLine[];
}

/**
 * Charges of a visit: B = menu prices + on top - discounts, in the studio's price mode, rounded
 * once, its lines set to it. Inclusive: gross = B, net = gross - taxes. Exclusive: net = B,
 * gross = net + taxes. Taxes share one base and are rounded themselves, per line (after their
 * share of the discounts) or per invoice.
 * @throws Problem `discount_above_price`, `no_tax_rule`
 */
export function charges(input: SheetInput): Charges {
  const { money } = input;
  const menu = input.services.map(menuLine(money));
  const onTop = onTopLines(input);
  const discounts = discountLines(input.discounts ?? [], menu, onTop, money);
  const set = setLines([...menu, ...onTop, ...discounts], money);
  const rates = taxRatesOf(money);
  const outcome = taxed(taxableLines(set.lines, input.discounts ?? [], money), {
    mode: money.priceMode,
    basis: money.taxBasis,
    rates: rates.map(({ rate }) => rate),
    places: minorDigits(money.currency),
    rounding: money.rounding,
  });
  return { ...outcome, lines: set.lines };
}

function menuLine(money: MoneyRule) {
  return (service: { readonly label: string; readonly price: Decimal }): UnsetLine => ({
    kind: 'menu',
    label: service.label,
    inputs: [given('menu price', service.price, money.currency)],
    formula: 'menu price',
    exact: service.price,
  });
}

function discountLines(
  discounts: readonly Discount[],
  menu: readonly UnsetLine[],
  onTop: readonly UnsetLine[],
  money: MoneyRule,
): UnsetLine[] {
  const menuTotal = sum(menu.map((line) => line.exact));
  const all = menuTotal.plus(sum(onTop.map((line) => line.exact)));
  let menuLeft = menuTotal;
  let allLeft = all;
  return discounts.map(({ label, of, share, amount }, index): UnsetLine => {
    const base = of === 'all' ? all : menuTotal;
    const off = share ? base.times(share) : (amount ?? zero);
    const left = of === 'all' ? allLeft : menuLeft;
    if (off.greaterThan(left)) {
      const facts = { discount: off.toFixed(), price: left.toFixed() };
      throw new Problem('discount_above_price', facts, `/discounts/${index}`);
    }
    allLeft = allLeft.minus(off);
    menuLeft =
      of === 'all' && !all.isZero()
        ? menuLeft.minus(off.times(menuTotal).dividedBy(all))
        : menuLeft.minus(off);
    const what = of === 'all' ? 'menu and on top' : 'menu prices';
    return {
      kind: 'discount',
      label,
      inputs: share
        ? [given(what, base, money.currency), given('discount', share, 'share')]
        : [given('discount', off, money.currency)],
      formula: share ? `less ${what} x discount` : 'less the amount agreed',
      exact: off.negated(),
    };
  });
}

/** What is taxed line by line: menu and on top, each less its share of the discounts. */
function taxableLines(
  lines: readonly SheetLine[],
  discounts: readonly Discount[],
  money: MoneyRule,
): Decimal[] {
  const charged = lines.filter((line) => line.kind !== 'discount');
  const taken = lines.filter((line) => line.kind === 'discount');
  let amounts = charged.map((line) => line.amount);
  taken.forEach((line, index) => {
    const menuOnly = discounts[index]?.of !== 'all';
    const weights = charged.map((each, at) =>
      menuOnly && each.kind !== 'menu' ? zero : larger(amounts[at] ?? zero, zero),
    );
    if (line.amount.isZero()) return;
    const usable = sum(weights).isZero() ? charged.map(() => one) : weights;
    const shares = shareOut(line.amount.negated(), usable, minorDigits(money.currency));
    amounts = amounts.map((amount, at) => amount.minus(shares[at] ?? zero));
  });
  return amounts.length > 0 ? amounts : [count(0)];
}

/** One line a tax, rounded by itself; with the base that all taxes share. */
export function taxLines(taxedCharges: Taxed, money: MoneyRule): SheetLine[] {
  const rates = taxRatesOf(money);
  const inclusive = money.priceMode === 'inclusive';
  const all = sum(rates.map(({ rate }) => rate));
  return rates.map(({ label, rate }, index) => ({
    kind: 'tax' as const,
    label,
    inputs: inclusive
      ? [
          given('gross', taxedCharges.gross, money.currency),
          given('rate', rate, 'share'),
          given('all rates', all, 'share'),
        ]
      : [given('net', taxedCharges.net, money.currency), given('rate', rate, 'share')],
    formula:
      (inclusive ? 'gross x rate / (1 + all rates)' : 'net x rate') +
      (money.taxBasis === 'line' ? ', rounded on every line' : ', rounded once'),
    amount: taxedCharges.taxes[index] ?? zero,
  }));
}

/** Rounding of money: to the minor unit, to the coin, and lines that add up to their total. */
import { cashData, cashStep, minorDigits } from './currency.js';
import { Decimal, round, roundToStep, sum, zero } from './decimal.js';

/** The studio's rule for an amount just between two minor units. */
export type MoneyRounding = 'half_even' | 'half_up';

/** Rounds to the currency's minor unit by the studio's rule: (2.345, EUR, half_even) -> 2.34. */
export function roundMoney(value: Decimal, currency: string, rounding: MoneyRounding): Decimal {
  return round(value, minorDigits(currency), rounding);
}

/** Rounds a price up to a multiple of the step that the studio prices in: (86.2, 5) -> 90. */
export function roundUpToStep(price: Decimal, step: Decimal): Decimal {
  return roundToStep(price, step, 'ceiling');
}

/**
 * What is paid in coins for an amount: the nearest step of the country's coins, ties up (down
 * in NZD). Only for a final total, only for what is paid in cash.
 * Source: Government of Canada, Budget 2012; Swedish Lag (1970:1029); see currency.ts.
 * Example: (4.92, CAD) -> 4.90; (24.50, SEK) -> 25.
 */
export function roundForCash(amount: Decimal, currency: string): Decimal {
  return roundToCoins(amount, cashStep(currency), cashData(currency).tie ?? 'half_up');
}

/** The same for a step that is told: (65.40, 0.50) -> 65.50. */
export function roundToCoins(
  amount: Decimal,
  step: Decimal,
  tie: 'half_up' | 'half_down' = 'half_up',
): Decimal {
  return roundToStep(amount, step, tie);
}

/**
 * Sets lines to a total that was rounded once: each line is rounded down to `places`, and the
 * units that the total has more go to the largest remainders, ties to the earlier line. Lines
 * may be negative. The total must be within one unit a line of what the lines add up to.
 * Source: largest remainder (Hamilton's method). Example: (1.005, 1.005; 2.01) -> 1.01, 1.00.
 */
export function setToTotal(lines: readonly Decimal[], total: Decimal, places: number): Decimal[] {
  const unit = new Decimal(10).pow(-places);
  const set = lines.map((line) => round(line, places, 'floor'));
  let left = total.minus(sum(set));
  const byRemainder = lines
    .map((line, index) => ({ index, remainder: line.minus(set[index] ?? zero) }))
    .sort((a, b) => b.remainder.comparedTo(a.remainder) || a.index - b.index);
  for (const { index } of byRemainder) {
    if (left.lessThan(unit)) break;
    set[index] = (set[index] ?? zero).plus(unit);
    left = left.minus(unit);
  }
  return set;
}

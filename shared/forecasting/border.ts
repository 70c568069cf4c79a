/** The border between the ledger's decimals and the float64 of forecasting. */
import { canonical, Decimal, decimal, round, type Rounding } from '../decimal.js';

/** A period's use as forecasting takes it; null stays unknown. */
export function useAsNumbers(use: readonly (Decimal | null)[]): (number | null)[] {
  return use.map((amount) => (amount === null ? null : amount.toNumber()));
}

/**
 * A forecast figure as a decimal with `places` places, rounded here, once, by the named tie rule.
 * Example: 0.1 + 0.2, 3, half_up -> 0.3. A figure that is not finite has no decimal: null, for
 * the caller to put into words (no stock reaches a service level of 1).
 */
export function figureAsDecimal(
  figure: number,
  places: number,
  rounding: Rounding,
): Decimal | null {
  if (!Number.isFinite(figure)) return null;
  const rounded = round(new Decimal(figure), places, rounding);
  return rounded.isZero() ? decimal('0') : rounded;
}

/** The same as text in plain notation, for answers. */
export function figureAsText(figure: number, places: number, rounding: Rounding): string | null {
  const value = figureAsDecimal(figure, places, rounding);
  return value === null ? null : canonical(value);
}

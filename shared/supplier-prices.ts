/** What the prices are that somebody types from a supplier's invoice, and what the goods cost. */
import { count, decimal, round, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/** `tax got back`: with a tax that the studio reclaims; `tax kept`: with one that it bears. */
export const supplierPriceKinds = ['without tax', 'tax got back', 'tax kept'] as const;

export interface SupplierPrices {
  readonly are: (typeof supplierPriceKinds)[number];
  /** Share of the price before tax, "0.23"; said where the tax is got back. */
  readonly taxRate: string | null;
}

const valuePlaces = 6;

/**
 * What goods cost the studio, in its currency: the typed price less a tax that is got back,
 * price / (1 + rate), half-even to 6 decimals; as it is typed otherwise, since a tax that nobody
 * gives back is part of the cost. Examples: 12.30 with 23 % got back -> 10; kept -> 12.30.
 */
export function costOfTyped(price: Decimal, prices: SupplierPrices): Decimal {
  if (prices.are !== 'tax got back' || prices.taxRate === null) return price;
  const withTax = count(1).plus(decimal(prices.taxRate));
  return round(price.dividedBy(withTax), valuePlaces, 'half_even');
}

/**
 * The rule as it is kept; a rate without a tax that is got back is dropped.
 * @throws Problem `tax_rate_needed` where the tax is got back and its rate is not said
 */
export function supplierPricesOf(
  are: SupplierPrices['are'],
  taxRate: string | undefined,
): SupplierPrices {
  if (are !== 'tax got back') return { are, taxRate: null };
  if (taxRate === undefined) throw new Problem('tax_rate_needed', {}, '/taxRate');
  return { are, taxRate };
}

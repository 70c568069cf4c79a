/** Discounts: a share of a price taken off, and the way back. */
import { one, type Decimal } from './decimal.js';

/** Amount taken off, unrounded: price x share. Example: (168.90, 0.30) -> 50.67. */
export function discountOn(price: Decimal, share: Decimal): Decimal {
  return price.times(share);
}

/**
 * Price after a discount, unrounded: price x (1 - share). Source: OpenStax Contemporary
 * Mathematics, Discounts, Markups, and Sales Tax. Example: (168.90, 0.30) -> 118.23.
 */
export function priceAfterDiscount(price: Decimal, share: Decimal): Decimal {
  return price.times(one.minus(share));
}

/** Price before a discount, unrounded: sale / (1 - share). Example: (90, 0.75) -> 360. */
export function priceBeforeDiscount(sale: Decimal, share: Decimal): Decimal {
  return sale.dividedBy(one.minus(share));
}

/** The share taken off between two prices: (price - sale) / price. Example: (1200, 900) -> 0.25. */
export function discountBetween(price: Decimal, sale: Decimal): Decimal {
  return price.minus(sale).dividedBy(price);
}

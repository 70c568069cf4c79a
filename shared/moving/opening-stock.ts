/** The opening stock where bowls were mixed before anybody counted the shelf. */
import { ledgerPlaces } from '../costing.js';
import { round, type Decimal } from '../decimal.js';
import { shortfallOpen, type ProductStock } from './stock.js';

/** So much of a product at a cost: in its stock unit, in the studio's currency. */
interface Costed {
  readonly quantity: Decimal;
  readonly cost: Decimal;
}

/**
 * What was there at first, of what is counted now: counted + poured beyond the book, at the cost
 * of a unit of what was counted, cost x (counted + poured) / counted, half-even to 6 decimals.
 * `receive` gives the poured part back, so that the shelf holds what was counted.
 * Example: 470 g counted for 14.10, 30 g poured before -> 500 g for 15.
 */
export function withPouredBefore(counted: Costed, stock: ProductStock): Costed {
  const poured = shortfallOpen(stock);
  if (poured.isZero() || counted.quantity.isZero()) return counted;
  const quantity = counted.quantity.plus(poured);
  const cost = counted.cost.times(quantity).dividedBy(counted.quantity);
  return { quantity, cost: round(cost, ledgerPlaces, 'half_even') };
}

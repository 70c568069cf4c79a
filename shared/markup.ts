/** Markup is a share of the cost, margin a share of the price; the two are never confused. */
import { one, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/** Amount added to a cost, unrounded: cost x markup. Example: (62, 0.15) -> 9.30. */
export function markupOn(cost: Decimal, markup: Decimal): Decimal {
  return cost.times(markup);
}

/**
 * Price by markup, unrounded: cost x (1 + markup). Source: OpenStax Contemporary Mathematics,
 * Discounts, Markups, and Sales Tax. Example: (750, 0.45) -> 1087.50.
 */
export function priceByMarkup(cost: Decimal, markup: Decimal): Decimal {
  return cost.times(one.plus(markup));
}

/** Cost behind a marked-up price, unrounded: price / (1 + markup). (26.55, 1.25) -> 11.80. */
export function costBehindMarkup(price: Decimal, markup: Decimal): Decimal {
  return price.dividedBy(one.plus(markup));
}

/** Markup between cost and price, a share of the cost: price / cost - 1. (480, 840) -> 0.75. */
export function markupBetween(cost: Decimal, price: Decimal): Decimal {
  return price.dividedBy(cost).minus(one);
}

/**
 * Margin between cost and price, a share of the price: (price - cost) / price. Source: OpenStax
 * Principles of Managerial Accounting, contribution margin. Example: (20, 100) -> 0.80.
 */
export function marginBetween(cost: Decimal, price: Decimal): Decimal {
  return price.minus(cost).dividedBy(price);
}

/**
 * Price by margin, unrounded: cost / (1 - margin). Example: (20, 0.80) -> 100.
 * @throws Problem `margin_unreachable` for a margin of the whole price or more
 */
export function priceByMargin(cost: Decimal, margin: Decimal): Decimal {
  if (margin.greaterThanOrEqualTo(one)) throw unreachable(margin);
  return cost.dividedBy(one.minus(margin));
}

/** Cost that leaves a margin of a price, unrounded: price x (1 - margin). */
export function costBehindMargin(price: Decimal, margin: Decimal): Decimal {
  return price.times(one.minus(margin));
}

/** The margin that a markup comes to: markup / (1 + markup). Example: 0.25 -> 0.20. */
export function marginOfMarkup(markup: Decimal): Decimal {
  return markup.dividedBy(one.plus(markup));
}

/**
 * The markup that a margin comes to: margin / (1 - margin). Example: 0.50 -> 1.
 * @throws Problem `margin_unreachable` for a margin of the whole price or more
 */
export function markupOfMargin(margin: Decimal): Decimal {
  if (margin.greaterThanOrEqualTo(one)) throw unreachable(margin);
  return margin.dividedBy(one.minus(margin));
}

function unreachable(margin: Decimal): Problem {
  return new Problem('margin_unreachable', { target: margin.toFixed(), highest: '1' });
}

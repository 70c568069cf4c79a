/** Refusals about money: currencies, prices, rates, targets. */
import { refusal } from './refusal.js';

export const moneyProblems = {
  discount_above_price: refusal<{ discount: string; price: string }>(
    'refused',
    'The discount is more than the price',
    ({ discount, price }) =>
      `A discount of ${discount} is more than the price of ${price}. Give at most ${price}.`,
  ),
};

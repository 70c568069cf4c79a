/** Refusals about money: currencies, prices, rates, targets. */
import { refusal } from './refusal.js';

/** "0.6525" -> "65.25": a share in words of a hundred. */
function inPercent(share: string): string {
  const negative = share.startsWith('-');
  const [whole = '0', part = ''] = share.replace('-', '').split('.');
  const digits = `${whole}${part.padEnd(2, '0').slice(0, 2)}`.replace(/^0+(?=\d)/, '');
  const rest = part.slice(2).replace(/0+$/, '');
  return `${negative ? '-' : ''}${digits}${rest ? `.${rest}` : ''} %`;
}

export const moneyProblems = {
  unknown_currency: refusal<{ currency: string }>(
    'malformed',
    'Unknown currency',
    ({ currency }) =>
      `"${currency}" is not a currency code of ISO 4217. Write three capital letters, such as EUR.`,
  ),
  tax_rate_needed: refusal<Record<string, never>>(
    'refused',
    'The rate of the tax is needed',
    () =>
      'Prices are typed with a tax that is got back. Give its rate, 0.23 for 23 per cent, so ' +
      'that it can be taken off.',
  ),
  no_tax_rule: refusal<Record<string, never>>(
    'refused',
    'Prices have no tax rule',
    () =>
      'It is not said how prices are taxed. Give the rates and whether prices include them, ' +
      'or an empty list of rates where no tax is due.',
  ),
  negative_amount: refusal<{ field: string; value: string }>(
    'refused',
    'An amount below zero',
    ({ field, value }) => `${field} is ${value}. Give zero or more.`,
  ),
  rate_out_of_range: refusal<{ field: string; value: string }>(
    'refused',
    'A rate out of range',
    ({ field, value }) =>
      `${field} is ${value}. Give a share from 0 to 1: write 0.19 for 19 per cent.`,
  ),
  discount_above_price: refusal<{ discount: string; price: string }>(
    'refused',
    'The discount is more than the price',
    ({ discount, price }) =>
      `A discount of ${discount} is more than the price of ${price}. Give at most ${price}.`,
  ),
  margin_unreachable: refusal<{ target: string; highest: string }>(
    'refused',
    'No price reaches this margin',
    ({ target, highest }) =>
      `A margin of ${inPercent(target)} cannot be reached at any price: fee and commission grow ` +
      `with the price. It stays below ${inPercent(highest)}. Ask for less, or change those rates.`,
  ),
  contribution_unreachable: refusal<{ highest: string }>(
    'refused',
    'No price earns anything',
    ({ highest }) =>
      `Fee and commission take all of the price (${inPercent(highest)} of it is left). ` +
      'No price reaches this contribution. Change those rates.',
  ),
  no_chair_time: refusal<Record<string, never>>(
    'refused',
    'No chair time',
    () => 'There is no chair time to earn a contribution in. Enter the chair minutes.',
  ),
  no_product_to_mark_up: refusal<Record<string, never>>(
    'refused',
    'No product to mark up',
    () => 'There is no product in this visit to put a markup on. Ask for a margin instead.',
  ),
  no_cost_yet: refusal<{ products: readonly string[] }>(
    'refused',
    'A product has no cost yet',
    ({ products }) =>
      `No cost is known of: ${products.join(', ')}. A price worked out now would be too low. ` +
      'Enter what it cost first.',
  ),
};

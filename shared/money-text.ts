/** Amounts of money in a sentence or on paper, as their currency is written. */
import { minorDigits } from './currency.js';
import { canonical, decimal, fixed } from './decimal.js';

/**
 * An amount as its currency is written, with at least its minor digits and at most 6 decimals:
 * ("9.5", EUR) -> "€9.50"; ("0.125", EUR) -> "€0.125"; ("1500", JPY) -> "¥1,500".
 * @param amount plain notation
 * @param language BCP 47; the sentences of the service are English
 * @throws Problem `unknown_currency`
 */
export function moneyText(amount: string, currency: string, language = 'en'): string {
  const least = minorDigits(currency);
  const value = canonical(decimal(amount));
  const places = Math.min(6, Math.max(least, (value.split('.')[1] ?? '').length));
  const format = new Intl.NumberFormat(language, {
    style: 'currency',
    currency,
    minimumFractionDigits: least,
    maximumFractionDigits: places,
  });
  return format.format(fixed(decimal(value), places) as `${number}`);
}

/** The words of bowlworth mix as they were said, and how their figures are read. */
import { amount, type Amount, type StockUnit } from '../../../shared/amount.js';
import { decimal, isDecimalText, type Decimal } from '../../../shared/decimal.js';
import type { Contact, ProductKind, RatioBasis } from '../../../shared/mix.js';

/** What was said, option by option. */
export interface MixWords {
  readonly ratio?: string;
  readonly basis?: RatioBasis;
  readonly powder: readonly string[];
  readonly kind: ProductKind;
  readonly developer?: readonly string[];
  /** g/ml */
  readonly density?: string;
  /** vol */
  readonly strength?: string;
  readonly additive?: readonly string[];
  readonly total?: string;
  readonly ofPowder?: string;
  readonly ofDeveloper?: string;
  readonly contact?: Contact;
  /** vol */
  readonly ceiling?: string;
  /** ISO 3166-1, two letters */
  readonly country?: string;
  /** g */
  readonly interval?: string;
}

/** A word that cannot be read, with a sentence that says how to write it. */
export class WrongWord extends Error {}

/** A number above or at zero in plain notation, "13" or "1.5". @throws WrongWord */
export function statedNumber(text: string): Decimal {
  if (isDecimalText(text) && !text.startsWith('-')) return decimal(text);
  throw new WrongWord(`"${text}" is no number. Write it in plain notation, such as 13 or 1.5.`);
}

/** The same of an option that need not be there. @throws WrongWord */
export function numberIfStated(text: string | undefined): Decimal | undefined {
  return text === undefined ? undefined : statedNumber(text);
}

/** "90g" or "60 ml". @throws WrongWord */
export function statedAmount(text: string): Amount<StockUnit> {
  const [, number, unit] = /^(\S*?)\s*(g|ml)$/i.exec(text.trim()) ?? [];
  if (number !== undefined && unit !== undefined && isDecimalText(number)) {
    return amount(statedNumber(number), unit.toLowerCase() as StockUnit);
  }
  throw new WrongWord(`"${text}" is no amount. Write it as 90g, or as 60ml.`);
}

/** Two letters of ISO 3166-1. @throws WrongWord */
export function statedCountry(text: string): string {
  if (/^[a-z]{2}$/i.test(text)) return text.toUpperCase();
  throw new WrongWord(`"${text}" is no country. Write its two letters, such as PT.`);
}

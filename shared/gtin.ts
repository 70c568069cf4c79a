/** Global trade item numbers, as printed under a bar code: check digit and one length for all. */
import { Problem } from './problems/problem.js';

const lengths = [8, 12, 13, 14];
const storedLength = 14;

/**
 * The check digit of a number's body: from the right, digits times 3, 1, 3, 1, …; what is missing
 * from their sum to the next multiple of ten. "629104150021" -> 3 (weighted sum 57).
 * Source: GS1 General Specifications, 7.9.1 standard check digit calculations.
 * @param body decimal digits only
 */
export function gtinCheckDigit(body: string): number {
  let weighted = 0;
  for (let fromRight = 1; fromRight <= body.length; fromRight += 1) {
    const digit = body.charCodeAt(body.length - fromRight) - zeroCode;
    weighted += fromRight % 2 === 1 ? digit * 3 : digit;
  }
  return (10 - (weighted % 10)) % 10;
}

const zeroCode = '0'.charCodeAt(0);

/**
 * A number of 8, 12, 13 or 14 digits in the one length it is kept in, 14, led by zeros; blanks
 * and hyphens between its digits do not matter: "6291041500213" -> "06291041500213".
 * @throws Problem `gtin_unreadable` for another length or other signs, `gtin_check_digit`
 */
export function readGtin(text: string): string {
  const digits = text.replace(/[\s-]/g, '');
  if (!/^\d+$/.test(digits) || !lengths.includes(digits.length)) {
    throw new Problem('gtin_unreadable', { text });
  }
  const expected = gtinCheckDigit(digits.slice(0, -1));
  if (digits.slice(-1) !== `${expected}`) {
    throw new Problem('gtin_check_digit', { gtin: digits, given: digits.slice(-1), expected });
  }
  return digits.padStart(storedLength, '0');
}

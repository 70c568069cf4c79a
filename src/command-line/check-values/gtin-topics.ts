/** Published numbers of bar codes and their check digits, against shared/gtin.ts. */
import { gtinCheckDigit, readGtin } from '../../../shared/gtin.js';
import { Problem } from '../../../shared/problems/problem.js';
import { text } from './inputs.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

/** A body without its check digit, or a whole number that is valid or not. */
function checkDigit(row: ValueRow): Answer {
  const body = text(row.inputs, 'body');
  if (body !== undefined) return { check_digit: gtinCheckDigit(body) };
  const gtin = text(row.inputs, 'gtin');
  if (gtin === undefined) throw new NotYetSupported('neither a body nor a GTIN');
  try {
    readGtin(gtin);
    return { valid: true };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const expected = error.facts['expected'];
    return typeof expected === 'number'
      ? { valid: false, expected_digit: expected }
      : { valid: false, reason: 'length not 8, 12, 13 or 14' };
  }
}

export const gtinTopics: readonly Topic[] = [{ name: 'gs1-check-digit', answer: checkDigit }];

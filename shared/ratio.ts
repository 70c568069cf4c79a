/** A mixing ratio: parts of powder (or cream) to parts of developer. */
import { canonical, count, decimal, isDecimalText, round, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

export interface Ratio {
  readonly powder: Decimal;
  readonly developer: Decimal;
}

const mostOfOneSide = count(100);

/**
 * Reads "1:2" or "1 : 1.5"; the first number is the powder side.
 * @throws Problem `ratio_unreadable`, `no_parts` (a zero), `ratio_out_of_range` (beyond 1:100)
 */
export function parseRatio(text: string): Ratio {
  const parts = text.split(':').map((part) => part.trim());
  const [left = '', right = ''] = parts;
  if (parts.length !== 2 || !isDecimalText(left) || !isDecimalText(right)) {
    throw new Problem('ratio_unreadable', { text });
  }
  return checkedRatio({ powder: decimal(left), developer: decimal(right) });
}

/**
 * A ratio whose sides are above zero and not more than a hundred times each other.
 * @throws Problem `no_parts`, `ratio_out_of_range`
 */
export function checkedRatio(ratio: Ratio): Ratio {
  const { powder, developer } = ratio;
  if (!powder.greaterThan(0) || !developer.greaterThan(0)) {
    throw new Problem('no_parts', { what: `the ratio ${ratioText(ratio)}` });
  }
  const most = mostOfOneSide;
  if (powder.greaterThan(developer.times(most)) || developer.greaterThan(powder.times(most))) {
    throw new Problem('ratio_out_of_range', { text: ratioText(ratio), highest: canonical(most) });
  }
  return ratio;
}

/** "1:1.5" */
export function ratioText(ratio: Ratio): string {
  return `${canonical(ratio.powder)}:${canonical(ratio.developer)}`;
}

/** Parts of developer to one part of powder, unrounded. */
export function developerPerPowder(ratio: Ratio): Decimal {
  return ratio.developer.dividedBy(ratio.powder);
}

/**
 * What two sides of a bowl are to each other, for a person: "1 : 2.33", half-even to 0.01, in
 * parts of one powder; undefined where a side is empty.
 */
export function ratioInWords(powder: Decimal, developer: Decimal): string | undefined {
  if (!powder.greaterThan(0) || !developer.greaterThan(0)) return undefined;
  return `1 : ${canonical(round(developer.dividedBy(powder), 2, 'half_even'))}`;
}

/** Refusals of the arithmetic: quantities, strength, ratio, leftover, money. */
import { refusal } from './refusal.js';

export const arithmeticProblems = {
  not_a_decimal: refusal<{ text: string }>(
    'malformed',
    'Not a number',
    ({ text }) =>
      `"${text}" is not a number in plain notation. Write digits with a point, such as 42.5.`,
  ),
  units_differ: refusal<{ left: string; right: string }>(
    'refused',
    'Units do not go together',
    ({ left, right }) => `${left} and ${right} cannot be added. Use one unit for both.`,
  ),
  nothing_to_share_by: refusal<{ shares: number }>(
    'refused',
    'Nothing to share by',
    ({ shares }) => `None of the ${shares} shares has a weight above zero. Give at least one.`,
  ),
};

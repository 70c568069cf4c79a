/** Alligation: the parts that reach a strength, and the strength that parts make. */
import { canonical, sum, zero, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/** An amount (any one unit) at a strength (any one scale). */
export interface StrengthPart {
  readonly amount: Decimal;
  readonly strength: Decimal;
}

/**
 * Alligation alternate, two strengths: parts of the stronger = target - weaker, parts of the
 * weaker = stronger - target. (29.3, 12.3, 15.7) -> stronger 3.4, weaker 13.6, that is 1 : 4.
 * Source: US Army Medical Department, Subcourse MD0802, Pharmaceutical Calculations.
 * @throws Problem `strength_unreachable` when the target does not lie between the two
 */
export function alligationAlternate(
  stronger: Decimal,
  weaker: Decimal,
  target: Decimal,
): { stronger: Decimal; weaker: Decimal } {
  if (target.lessThan(weaker) || target.greaterThan(stronger)) {
    throw unreachable([weaker, stronger], target);
  }
  return { stronger: target.minus(weaker), weaker: stronger.minus(target) };
}

/**
 * Alligation alternate, any number of strengths: each above the target is linked with one below
 * (in turn), each link adding the two parts of the pair; an equal one takes a part of its own.
 * With three or more the answer is one of many; its mean is the target. Parts come in the order
 * given: ([50, 20, 5], 10) -> 5, 5, 50.
 * @throws Problem `strength_unreachable`, `no_parts` (no strengths)
 */
export function alligationParts(strengths: readonly Decimal[], target: Decimal): Decimal[] {
  const above = strengths.flatMap((each, index) => (each.greaterThan(target) ? [index] : []));
  const below = strengths.flatMap((each, index) => (each.lessThan(target) ? [index] : []));
  if (strengths.length === 0) throw new Problem('no_parts', { what: 'the mix' });
  if (above.length === 0 || below.length === 0) {
    if (above.length + below.length === strengths.length) throw unreachable(strengths, target);
    return strengths.map((each) => (each.equals(target) ? zero.plus(1) : zero));
  }
  const parts = strengths.map((each) => (each.equals(target) ? zero.plus(1) : zero));
  for (let link = 0; link < Math.max(above.length, below.length); link += 1) {
    const high = above[link % above.length] ?? 0;
    const low = below[link % below.length] ?? 0;
    const highPart = target.minus(strengths[low] ?? zero);
    const lowPart = (strengths[high] ?? zero).minus(target);
    parts[high] = (parts[high] ?? zero).plus(highPart);
    parts[low] = (parts[low] ?? zero).plus(lowPart);
  }
  return parts;
}

/**
 * Alligation medial: the strength of a mixture = sum(amount x strength) / sum(amount), unrounded.
 * Equal parts of 9 % and 6 % make 7.5 %.
 * @throws Problem `no_parts` when the amounts add up to nothing or one is negative
 */
export function alligationMedial(parts: readonly StrengthPart[]): Decimal {
  const all = sum(parts.map((part) => part.amount));
  if (!all.greaterThan(0) || parts.some((part) => part.amount.lessThan(0))) {
    throw new Problem('no_parts', { what: 'the mix' });
  }
  return sum(parts.map((part) => part.amount.times(part.strength))).dividedBy(all);
}

/**
 * How much of strength `added` brings an amount `have` from strength `now` to `target`:
 * have x (target - now) / (added - target), unrounded, in the unit of `have`. Water is 0.
 * 480 g of 20 % with 100 % to 31 % take 76.52 g.
 * @throws Problem `strength_unreachable` when adding moves away from the target or stops short
 */
export function amountToAdd(have: Decimal, now: Decimal, added: Decimal, target: Decimal): Decimal {
  if (target.equals(now)) return zero;
  const between = target.minus(now).times(added.minus(target));
  if (!between.greaterThan(0)) throw unreachable([now, added], target);
  return have.times(target.minus(now)).dividedBy(added.minus(target));
}

/**
 * Shares an amount between two strengths to reach `target`, unrounded, in the unit of `total`:
 * 1000 ml of 45 % from 75 % and 10 % -> 538.46 and 461.54 ml.
 * @throws Problem `strength_unreachable`
 */
export function amountsOfTwo(
  total: Decimal,
  stronger: Decimal,
  weaker: Decimal,
  target: Decimal,
): { stronger: Decimal; weaker: Decimal } {
  if (stronger.equals(weaker) && stronger.equals(target)) return { stronger: total, weaker: zero };
  const parts = alligationAlternate(stronger, weaker, target);
  const high = total.times(parts.stronger).dividedBy(stronger.minus(weaker));
  return { stronger: high, weaker: total.minus(high) };
}

/**
 * The same proportions in the smallest whole numbers: 3.4 : 13.6 -> 1 : 4.
 * @throws Problem `no_parts` when all parts are zero or one is negative
 */
export function smallestWholeParts(parts: readonly Decimal[]): Decimal[] {
  if (parts.some((part) => part.lessThan(0)) || parts.every((part) => part.isZero())) {
    throw new Problem('no_parts', { what: 'the proportion' });
  }
  const places = Math.max(...parts.map((part) => part.decimalPlaces()));
  const whole = parts.map((part) => part.times(zero.plus(10).pow(places)));
  const divisor = whole.reduce(greatestCommonDivisor, zero);
  return whole.map((part) => part.dividedBy(divisor));
}

function greatestCommonDivisor(a: Decimal, b: Decimal): Decimal {
  let [left, right] = [a, b];
  while (!right.isZero()) [left, right] = [right, left.modulo(right)];
  return left;
}

function unreachable(strengths: readonly Decimal[], target: Decimal): Problem {
  const sorted = [...strengths].sort((a, b) => a.comparedTo(b));
  return new Problem('strength_unreachable', {
    strength: canonical(target),
    lowest: canonical(sorted[0] ?? zero),
    highest: canonical(sorted.at(-1) ?? zero),
  });
}

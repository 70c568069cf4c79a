/** Sharing an amount without losing a cent or a milligram: the largest-remainder method. */
import { Decimal, count, round, sum, zero } from './decimal.js';
import { Problem } from './problems/problem.js';

/**
 * Shares `total` in proportion to `weights`, each share a multiple of 10^-places, adding up to
 * `total` exactly. Every share is first rounded down (floor, a negative total too); the units
 * left over go to the largest remainders, ties to the earlier share. A total finer than the
 * places keeps its rest on the first share that has weight.
 * Source: Hamilton's method (largest remainder), as in OpenStax Contemporary Mathematics;
 * ties as in moneyphp/money. Examples: (100, [1, 1, 1], 0) -> 34, 33, 33;
 * (-5, [7, 3], 0) -> -3, -2.
 * @throws Problem `nothing_to_share_by` when weights are negative, none, or add up to zero
 */
export function shareOut(total: Decimal, weights: readonly Decimal[], places: number): Decimal[] {
  const all = sum(weights);
  if (all.isZero() || weights.some((weight) => weight.isNegative() && !weight.isZero())) {
    throw new Problem('nothing_to_share_by', { shares: weights.length });
  }
  const unit = new Decimal(10).pow(-places);
  const exact = weights.map((weight) => total.times(weight).dividedBy(all));
  const shares = exact.map((share) => round(share, places, 'floor'));
  let left = total.minus(sum(shares));
  const byRemainder = exact
    .map((share, index) => ({ index, remainder: share.minus(shares[index] ?? zero) }))
    .sort((a, b) => b.remainder.comparedTo(a.remainder) || a.index - b.index);
  for (const { index } of byRemainder) {
    if (left.lessThan(unit)) break;
    shares[index] = (shares[index] ?? zero).plus(unit);
    left = left.minus(unit);
  }
  if (!left.isZero()) {
    const first = weights.findIndex((weight) => !weight.isZero());
    shares[first] = (shares[first] ?? zero).plus(left);
  }
  return shares;
}

/** Shares `total` into `parts` equal shares of 10^-places; the earlier ones take the rest. */
export function shareEvenly(total: Decimal, parts: number, places: number): Decimal[] {
  return shareOut(
    total,
    Array.from({ length: parts }, () => count(1)),
    places,
  );
}

/** Whole units apportioned by weight: largest remainder with a minimum, and the divisor methods. */
import { Decimal, count, larger, one, round, sum, zero } from './decimal.js';
import { Problem } from './problems/problem.js';

/** Divisor methods: by what a weight is divided to ask for its next unit, having n already. */
const nextDivisor = {
  jefferson: (n: Decimal) => n.plus(one),
  webster: (n: Decimal) => n.plus('0.5'),
  adams: (n: Decimal) => n,
};
export type DivisorMethod = keyof typeof nextDivisor;

/**
 * Largest remainder (Hamilton) of whole units with a minimum for each: quotas rounded down, not
 * below the minimum, and the units left over to the largest fractions, ties to the earlier.
 * Without a minimum it is `shareOut` at 0 places.
 * Source: OpenStax Contemporary Mathematics, Apportionment Methods.
 * @throws Problem `nothing_to_share_by` when the minimum alone asks for more than there is
 */
export function apportion(units: Decimal, weights: readonly Decimal[], minimum = zero): Decimal[] {
  const all = sum(weights);
  const quotas = weights.map((weight) => units.times(weight).dividedBy(all));
  const given = quotas.map((quota) => larger(round(quota, 0, 'floor'), minimum));
  let left = units.minus(sum(given));
  if (left.isNegative()) throw new Problem('nothing_to_share_by', { shares: weights.length });
  const byFraction = quotas
    .map((quota, index) => ({ index, fraction: quota.minus(given[index] ?? zero) }))
    .sort((a, b) => b.fraction.comparedTo(a.fraction) || a.index - b.index);
  for (const { index } of byFraction) {
    if (left.lessThan(one)) break;
    given[index] = (given[index] ?? zero).plus(one);
    left = left.minus(one);
  }
  return given;
}

/**
 * Divisor methods of apportionment: unit by unit to the largest weight / divisor(units held),
 * ties to the earlier. Source: OpenStax Contemporary Mathematics, Apportionment Methods.
 */
export function apportionByDivisor(
  units: Decimal,
  weights: readonly Decimal[],
  method: DivisorMethod,
  minimum = zero,
): Decimal[] {
  const first = method === 'adams' ? larger(minimum, one) : minimum;
  const given = weights.map(() => first);
  let left = units.minus(first.times(count(weights.length)));
  if (left.isNegative()) throw new Problem('nothing_to_share_by', { shares: weights.length });
  while (left.greaterThanOrEqualTo(one)) {
    let next = 0;
    let highest: Decimal = zero;
    weights.forEach((weight, index) => {
      const claim = weight.dividedBy(nextDivisor[method](given[index] ?? zero));
      if (claim.greaterThan(highest)) [next, highest] = [index, claim];
    });
    given[next] = (given[next] ?? zero).plus(one);
    left = left.minus(one);
  }
  return given;
}

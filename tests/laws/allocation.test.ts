/** Laws of sharing: nothing is lost, nobody gets more than a unit away from an exact share. */
import fc from 'fast-check';
import { shareOut } from '../../shared/allocation.js';
import { apportion, apportionByDivisor } from '../../shared/apportionment.js';
import { canonical, count, decimal, round, sum, zero, type Decimal } from '../../shared/decimal.js';
import { setToTotal } from '../../shared/money.js';

const aTotal = fc.integer({ min: -1_000_000, max: 1_000_000 }).map(count);
const someWeights = fc
  .array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1, maxLength: 12 })
  .filter((weights) => weights.some((weight) => weight > 0))
  .map((weights) => weights.map(count));

/** A millionth of anything, as in the ledger. */
const anAmount = fc
  .integer({ min: -50_000_000, max: 50_000_000 })
  .map((n) => count(n).dividedBy(1e6));

function isMultiple(value: Decimal, places: number): boolean {
  return round(value, places, 'down').equals(value);
}

test('shares add up to the total, each within one unit of its exact share', () => {
  fc.assert(
    fc.property(aTotal, someWeights, fc.integer({ min: 0, max: 6 }), (total, weights, places) => {
      const all = sum(weights);
      const unit = decimal('10').pow(-places);
      const shares = shareOut(total, weights, places);
      expect(canonical(sum(shares))).toBe(canonical(total));
      shares.forEach((share, index) => {
        const exact = total.times(weights[index] ?? zero).dividedBy(all);
        expect(share.minus(exact).abs().lessThan(unit)).toBe(true);
        expect(isMultiple(share, places)).toBe(true);
      });
    }),
  );
});

test('no weight, no share', () => {
  fc.assert(
    fc.property(aTotal, someWeights, (total, weights) => {
      const shares = shareOut(total, weights, 2);
      shares.forEach((share, index) => {
        if (weights[index]?.isZero()) expect(canonical(share)).toBe('0');
      });
    }),
  );
});

test('lines set to their rounded total add up, each within one unit of what it was', () => {
  const lines = fc.array(anAmount, { minLength: 1, maxLength: 15 });
  const rounding = fc.constantFrom('half_even' as const, 'half_up' as const);
  fc.assert(
    fc.property(lines, fc.constantFrom(0, 2, 3), rounding, (exact, places, rule) => {
      const total = round(sum(exact), places, rule);
      const set = setToTotal(exact, total, places);
      const unit = decimal('10').pow(-places);
      expect(canonical(sum(set))).toBe(canonical(total));
      set.forEach((line, index) => {
        expect(
          line
            .minus(exact[index] ?? zero)
            .abs()
            .lessThanOrEqualTo(unit),
        ).toBe(true);
        expect(isMultiple(line, places)).toBe(true);
      });
    }),
  );
});

test('without a minimum, apportionment by largest remainder is sharing at no places', () => {
  const seats = fc.integer({ min: 0, max: 500 }).map(count);
  fc.assert(
    fc.property(seats, someWeights, (total, weights) => {
      const shared = shareOut(total, weights, 0).map(canonical);
      expect(apportion(total, weights).map(canonical)).toEqual(shared);
      for (const method of ['jefferson', 'webster'] as const) {
        const given = apportionByDivisor(total, weights, method);
        expect(canonical(sum(given))).toBe(canonical(total));
      }
    }),
  );
});

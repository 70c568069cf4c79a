/** Laws of quoting: points were seen and are in order; about four in five of like visits inside. */
import fc from 'fast-check';
import { canonical, count, decimal, type Decimal } from '../../shared/decimal.js';
import { enoughVisits, heldBy, pointsOf, repriced, type PriceToday } from '../../shared/quoting.js';

const aValue = fc.integer({ min: 0, max: 200_000 }).map((n) => count(n).dividedBy(100));
const someValues = fc.array(aValue, { minLength: 1, maxLength: 60 });

const found = (values: readonly Decimal[]) => {
  const points = pointsOf(values);
  if (!points) throw new Error('no points');
  return points;
};

test('points are values that were seen, in order, whatever the order they came in', () => {
  fc.assert(
    fc.property(someValues, fc.infiniteStream(fc.nat()), (values, chance) => {
      const { low, likely, high } = found(values);
      const seen = new Set(values.map(canonical));
      for (const point of [low, likely, high]) expect(seen.has(canonical(point))).toBe(true);
      expect(low.lessThanOrEqualTo(likely) && likely.lessThanOrEqualTo(high)).toBe(true);
      const shuffled = values
        .map((value) => ({ value, at: chance.next().value as number }))
        .sort((a, b) => a.at - b.at)
        .map(({ value }) => value);
      expect(pointsOf(shuffled)).toEqual({ low, likely, high });
    }),
  );
});

test('nine in ten seen are at or under the high point, at most one in ten below the low', () => {
  fc.assert(
    fc.property(someValues, (values) => {
      const { low, high } = found(values);
      const under = values.filter((value) => value.lessThanOrEqualTo(high)).length;
      const below = values.filter((value) => value.lessThan(low)).length;
      expect(under * 10).toBeGreaterThanOrEqual(values.length * 9);
      expect(below * 10).toBeLessThanOrEqual(values.length);
    }),
  );
});

test('dearer prices never make a lower quote', () => {
  fc.assert(
    fc.property(someValues, aValue, (values, more) => {
      const [before, after] = [found(values), found(values.map((value) => value.plus(more)))];
      expect(canonical(after.high)).toBe(canonical(before.high.plus(more)));
      expect(canonical(after.low)).toBe(canonical(before.low.plus(more)));
    }),
  );
});

test('of like visits in no order, nine in ten hold and four in five are inside', () => {
  const values = fc.uniqueArray(fc.integer({ min: 0, max: 10 ** 6 }), {
    ...{ minLength: 1500, maxLength: 1500 },
  });
  fc.assert(
    fc.property(values, (numbers) => {
      const held = heldBy(numbers.map(count));
      expect(held.visits).toBe(numbers.length - enoughVisits);
      expect(held.atOrUnder / held.visits).toBeGreaterThan(0.86);
      expect(held.inside / held.visits).toBeGreaterThan(0.75);
      expect(held.inside / held.visits).toBeLessThan(0.88);
    }),
    { numRuns: 10, seed: 418 },
  );
});

test('a visit that took no more than is in the price comes to the menu, in every currency', () => {
  const taxes = [{ label: 'Tax', rate: decimal('0.23') }];
  fc.assert(
    fc.property(
      fc.constantFrom('JPY', 'EUR', 'TND'),
      fc.constantFrom('inclusive' as const, 'exclusive' as const),
      fc.integer({ min: 0, max: 60 }),
      (currency, priceMode, grams) => {
        const today: PriceToday = {
          money: { currency, rounding: 'half_up', priceMode, taxBasis: 'line', taxes },
          services: [
            {
              ...{ id: 's', label: 'Roots', price: count(100) },
              inThePrice: [{ kind: 'toner', grams: count(60) }],
            },
          ],
          onTop: [{ kind: 'toner', by: 'gram', ratePerGram: count(1) }],
        };
        const use = { productId: 'p', label: 'P', kind: 'toner', unit: 'g', value: count(9) };
        const products = [{ ...use, quantity: count(grams), grams: count(grams) }];
        const gross = repriced({ products }, today);
        expect(canonical(gross)).toBe(priceMode === 'inclusive' ? '100' : '123');
      },
    ),
  );
});

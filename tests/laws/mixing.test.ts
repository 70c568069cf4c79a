/** Laws of a plan: it adds up, keeps its ratio and its strength, and survives going to stock. */
import fc from 'fast-check';
import { Amount } from '../../shared/amount.js';
import { count, decimal, sum, type Decimal } from '../../shared/decimal.js';
import { chooseDevelopers } from '../../shared/developers.js';
import type { MixProduct, MixRequest } from '../../shared/mix.js';
import { planMix } from '../../shared/mixing.js';
import { strengthOfBlend, strengthOfBottle } from '../../shared/strength.js';
import { gramsOf, stockQuantityOf } from '../../shared/units.js';
import { aDensity, aStrength, someGrams } from '../support/mixing-arbitraries.js';

const thousandth = decimal('0.001');
const near = (a: Decimal, b: Decimal, within: Decimal): boolean =>
  a.minus(b).abs().lessThanOrEqualTo(within);

/** Up to four powders by share, up to three developers by share, some additives. */
const aMix = fc
  .record({
    shares: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
    developers: fc.array(
      fc.record({ strength: aStrength, density: aDensity, share: fc.integer({ min: 1, max: 9 }) }),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    parts: fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 30 })),
    basis: fc.constantFrom('weight' as const, 'volume' as const),
    percent: fc.integer({ min: 1, max: 30 }),
    counted: fc.boolean(),
    dosesPer: fc.integer({ min: 5, max: 40 }),
    total: someGrams(60, 500),
  })
  .map((mix) => {
    const powders = mix.shares.map((share, index) => ({
      productId: `p${index}`,
      share: count(share),
    }));
    const developers = mix.developers.map(({ share }, index) => ({
      productId: `d${index}`,
      share: count(share),
    }));
    const products: MixProduct[] = [
      ...powders.map(({ productId }) => ({
        id: productId,
        kind: 'toner' as const,
        unit: 'g' as const,
      })),
      ...mix.developers.map(({ strength, density }, index) => ({
        id: `d${index}`,
        kind: 'developer' as const,
        unit: 'ml' as const,
        strength,
        density,
      })),
      { id: 'drops', kind: 'additive', unit: 'g' },
      { id: 'pump', kind: 'additive', unit: 'ml', dose: new Amount(count(1), 'ml') },
    ];
    const request: MixRequest = {
      ratio: mix.parts.join(':'),
      basis: mix.basis,
      powders,
      developers,
      additives: [
        { productId: 'drops', of: 'total', percent: count(mix.percent), counted: mix.counted },
        { productId: 'pump', dosesPer: count(mix.dosesPer), counted: mix.counted },
      ],
      size: { total: new Amount(mix.total, 'g') },
    };
    return { request, products, mix };
  });

test('a plan by total adds up to the total, to the thousandth of a gram', () => {
  fc.assert(
    fc.property(aMix, ({ request, products, mix }) => {
      const plan = planMix(request, products);
      const counted = plan.pours.filter((pour) => pour.counted);
      expect(sum(counted.map((pour) => pour.grams)).toFixed()).toBe(mix.total.toFixed());
      expect(plan.total.value.toFixed()).toBe(mix.total.toFixed());
      const all = sum(plan.pours.map((pour) => pour.grams));
      expect(plan.contents.value.equals(all)).toBe(true);
      expect(plan.pours.every((pour) => pour.grams.greaterThanOrEqualTo(0))).toBe(true);
    }),
  );
});

test('both sides keep the ratio of the request, by weight or by volume', () => {
  fc.assert(
    fc.property(aMix, ({ request, products, mix }) => {
      const plan = planMix(request, products);
      const powder = sum(
        plan.pours.filter((pour) => pour.side === 'powder').map((pour) => pour.grams),
      );
      const wet = plan.pours.filter((pour) => pour.side === 'developer');
      const developer =
        mix.basis === 'weight'
          ? sum(wet.map((pour) => pour.grams))
          : sum(wet.map((pour) => pour.millilitres ?? count(0)));
      const [left, right] = mix.parts;
      // cross products, each side rounded in up to four places of 0.001
      expect(near(powder.times(right), developer.times(left), decimal('0.3'))).toBe(true);
    }),
  );
});

test('the strength a plan states is what its pours make', () => {
  fc.assert(
    fc.property(aMix, ({ request, products }) => {
      const plan = planMix(request, products);
      const byId = new Map(products.map((each) => [each.id, each]));
      const made = strengthOfBlend(
        plan.pours
          .filter((pour) => pour.side === 'developer')
          .map((pour) => ({
            millilitres: pour.quantity,
            strength: strengthOfBottle(byId.get(pour.productId) ?? { id: '' }),
          })),
      );
      expect(near(made.volume, plan.strength?.volume ?? count(-1), decimal('0.2'))).toBe(true);
    }),
  );
});

test('the order of powders and developers changes no pour by more than 0.001 g', () => {
  fc.assert(
    fc.property(aMix, ({ request, products }) => {
      const turned = {
        ...request,
        powders: [...request.powders].reverse(),
        developers: [...(request.developers ?? [])].reverse(),
      };
      const there = planMix(request, products).pours;
      const back = new Map(
        planMix(turned, [...products].reverse()).pours.map((pour) => [pour.productId, pour.grams]),
      );
      for (const pour of there) {
        expect(near(pour.grams, back.get(pour.productId) ?? count(-1), thousandth)).toBe(true);
      }
    }),
  );
});

test('developers chosen for a strength make exactly that strength, or it is out of reach', () => {
  const shelf = fc.uniqueArray(aStrength, {
    minLength: 1,
    maxLength: 7,
    selector: (strength) => strength.toFixed(),
  });
  fc.assert(
    fc.property(shelf, aStrength, (strengths, target) => {
      const bottles = strengths.map((strength, index): MixProduct => {
        return { id: `d${index}`, kind: 'developer', unit: 'ml', strength };
      });
      const reachable =
        strengths.some((each) => each.lessThanOrEqualTo(target)) &&
        strengths.some((each) => each.greaterThanOrEqualTo(target));
      if (!reachable) {
        expect(() => chooseDevelopers(bottles, target)).toThrow(/reach from/);
        return;
      }
      const parts = chooseDevelopers(bottles, target);
      const made = strengthOfBlend(
        parts.map(({ product, parts: millilitres }) => ({
          millilitres,
          strength: strengthOfBottle(product),
        })),
      );
      expect(near(made.volume, target, decimal('0.000000000001'))).toBe(true);
      const reversed = chooseDevelopers([...bottles].reverse(), target);
      expect(reversed.map((each) => each.product.id)).toEqual(parts.map((each) => each.product.id));
    }),
  );
});

test('grams of stock and back lose at most half a thousandth of the stock unit', () => {
  fc.assert(
    fc.property(someGrams(0, 5000), aDensity, (grams, density) => {
      const product = { id: 'd', unit: 'ml' as const, density };
      const stock = stockQuantityOf(grams, product);
      const back = gramsOf(stock, 'ml', product).grams;
      expect(near(back, grams, density.times('0.0005'))).toBe(true);
      expect(stockQuantityOf(back, product).equals(stock)).toBe(true);
    }),
  );
});

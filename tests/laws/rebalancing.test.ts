/** Laws of rebalancing: shares come back, sizes stay, nothing is ever to be taken out. */
import fc from 'fast-check';
import { count, decimal, sum, zero, type Decimal } from '../../shared/decimal.js';
import type { MixProduct } from '../../shared/mix.js';
import {
  afterPour,
  keepTheSize,
  leaveIt,
  nextTargets,
  restore,
  thatsAll,
  type ToPour,
} from '../../shared/rebalancing.js';
import { bowlUnderway, type BowlUnderway, type SideLine } from '../../shared/underway.js';
import { someGrams } from '../support/mixing-arbitraries.js';

interface LineSketch {
  readonly target: Decimal;
  readonly poured: Decimal;
  readonly ranOut: boolean;
  readonly finished: boolean;
}

const aLine = (ranOut: fc.Arbitrary<boolean>): fc.Arbitrary<LineSketch> =>
  fc.record({
    target: someGrams(1, 120),
    poured: fc.oneof(fc.constant(zero), someGrams(0, 150)),
    ranOut,
    finished: fc.boolean(),
  });

/** A bowl with one to four powders and one to three developers, somewhere in its pouring. */
const aBowl = (ranOut: fc.Arbitrary<boolean> = fc.constant(false)): fc.Arbitrary<BowlUnderway> =>
  fc
    .tuple(
      fc.array(aLine(ranOut), { minLength: 1, maxLength: 4 }),
      fc.array(aLine(ranOut), { minLength: 1, maxLength: 3 }),
    )
    .map(([powders, developers]) => {
      const line =
        (side: SideLine['side'], kind: MixProduct['kind']) =>
        (sketch: LineSketch, index: number): SideLine => ({
          product: { id: `${side}${index}`, kind, unit: 'g', strength: count(10 * (index + 1)) },
          side,
          target_g: sketch.target,
          poured_g: sketch.poured,
          ranOut: sketch.ranOut,
          finished: sketch.finished || sketch.ranOut,
        });
      const lines = [
        ...powders.map(line('powder', 'toner')),
        ...developers.map(line('developer', 'developer')),
      ];
      const planned_g = sum(lines.map((each) => each.target_g));
      return { planned_g, basis: 'weight', lines, additives: [], unplanned: [] };
    });

const finalGrams = (bowl: BowlUnderway, toPour: readonly ToPour[]): Decimal[] =>
  bowl.lines.map((line, index) => line.poured_g.plus(toPour[index]?.grams ?? zero));
const noneBelowZero = (toPour: readonly ToPour[]): boolean =>
  toPour.every((each) => each.grams.greaterThanOrEqualTo(0));
const near = (a: Decimal, b: Decimal, within: string): boolean =>
  a.minus(b).abs().lessThanOrEqualTo(decimal(within));

test('restore brings back every share, to 0.001 g, and never shrinks the bowl', () => {
  fc.assert(
    fc.property(aBowl(), (bowl) => {
      const offer = restore(bowl);
      if (!offer) throw new Error('nothing ran out, so there is a restore');
      const final = finalGrams(bowl, offer.toPour);
      const whole = sum(final);
      expect(whole.greaterThanOrEqualTo(bowl.planned_g.minus('0.001'))).toBe(true);
      bowl.lines.forEach((line, index) => {
        const share = line.target_g.times(whole).dividedBy(bowl.planned_g);
        expect(near(final[index] ?? zero, share, '0.002')).toBe(true);
      });
    }),
  );
});

test('no offer ever asks to take something out, nor for what has run out', () => {
  fc.assert(
    fc.property(aBowl(fc.boolean()), (bowl) => {
      const offers = [
        restore(bowl),
        keepTheSize(bowl),
        leaveIt(bowl),
        ...bowl.lines.map((line) => thatsAll(bowl, line.product.id)),
        ...afterPour(bowl).offers,
      ].flatMap((offer) => offer ?? []);
      for (const { toPour } of [...offers, { toPour: nextTargets(bowl) }]) {
        expect(noneBelowZero(toPour)).toBe(true);
        const asked = toPour.filter((each, index) => {
          return bowl.lines[index]?.ranOut && each.grams.greaterThan(0);
        });
        expect(asked).toEqual([]);
      }
    }),
  );
});

test('keep the size ends at the planned size, or at what is in the bowl when that is more', () => {
  fc.assert(
    fc.property(aBowl(), (bowl) => {
      const final = sum(finalGrams(bowl, keepTheSize(bowl).toPour));
      const inBowl = sum(bowl.lines.map((line) => line.poured_g));
      const expected = inBowl.greaterThan(bowl.planned_g) ? inBowl : bowl.planned_g;
      expect(final.toFixed()).toBe(expected.toFixed());
    }),
  );
});

test("that's all keeps the shares where nobody has more than its own already", () => {
  fc.assert(
    fc.property(aBowl(), fc.nat(6), someGrams(1, 150), (bowl, pick, poured) => {
      const lines = bowl.lines.map((line, index) => ({
        ...line,
        poured_g: index === pick % bowl.lines.length ? poured : zero,
      }));
      const only = { ...bowl, lines };
      const short = lines[pick % lines.length];
      if (!short) return;
      const final = finalGrams(only, thatsAll(only, short.product.id).toPour);
      const whole = poured.times(bowl.planned_g).dividedBy(short.target_g);
      lines.forEach((line, index) => {
        const share = line.target_g.times(whole).dividedBy(bowl.planned_g);
        expect(near(final[index] ?? zero, share, '0.001')).toBe(true);
      });
    }),
  );
});

test('the order and the number of pours that made a bowl do not matter', () => {
  const sketch = fc.array(fc.tuple(fc.nat(2), someGrams(0, 40)), { maxLength: 8 });
  const products: MixProduct[] = [
    { id: 'p', kind: 'lightener', unit: 'g' },
    { id: 'd', kind: 'developer', unit: 'g', strength: count(20) },
    { id: 'water', kind: 'water', unit: 'ml' },
  ];
  const plan = {
    pours: [
      { productId: 'p', side: 'powder' as const, grams: count(30), counted: true },
      { productId: 'd', side: 'developer' as const, grams: count(60), counted: true },
    ].map((pour) => ({ ...pour, quantity: pour.grams, unit: 'g' as const })),
  };
  const ids = ['p', 'd', 'water'];
  fc.assert(
    fc.property(
      sketch.chain((pours) =>
        fc.tuple(fc.constant(pours), fc.shuffledSubarray(pours, { minLength: pours.length })),
      ),
      ([pours, shuffled]) => {
        const after = (list: typeof pours): unknown => {
          const weighed = list.map(([id, grams]) => ({ productId: ids[id] ?? 'p', grams }));
          const bowl = bowlUnderway(plan, {}, products, weighed);
          return [afterPour(bowl), restore(bowl), keepTheSize(bowl)];
        };
        expect(after(shuffled)).toEqual(after(pours));
      },
    ),
  );
});

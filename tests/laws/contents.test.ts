/** Laws of a bowl's contents: every split conserves every product and lot, exactly. */
import fc from 'fast-check';
import {
  contentsGrams,
  divideContents,
  splitLeftover,
  stillInBowl,
  type ContentLine,
  type ContentSplit,
} from '../../shared/contents.js';
import { count, decimal, sum, zero, type Decimal } from '../../shared/decimal.js';
import { aDensity } from '../support/mixing-arbitraries.js';

const aLot = fc.record({
  quantity: fc.integer({ min: 1, max: 80_000 }).map((each) => count(each).dividedBy(1000)),
  value: fc.integer({ min: 0, max: 20_000_000 }).map((each) => count(each).dividedBy(1_000_000)),
});

/** One to six pours of up to three lots; grams by density, so finer than 0.001 now and then. */
const aBowlful: fc.Arbitrary<ContentLine[]> = fc
  .array(fc.tuple(fc.array(aLot, { minLength: 1, maxLength: 3 }), aDensity), {
    minLength: 1,
    maxLength: 6,
  })
  .map((pours) =>
    pours.map(([lots, density], index) => {
      const quantity = sum(lots.map((lot) => lot.quantity));
      return {
        pourId: `pour-${index}`,
        productId: `product-${index % 3}`,
        quantity,
        grams: quantity.times(density),
        lots: lots.map((lot, at) => ({ ...lot, lotId: `lot-${index}-${at}` })),
      };
    }),
  );

/** A bowl, and a share of it in thousandths. */
const aPartOfABowl = fc.tuple(aBowlful, fc.integer({ min: 0, max: 1000 }));
const partOf = (contents: readonly ContentLine[], thousandths: number): Decimal =>
  contentsGrams(contents).times(thousandths).dividedBy(1000).toDecimalPlaces(3);

const same = (a: Decimal, b: Decimal): void => expect(a.toFixed()).toBe(b.toFixed());

function conserves(contents: readonly ContentLine[], split: ContentSplit): void {
  same(split.applied_g.plus(split.wasted_g), split.contents_g);
  same(sum(split.lines.map((line) => line.wasted.grams)), split.wasted_g);
  contents.forEach((line, index) => {
    const part = split.lines[index];
    if (!part) throw new Error('a pour was lost');
    same(part.applied.quantity.plus(part.wasted.quantity), line.quantity);
    same(part.applied.grams.plus(part.wasted.grams), line.grams);
    same(sum(part.lots.map((lot) => lot.wasted.quantity)), part.wasted.quantity);
    line.lots.forEach((lot, at) => {
      const pieces = [part.lots[at]?.applied, part.lots[at]?.wasted].flatMap((each) => each ?? []);
      same(sum(pieces.map((each) => each.quantity)), lot.quantity);
      same(sum(pieces.map((each) => each.value)), lot.value);
      for (const piece of pieces) {
        expect(piece.quantity.lessThan(0) || piece.value.lessThan(0)).toBe(false);
        expect(piece.quantity.decimalPlaces()).toBeLessThanOrEqual(3);
        expect(piece.value.decimalPlaces()).toBeLessThanOrEqual(6);
      }
    });
  });
}

test('applied and wasted add up to every pour and every lot, in quantity and in value', () => {
  fc.assert(
    fc.property(aPartOfABowl, ([contents, thousandths]) => {
      conserves(contents, splitLeftover(contents, partOf(contents, thousandths)));
    }),
  );
});

test('every pour is left over in the share of the whole, to half a thousandth', () => {
  fc.assert(
    fc.property(aPartOfABowl, ([contents, thousandths]) => {
      const split = splitLeftover(contents, partOf(contents, thousandths));
      for (const line of split.lines) {
        const whole = line.applied.quantity.plus(line.wasted.quantity);
        const off = line.wasted.quantity.minus(whole.times(split.share)).abs();
        expect(off.lessThanOrEqualTo('0.0005')).toBe(true);
      }
    }),
  );
});

test('interim weighing, division and settlement together conserve what was poured', () => {
  const shares = fc.tuple(fc.nat(1000), fc.integer({ min: 1, max: 1000 }), fc.nat(1000));
  fc.assert(
    fc.property(aBowlful, shares, (contents, [interim, division, last]) => {
      const first = splitLeftover(contents, partOf(contents, interim));
      const left = stillInBowl(first);
      const handed = partOf(left, division);
      if (!handed.greaterThan(0)) return;
      const { stays, handedOn } = divideContents(left, handed);
      const ends = [stays, handedOn].map((each) => splitLeftover(each, partOf(each, last)));
      const byLot = new Map<string, { quantity: Decimal; value: Decimal }>();
      const book = (lotId: string, quantity: Decimal, value: Decimal): void => {
        const before = byLot.get(lotId) ?? { quantity: zero, value: zero };
        byLot.set(lotId, {
          quantity: before.quantity.plus(quantity),
          value: before.value.plus(value),
        });
      };
      for (const lot of first.lines.flatMap((line) => line.lots)) {
        book(lot.lotId, lot.applied.quantity, lot.applied.value);
      }
      for (const lot of ends.flatMap((end) => end.lines).flatMap((line) => line.lots)) {
        book(lot.lotId, lot.applied.quantity, lot.applied.value);
        book(lot.lotId, lot.wasted.quantity, lot.wasted.value);
      }
      for (const lot of contents.flatMap((line) => line.lots)) {
        same(byLot.get(lot.lotId)?.quantity ?? zero, lot.quantity);
        same(byLot.get(lot.lotId)?.value ?? zero, lot.value);
      }
    }),
  );
});

test('the order of the pours moves no pour by more than a thousandth of its unit', () => {
  fc.assert(
    fc.property(aPartOfABowl, ([contents, thousandths]) => {
      const left = partOf(contents, thousandths);
      const there = splitLeftover(contents, left);
      const back = [...splitLeftover([...contents].reverse(), left).lines].reverse();
      there.lines.forEach((line, index) => {
        const other = back[index];
        same(line.wasted.quantity, other?.wasted.quantity ?? decimal('-1'));
        same(line.wasted.value, other?.wasted.value ?? decimal('-1'));
        const grams = line.wasted.grams.minus(other?.wasted.grams ?? zero).abs();
        expect(grams.lessThanOrEqualTo('0.001')).toBe(true);
      });
    }),
  );
});

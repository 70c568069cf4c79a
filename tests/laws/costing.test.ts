/** Laws of costing: whatever is drawn, in whatever steps, no lot or cent is lost or invented. */
import fc from 'fast-check';
import {
  deliveryLineCosts,
  drawLots,
  valueOfPart,
  type CostingMethod,
  type LotBalance,
} from '../../shared/costing.js';
import { canonical, count, sum, zero, type Decimal } from '../../shared/decimal.js';

const aQuantity = fc.integer({ min: 1, max: 2_000_000 }).map((n) => count(n).dividedBy(1000));
const aValue = fc.integer({ min: 0, max: 900_000_000 }).map((n) => count(n).dividedBy(1e6));
const aDay = fc.integer({ min: 1, max: 28 }).map((n) => `2026-03-${String(n).padStart(2, '0')}`);

const someLots: fc.Arbitrary<LotBalance[]> = fc
  .array(
    fc.record({
      quantity: aQuantity,
      value: aValue,
      expiresOn: fc.option(aDay),
      receivedOn: aDay,
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((lots) => lots.map((lot, index) => ({ ...lot, id: `lot-${index}` })));

const someDraws = fc.array(aQuantity, { minLength: 1, maxLength: 12 });
const aMethod = fc.constantFrom<CostingMethod>('fifo', 'average');

interface Shelf {
  lots: LotBalance[];
  value: Decimal;
  drawnValue: Decimal;
  drawnQuantity: Decimal;
}

/** Draws one after the other, keeping the books as the ledger does. */
function drawAll(lots: LotBalance[], quantities: readonly Decimal[], method: CostingMethod): Shelf {
  const shelf: Shelf = {
    lots,
    value: sum(lots.map((lot) => lot.value)),
    drawnValue: zero,
    drawnQuantity: zero,
  };
  for (const quantity of quantities) {
    const { draws, short } = drawLots(shelf.lots, quantity, {
      method,
      day: '2026-03-15',
      productValue: shelf.value,
      productQuantity: sum(shelf.lots.map((lot) => lot.quantity)),
    });
    const got = sum(draws.map((draw) => draw.quantity));
    const value = sum(draws.map((draw) => draw.value));
    expect(canonical(got.plus(short))).toBe(canonical(quantity));
    expect(draws.every((draw) => !draw.value.isNegative())).toBe(true);
    shelf.lots = shelf.lots.map((lot) => {
      const draw = draws.find((each) => each.lotId === lot.id);
      if (!draw) return lot;
      const left = method === 'fifo' ? lot.value.minus(draw.value) : lot.value;
      return { ...lot, quantity: lot.quantity.minus(draw.quantity), value: left };
    });
    shelf.value = shelf.value.minus(value);
    shelf.drawnValue = shelf.drawnValue.plus(value);
    shelf.drawnQuantity = shelf.drawnQuantity.plus(got);
    if (short.greaterThan(zero)) {
      expect(canonical(sum(shelf.lots.map((lot) => lot.quantity)))).toBe('0');
    }
  }
  return shelf;
}

test('quantity and value are conserved, and no lot goes below zero', () => {
  fc.assert(
    fc.property(someLots, someDraws, aMethod, (lots, quantities, method) => {
      const shelf = drawAll(lots, quantities, method);
      const before = sum(lots.map((lot) => lot.quantity));
      const left = sum(shelf.lots.map((lot) => lot.quantity));
      expect(canonical(left.plus(shelf.drawnQuantity))).toBe(canonical(before));
      const cost = sum(lots.map((lot) => lot.value));
      expect(canonical(shelf.drawnValue.plus(shelf.value))).toBe(canonical(cost));
      expect(shelf.lots.some((lot) => lot.quantity.lessThan(zero))).toBe(false);
      expect(shelf.value.lessThan(zero)).toBe(false);
    }),
  );
});

test('fifo: what was drawn from an emptied lot adds up to its cost exactly', () => {
  fc.assert(
    fc.property(someLots, someDraws, (lots, quantities) => {
      const shelf = drawAll(lots, quantities, 'fifo');
      for (const lot of shelf.lots) {
        expect(lot.value.lessThan(zero)).toBe(false);
        if (lot.quantity.isZero()) expect(canonical(lot.value)).toBe('0');
      }
    }),
  );
});

test('average: what was drawn from an emptied product adds up to its cost exactly', () => {
  fc.assert(
    fc.property(someLots, someDraws, (lots, quantities) => {
      const everything = [...quantities, sum(lots.map((lot) => lot.quantity))];
      const shelf = drawAll(lots, everything, 'average');
      expect(canonical(shelf.value)).toBe('0');
      expect(canonical(shelf.drawnValue)).toBe(canonical(sum(lots.map((lot) => lot.value))));
    }),
  );
});

test('lots are drawn in the same order however they are listed', () => {
  fc.assert(
    fc.property(someLots, aQuantity, (lots, quantity) => {
      const rule = { method: 'fifo', day: '2026-03-15' } as const;
      const listed = drawLots(lots, quantity, rule).draws.map((draw) => draw.lotId);
      const reversed = drawLots([...lots].reverse(), quantity, rule).draws;
      expect(reversed.map((draw) => draw.lotId)).toEqual(listed);
    }),
  );
});

test('a part is never worth less than nothing or more than the whole', () => {
  fc.assert(
    fc.property(aValue, aQuantity, aQuantity, (value, a, b) => {
      const [part, whole] = a.lessThan(b) ? [a, b] : [b, a];
      const worth = valueOfPart(value, part, whole);
      expect(worth.isNegative() && !worth.isZero()).toBe(false);
      expect(worth.lessThanOrEqualTo(value)).toBe(true);
    }),
  );
});

test('the costs of a delivery add up to its invoice, and none is below zero', () => {
  const lines = fc.array(fc.record({ price: aValue, quantity: aQuantity }), {
    minLength: 1,
    maxLength: 8,
  });
  const extras = fc.record({ freight: aValue, otherCost: aValue, nonRecoverableTax: aValue });
  const ofPrice = fc.integer({ min: 0, max: 100 });
  fc.assert(
    fc.property(lines, extras, ofPrice, (delivered, added, percent) => {
      const goods = sum(delivered.map((line) => line.price));
      const discount = goods.times(percent).dividedBy(100).toDecimalPlaces(6, 1);
      const costs = deliveryLineCosts(delivered, { ...added, discount });
      const invoice = goods
        .minus(discount)
        .plus(added.freight)
        .plus(added.otherCost)
        .plus(added.nonRecoverableTax);
      expect(canonical(sum(costs))).toBe(canonical(invoice));
      expect(costs.some((cost) => cost.lessThan(zero))).toBe(false);
    }),
  );
});

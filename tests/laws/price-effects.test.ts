/** Laws of price effects: nothing changed, nothing happens; money adds up; the margin is kept. */
import fc from 'fast-check';
import { minorUnit } from '../../shared/currency.js';
import { canonical, count, decimal, round, sum, type Decimal } from '../../shared/decimal.js';
import { effectOf, type RepricedVisit } from '../../shared/price-effects.js';
import { priceSheet } from '../../shared/pricing.js';
import type { SheetInput } from '../../shared/pricing-input.js';

const cents = (most: number) =>
  fc.integer({ min: 0, max: most }).map((n) => count(n).dividedBy(100));
const aCurrency = fc.constantFrom('JPY', 'EUR', 'TND');
const aMode = fc.constantFrom('inclusive' as const, 'exclusive' as const);

const aRule = fc.record({ currency: aCurrency, priceMode: aMode }).map((rule) => ({
  ...{ rounding: 'half_up' as const, taxBasis: 'invoice' as const, ...rule },
  taxes: [{ label: 'Tax', rate: decimal('0.23') }],
}));

function visit(money: SheetInput['money'], price: Decimal, value: Decimal): SheetInput {
  return {
    money,
    services: [{ id: 's', label: 'Roots', price: round(price, 0, 'ceiling') }],
    products: [
      { productId: 'p', label: 'P', kind: 'toner', quantity: count(40), unit: 'g', value },
    ],
    time: [{ label: 'T', minutes: count(30), ratePerHour: count(20) }],
    commissions: [{ label: 'C', rate: decimal('0.1'), base: 'net' }],
    cardFee: { share: decimal('0.015'), fixed: decimal('0') },
    chairMinutes: count(60),
  };
}

const someVisits = aRule.chain((money) =>
  fc.array(
    fc
      .tuple(cents(20_000), cents(1500), cents(1500))
      .map(([price, before, after]): RepricedVisit => ({
        before: visit(money, price.plus(60), before),
        after: visit(money, price.plus(60), after),
      })),
    { minLength: 1, maxLength: 12 },
  ),
);

test('where no price changed nothing happens', () => {
  fc.assert(
    fc.property(someVisits, (visits) => {
      const same = visits.map(({ before }) => ({ before, after: before }));
      const found = effectOf(same, { months: count(3) });
      expect(canonical(found?.perMonth ?? count(1))).toBe('0');
      expect(found?.product.before).toEqual(found?.product.after);
      expect(found?.price.before).toEqual(found?.price.after);
      expect(found?.margin.before).toEqual(found?.margin.after);
    }),
  );
});

test('money a month, over its months, is what all visits cost more, within the rounding', () => {
  fc.assert(
    fc.property(someVisits, fc.integer({ min: 1, max: 24 }), (visits, months) => {
      const found = effectOf(visits, { months: count(months) });
      const cost = (side: 'before' | 'after') =>
        sum(visits.map((each) => priceSheet(each[side]).totals.product));
      const off = found?.perMonth.times(months).minus(cost('after').minus(cost('before')));
      const unit = minorUnit(visits[0]?.before.money.currency ?? 'EUR');
      expect(off?.abs().lessThanOrEqualTo(unit.times(months).dividedBy(2))).toBe(true);
    }),
  );
});

test('at the price found for one visit the margin of before is reached, a step below not', () => {
  fc.assert(
    fc.property(aRule, cents(20_000), cents(1500), cents(1500), (money, price, ...values) => {
      const [before, after] = values.map((value) => visit(money, price.plus(60), value)) as [
        SheetInput,
        SheetInput,
      ];
      const step = count(1);
      const found = effectOf([{ before, after }], { months: count(1), step });
      const asked = found?.price.after;
      if (!found?.target || !asked) throw new Error('no price');
      const { target } = found;
      const beyond = (at: Decimal) => {
        const services = [{ id: 's', label: 'Roots', price: at }];
        const { profit, net } = priceSheet({ ...after, services }).totals;
        return profit.minus(net.times(target));
      };
      // tax, fee and commission are each rounded by themselves; the margin at 6 decimals
      const noise = minorUnit(money.currency).times(5);
      expect(beyond(asked).greaterThanOrEqualTo(noise.negated())).toBe(true);
      expect(beyond(asked.minus(step)).lessThanOrEqualTo(noise)).toBe(true);
    }),
  );
});

test('no visit, no effect', () => {
  expect(effectOf([], { months: count(3) })).toBeUndefined();
});

/** Laws of pricing: every sheet adds up to the minor unit; a target price gives the target back. */
import fc from 'fast-check';
import { minorDigits, minorUnit } from '../../shared/currency.js';
import { canonical, count, one, round, sum, zero, type Decimal } from '../../shared/decimal.js';
import { priceSheet, type PriceSheet } from '../../shared/pricing.js';
import type { CommissionBase, MoneyRule, SheetInput } from '../../shared/pricing-input.js';
import type { LineKind } from '../../shared/pricing-lines.js';
import { targetBasisOf, targetPrice } from '../../shared/pricing-target.js';

/** An amount of up to `most`, with `places` decimals. */
function upTo(most: number, places: number): fc.Arbitrary<Decimal> {
  return fc
    .integer({ min: 0, max: most * 10 ** places })
    .map((n) => count(n).dividedBy(count(10 ** places)));
}

const aMoneyRule: fc.Arbitrary<MoneyRule> = fc.record({
  currency: fc.constantFrom('JPY', 'EUR', 'TND'),
  rounding: fc.constantFrom('half_even' as const, 'half_up' as const),
  priceMode: fc.constantFrom('inclusive' as const, 'exclusive' as const),
  taxes: fc.array(fc.record({ label: fc.constant('Tax'), rate: upTo(0.25, 4) }), { maxLength: 2 }),
  taxBasis: fc.constantFrom('line' as const, 'invoice' as const),
});

const someProducts = fc.array(
  fc
    .record({
      value: upTo(30, 6),
      replacementValue: fc.option(upTo(30, 6)),
      grams: upTo(120, 1),
      leftShare: upTo(1, 2),
      borneBy: fc.constantFrom('visit' as const, 'visit' as const, 'studio' as const),
    })
    .map(({ leftShare, ...use }) => ({
      ...use,
      productId: 'p',
      label: 'Product',
      kind: 'lightener',
      quantity: use.grams,
      unit: 'g',
      appliedGrams: use.grams.times(one.minus(leftShare)),
    })),
  { maxLength: 6 },
);

const someCommissions = fc.array(
  fc.record({
    label: fc.constant('Person'),
    rate: upTo(0.4, 3),
    base: fc.constantFrom<CommissionBase>('gross', 'net', 'net_less_product'),
  }),
  { maxLength: 2 },
);

const aCardFee = fc.record({ share: upTo(0.05, 4), fixed: upTo(1, 2) });

const aVisit: fc.Arbitrary<SheetInput> = aMoneyRule.chain((money) => {
  const places = minorDigits(money.currency);
  return fc.record({
    money: fc.constant(money),
    services: fc.array(
      upTo(300, places).map((price) => ({
        id: 's',
        label: 'Service',
        price,
        inThePrice: [{ kind: 'lightener', grams: count(40) }],
      })),
      { maxLength: 4 },
    ),
    discounts: fc.array(
      fc.record({
        label: fc.constant('Off'),
        of: fc.constantFrom('menu' as const, 'all' as const),
        share: upTo(0.4, 3),
      }),
      { maxLength: 2 },
    ),
    products: someProducts,
    onTop: fc.constantFrom(
      [],
      [{ kind: 'lightener', by: 'gram' as const, ratePerGram: count(1).dividedBy(7) }],
      [{ kind: 'lightener', by: 'cost' as const, markup: count(2) }],
    ),
    sundries: fc.array(
      upTo(3, 6).map((value) => ({ label: 'Foils', quantity: count(1), unit: 'piece', value })),
      { maxLength: 3 },
    ),
    time: fc.array(
      fc.record({ label: fc.constant('P'), minutes: upTo(180, 0), ratePerHour: upTo(60, 2) }),
      { maxLength: 2 },
    ),
    chairMinutes: upTo(240, 0),
    overheadPerHour: upTo(20, 2),
    cardFee: aCardFee,
    commissions: someCommissions,
  });
});

function linesOf(sheet: PriceSheet, ...kinds: LineKind[]): Decimal {
  return sum(sheet.lines.filter(({ kind }) => kinds.includes(kind)).map((line) => line.amount));
}

test('every sheet adds up to the minor unit, in currencies of 0, 2 and 3 digits', () => {
  fc.assert(
    fc.property(aVisit, (visit) => {
      const sheet = priceSheet(visit);
      const { totals } = sheet;
      const places = minorDigits(visit.money.currency);
      const equal = (a: Decimal, b: Decimal) => expect(canonical(a)).toBe(canonical(b));
      const charged = linesOf(sheet, 'menu', 'on_top', 'discount');
      equal(charged, visit.money.priceMode === 'inclusive' ? totals.gross : totals.net);
      equal(linesOf(sheet, 'tax'), totals.tax);
      equal(totals.net.plus(totals.tax), totals.gross);
      equal(linesOf(sheet, 'product'), totals.product);
      equal(linesOf(sheet, 'not_charged'), totals.notCharged);
      equal(linesOf(sheet, 'sundry'), totals.sundries);
      equal(linesOf(sheet, 'time'), totals.time);
      equal(linesOf(sheet, 'overhead'), totals.overhead);
      equal(linesOf(sheet, 'product', 'sundry', 'time', 'overhead'), totals.cost);
      equal(linesOf(sheet, 'fee'), totals.fee);
      equal(linesOf(sheet, 'commission'), totals.commission);
      const spent = sum([totals.cost, totals.fee, totals.commission]);
      equal(totals.net.minus(spent), totals.profit);
      equal(totals.contribution.minus(totals.overhead), totals.profit);
      equal(linesOf(sheet, 'contribution'), totals.contribution);
      equal(linesOf(sheet, 'to_the_till'), totals.gross);
      const whole = (value: Decimal) => round(value, places, 'down').equals(value);
      expect(sheet.lines.every((line) => whole(line.amount))).toBe(true);
    }),
  );
});

test('product on the sheet is the ledger’s value, rounded once', () => {
  fc.assert(
    fc.property(aVisit, (visit) => {
      const borne = (visit.products ?? []).filter(({ borneBy }) => borneBy === 'visit');
      const { currency, rounding } = visit.money;
      const once = round(sum(borne.map(({ value }) => value)), minorDigits(currency), rounding);
      expect(canonical(priceSheet(visit).totals.product)).toBe(canonical(once));
    }),
  );
});

test('no discount and no tax rule makes a price negative', () => {
  fc.assert(
    fc.property(aVisit, (visit) => {
      const { totals } = priceSheet(visit);
      expect(totals.gross.lessThan(zero)).toBe(false);
      expect(totals.net.lessThan(zero)).toBe(false);
    }),
  );
});

/** A visit without charges of its own: only what it costs. */
function onlyCosts(visit: SheetInput): SheetInput {
  return { ...visit, services: [], discounts: [], onTop: [] };
}

/** The sheet of that visit at one menu price. */
function sheetAt(visit: SheetInput, price: Decimal): PriceSheet {
  return priceSheet({ ...visit, services: [{ id: 's', label: 'Service', price }] });
}

/** What taxes, fee and commissions, each rounded itself, may move: half a unit each, and tax. */
function roundingNoise(visit: SheetInput): Decimal {
  const rounded = 2 + (visit.commissions ?? []).length + (visit.money.taxes ?? []).length * 2;
  return minorUnit(visit.money.currency).times(rounded);
}

const modes = ['inclusive', 'exclusive'] as const;
const bases: readonly CommissionBase[] = ['gross', 'net', 'net_less_product'];
const fees = [true, false];
const combinations = modes.flatMap((priceMode) =>
  bases.flatMap((base) => fees.map((withFee) => ({ priceMode, base, withFee }))),
);

describe.each(combinations)('prices $priceMode, commission on $base, fee $withFee', (each) => {
  const aCase = fc.record({
    visit: aVisit.map((visit): SheetInput => {
      const { cardFee, ...rest } = onlyCosts(visit);
      return {
        ...rest,
        money: { ...visit.money, priceMode: each.priceMode },
        commissions: (visit.commissions ?? []).slice(0, 1).map((c) => ({ ...c, base: each.base })),
        ...(each.withFee && cardFee ? { cardFee } : {}),
      };
    }),
    step: fc.constantFrom('1', '5', '10').map((step) => count(parseInt(step, 10))),
  });

  test('a target margin is given back within one step', () => {
    fc.assert(
      fc.property(aCase, upTo(0.4, 3), ({ visit, step }, margin) => {
        const { price } = targetPrice(targetBasisOf(visit, step), { margin });
        const profitBeyond = (at: Decimal): Decimal => {
          const { profit, net } = sheetAt(visit, at).totals;
          return profit.minus(net.times(margin));
        };
        const noise = roundingNoise(visit);
        expect(profitBeyond(price).greaterThanOrEqualTo(noise.negated())).toBe(true);
        if (price.greaterThanOrEqualTo(step)) {
          expect(profitBeyond(price.minus(step)).lessThanOrEqualTo(noise)).toBe(true);
        }
        expect(canonical(price.modulo(step))).toBe('0');
      }),
      { numRuns: 60 },
    );
  });

  test('a target contribution an hour is given back within one step', () => {
    fc.assert(
      fc.property(aCase, upTo(80, 0), ({ visit, step }, perHour) => {
        const minutes = count(90);
        const basis = { ...targetBasisOf(visit, step), chairMinutes: minutes };
        const { price } = targetPrice(basis, { contributionPerHour: perHour });
        const beyond = (at: Decimal): Decimal =>
          sheetAt(visit, at).totals.contribution.minus(perHour.times(minutes).dividedBy(60));
        const noise = roundingNoise(visit);
        expect(beyond(price).greaterThanOrEqualTo(noise.negated())).toBe(true);
        if (price.greaterThanOrEqualTo(step)) {
          expect(beyond(price.minus(step)).lessThanOrEqualTo(noise)).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('what stands beside a target is what the sheet at that price says', () => {
    fc.assert(
      fc.property(aCase, upTo(0.4, 3), ({ visit, step }, margin) => {
        const target = targetPrice(targetBasisOf(visit, step), { margin });
        const { totals } = sheetAt(visit, target.price);
        for (const name of ['net', 'gross', 'fee', 'commission', 'profit'] as const) {
          expect(canonical(target[name])).toBe(canonical(totals[name]));
        }
      }),
      { numRuns: 60 },
    );
  });
});

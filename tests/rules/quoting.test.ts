/** Points of a quote, how far quotes held, past visits at today's prices; worked out by hand. */
import { canonical, count, decimal, zero, type Decimal } from '../../shared/decimal.js';
import { Problem } from '../../shared/problems/problem.js';
import type { SheetInput } from '../../shared/pricing-input.js';
import {
  heldBy,
  mixedGrams,
  pointsOf,
  quote,
  repriced,
  type PastVisit,
  type PriceToday,
} from '../../shared/quoting.js';

const values = (text: string): Decimal[] =>
  text === '' ? [] : text.split(' ').map((each) => decimal(each));
const oneTo = (n: number) => Array.from({ length: n }, (_, index) => index + 1).join(' ');

test.each([
  // places (n + 1) / 10 down, (n + 1) / 2 up, 9 (n + 1) / 10 up
  { seen: oneTo(9), points: ['1', '5', '9'] },
  { seen: oneTo(10), points: ['1', '6', '10'] },
  { seen: oneTo(19), points: ['2', '10', '18'] },
  { seen: oneTo(99), points: ['10', '50', '90'] },
  { seen: '7', points: ['7', '7', '7'] },
  { seen: '120 100', points: ['100', '120', '120'] },
  { seen: '60 60 60 62 60', points: ['60', '60', '62'] },
])('points of $seen are $points', ({ seen, points }) => {
  const found = pointsOf(values(seen));
  expect(found && [found.low, found.likely, found.high].map(canonical)).toEqual(points);
});

test('no like visit, no points', () => {
  expect(pointsOf([])).toBeNull();
});

test.each([
  { seen: oneTo(9), held: { visits: 0, atOrUnder: 0, inside: 0 } },
  { seen: `${oneTo(9)} 5`, held: { visits: 1, atOrUnder: 1, inside: 1 } },
  { seen: `${oneTo(9)} 5 20`, held: { visits: 2, atOrUnder: 1, inside: 1 } },
  { seen: `${oneTo(9)} 0.5`, held: { visits: 1, atOrUnder: 1, inside: 0 } },
  // after 20 came, 20 is the highest of ten
  { seen: `${oneTo(9)} 20 20`, held: { visits: 2, atOrUnder: 1, inside: 1 } },
])('visits $seen, quoted by those before each: $held', ({ seen, held }) => {
  expect(heldBy(values(seen))).toEqual(held);
});

const today: PriceToday = {
  money: {
    ...{ currency: 'EUR', rounding: 'half_up', priceMode: 'inclusive', taxBasis: 'invoice' },
    taxes: [{ label: 'VAT', rate: decimal('0.2') }],
  },
  services: [
    {
      ...{ id: 's', label: 'Roots', price: decimal('60') },
      inThePrice: [{ kind: 'lightener', grams: decimal('60') }],
    },
  ],
  onTop: [{ kind: 'lightener', by: 'gram', ratePerGram: decimal('0.2') }],
  measuredOn: 'applied',
};

function past(applied: string, rest: Partial<PastVisit> = {}): PastVisit {
  return {
    products: [
      {
        ...{ productId: 'p', label: 'Powder', kind: 'lightener', bowlId: 'b', unit: 'g' },
        ...{ quantity: decimal('80'), value: decimal('2.4'), grams: decimal('80') },
        appliedGrams: decimal(applied),
      },
    ],
    ...{ minutes: count(120), handsOnMinutes: count(75), grams: decimal('80'), started: count(1) },
    ...rest,
  };
}

test.each([
  { rule: 'by gram', applied: '72', gross: '62.88' }, // 12 g x 0.20 x 1.20 = 2.88
  { rule: 'by gram', applied: '60', gross: '60' },
  { rule: 'by cost', applied: '80', gross: '61.08' }, // 2.40 x 20 / 80 x 1.5 x 1.2 = 1.08
])('$applied g applied, charged $rule, come to $gross today', ({ rule, applied, gross }) => {
  const byCost = { kind: 'lightener', by: 'cost', markup: decimal('0.5') } as const;
  const asked = rule === 'by cost' ? { ...today, onTop: [byCost] } : today;
  expect(canonical(repriced(past(applied), asked))).toBe(gross);
});

test('a quote has the menu alone beside the points of price, grams, bowls and minutes', () => {
  const visits = [past('72', { minutes: count(150) }), past('60'), past('65')];
  const found = quote(visits, today);
  expect(found).toMatchObject({ visits: 3, enough: false, held: { visits: 0 } });
  expect(found.menu).toEqual({ net: decimal('50'), tax: decimal('10'), gross: decimal('60') });
  const shown = (points: typeof found.price) =>
    points && [points.low, points.likely, points.high].map(canonical);
  expect(shown(found.price)).toEqual(['60', '61.2', '62.88']); // 5 g x 0.20 x 1.20
  expect(shown(found.minutes)).toEqual(['120', '120', '150']);
  expect(shown(found.bowls)).toEqual(['1', '1', '1']);
});

test('without a like visit there is only the menu; without a tax rule nothing', () => {
  expect(quote([], today)).toMatchObject({ price: null, grams: null, visits: 0, enough: false });
  const untaxed = { ...today, money: { ...today.money, taxes: null } };
  expect(() => quote([], untaxed)).toThrow(new Problem('no_tax_rule', {}));
});

test('grams are those of bowls that the visit bears', () => {
  const use = (grams: string, rest: object) => ({
    ...{ productId: 'p', label: 'P', kind: 'toner', unit: 'g', value: zero },
    ...{ quantity: decimal(grams), grams: decimal(grams), ...rest },
  });
  const products: SheetInput['products'] = [
    use('40', { bowlId: 'b' }),
    use('25', { bowlId: 'c', borneBy: 'studio' }),
    use('10', { bowlId: null }),
    use('30.5', { bowlId: 'd' }),
  ];
  expect(canonical(mixedGrams(products))).toBe('70.5');
});

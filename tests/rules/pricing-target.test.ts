/** Target price: worked out by hand for each target, and the targets that cannot be reached. */
import { canonical, decimal, zero, type Decimal } from '../../shared/decimal.js';
import { targetPrice, type Target, type TargetBasis } from '../../shared/pricing-target.js';
import { refused } from '../support/refused.js';

const basis: TargetBasis = {
  money: {
    currency: 'EUR',
    rounding: 'half_even',
    priceMode: 'inclusive',
    taxes: [{ label: 'Tax', rate: decimal('0.2') }],
    taxBasis: 'invoice',
  },
  cost: {
    product: decimal('10'),
    sundries: decimal('1'),
    time: decimal('30'),
    overhead: decimal('18'),
  },
  cardFee: { share: decimal('0.015'), fixed: decimal('0.10') },
  commissions: [{ label: 'Ines', rate: decimal('0.1'), base: 'gross' }],
  chairMinutes: decimal('120'),
  step: decimal('5'),
};

test('a margin of 40 %: 59.10 / (1 - 0.4 - 0.018 - 0.12) x 1.2 = 153.51, in steps of 5', () => {
  const price = targetPrice(basis, { margin: decimal('0.4') });
  expect(
    Object.entries(price).map(([name, value]) => [
      name,
      canonical((value as Decimal | null) ?? zero),
    ]),
  ).toEqual([
    ['price', '155'],
    ['net', '129.17'],
    ['tax', '25.83'],
    ['gross', '155'],
    ['fee', '2.42'],
    ['commission', '15.5'],
    ['contribution', '70.25'],
    ['profit', '52.25'],
    ['margin', '0.404506'],
    ['contributionPerHour', '35.12'],
    ['productMarkup', '11.917'],
  ]);
});

test.each<{ name: string; change: Partial<TargetBasis>; target: Target; price: string }>([
  {
    name: '20 an hour for 2 h: (41.10 + 40) / 0.862 x 1.2 = 112.90',
    change: {},
    target: { contributionPerHour: decimal('20') },
    price: '115',
  },
  {
    name: 'product x (1 + 9): 100 x 1.2',
    change: {},
    target: { productMarkup: decimal('9') },
    price: '120',
  },
  {
    name: 'commission on net less product: (59.10 - 1) / (1 - 0.4 - 0.018 - 0.1) x 1.2 = 144.65',
    change: {
      commissions: [{ label: 'Ines', rate: decimal('0.1'), base: 'net_less_product' }],
      step: decimal('0.01'),
    },
    target: { margin: decimal('0.4') },
    price: '144.65',
  },
  {
    name: 'net prices: 59.10 / 0.462 = 127.92',
    change: { money: { ...basis.money, priceMode: 'exclusive' } },
    target: { margin: decimal('0.4') },
    price: '130',
  },
  {
    name: 'a price that is on a step stays: 60 / (1 - 0.4) = 100',
    change: {
      money: { ...basis.money, taxes: [] },
      cost: { ...basis.cost, time: decimal('31') },
      cardFee: { share: zero, fixed: zero },
      commissions: [],
    },
    target: { margin: decimal('0.4') },
    price: '100',
  },
])('$name -> $price', ({ change, target, price }) => {
  expect(canonical(targetPrice({ ...basis, ...change }, target).price)).toBe(price);
});

test('a margin out of reach is refused with the highest: 1 - 0.018 - 0.12', () => {
  const problem = refused(() => targetPrice(basis, { margin: decimal('0.862') }));
  expect(problem).toMatchObject({
    code: 'margin_unreachable',
    facts: { target: '0.862', highest: '0.862' },
  });
  expect(problem?.message).toContain('86.2 %');
});

test.each<{ name: string; change: Partial<TargetBasis>; target: Target; code: string }>([
  {
    name: 'fee and commission of all there is',
    change: { commissions: [{ label: 'Ines', rate: decimal('0.99'), base: 'net' }] },
    target: { contributionPerHour: decimal('1') },
    code: 'contribution_unreachable',
  },
  {
    name: 'an hour that there is not',
    change: { chairMinutes: zero },
    target: { contributionPerHour: decimal('1') },
    code: 'no_chair_time',
  },
  {
    name: 'a markup on no product',
    change: { cost: { ...basis.cost, product: zero } },
    target: { productMarkup: decimal('1') },
    code: 'no_product_to_mark_up',
  },
  {
    name: 'a product without a cost',
    change: { noCost: ['Developer 20 vol'] },
    target: { margin: decimal('0.4') },
    code: 'no_cost_yet',
  },
])('$name is refused', ({ change, target, code }) => {
  expect(refused(() => targetPrice({ ...basis, ...change }, target))).toMatchObject({ code });
});

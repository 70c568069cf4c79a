/** Price sheet: one visit worked out by hand, line by line, and the rules around it. */
import { canonical, decimal, zero, type Decimal } from '../../shared/decimal.js';
import { priceSheet } from '../../shared/pricing.js';
import type { MoneyRule, OnTopRule, SheetInput } from '../../shared/pricing-input.js';
import { refused } from '../support/refused.js';

const money: MoneyRule = {
  currency: 'EUR',
  rounding: 'half_even',
  priceMode: 'inclusive',
  taxes: [{ label: 'Tax', rate: decimal('0.2') }],
  taxBasis: 'invoice',
};

const powder = {
  productId: 'powder',
  label: 'Lightening powder',
  kind: 'lightener',
  bowlId: 'front',
  quantity: decimal('90'),
  unit: 'g',
  value: decimal('7.123456'),
  replacementValue: decimal('7.5'),
  grams: decimal('90'),
  appliedGrams: decimal('72'),
};

const developer = {
  productId: 'dev-20',
  label: 'Developer 20 vol',
  kind: 'developer',
  bowlId: 'front',
  quantity: decimal('180'),
  unit: 'ml',
  value: decimal('3.456789'),
  replacementValue: decimal('3.6'),
};

/** A visit at Saltmarsh Row: two services, ten per cent off, twelve grams on top. */
const visit: SheetInput = {
  money,
  services: [
    {
      id: 'highlights',
      label: 'Highlights',
      price: decimal('120'),
      inThePrice: [{ kind: 'lightener', grams: decimal('40') }],
    },
    {
      id: 'gloss',
      label: 'Gloss',
      price: decimal('36'),
      inThePrice: [{ kind: 'lightener', grams: decimal('20') }],
    },
  ],
  discounts: [{ label: 'Regular client', share: decimal('0.1') }],
  products: [powder, developer],
  onTop: [{ kind: 'lightener', by: 'gram', ratePerGram: decimal('0.20') }],
  sundries: [{ label: 'Foils', quantity: decimal('40'), unit: 'piece', value: decimal('1.205') }],
  time: [{ label: 'Ines', minutes: decimal('75'), ratePerHour: decimal('24') }],
  chairMinutes: decimal('120'),
  overheadPerHour: decimal('9'),
  cardFee: { share: decimal('0.015'), fixed: decimal('0.10') },
  commissions: [{ label: 'Ines', rate: decimal('0.1'), base: 'net_less_product' }],
};

function plain(totals: object): Record<string, string | null> {
  return Object.fromEntries(
    Object.entries(totals).map(([name, value]) => [
      name,
      value === null ? null : canonical(value as Decimal),
    ]),
  );
}

test('a visit adds up as it does by hand', () => {
  expect(plain(priceSheet(visit).totals)).toEqual({
    gross: '143.28', // 120 + 36 - 15.60 + 12 x 0.20 x 1.2
    tax: '23.88', // 143.28 x 0.2 / 1.2
    net: '119.4',
    product: '10.58', // 7.123456 + 3.456789
    sundries: '1.2', // 1.205, half-even
    time: '30', // 75 min at 24
    overhead: '18', // 120 min at 9
    cost: '59.78',
    fee: '2.25', // 143.28 x 0.015 + 0.10 = 2.2492
    commission: '10.88', // (119.40 - 10.58) x 0.1
    contribution: '64.49', // 119.40 - 10.58 - 1.20 - 30 - 2.25 - 10.88
    profit: '46.49',
    margin: '0.389363',
    notCharged: '0',
    replacementProduct: '11.1',
    due: '143.28',
    tip: '0',
    cashRounding: '0',
    toTheTill: '143.28',
  });
});

test('lines are set to their total by largest remainder, with inputs and words', () => {
  const { lines } = priceSheet(visit);
  const product = lines.filter((line) => line.kind === 'product');
  expect(product.map((line) => canonical(line.amount))).toEqual(['7.12', '3.46']);
  expect(product.map((line) => canonical(line.replacementAmount ?? zero))).toEqual(['7.5', '3.6']);
  expect(lines.find((line) => line.kind === 'on_top')).toMatchObject({
    inputs: [
      { name: 'applied', value: '72', unit: 'g' },
      { name: 'in the price', value: '60', unit: 'g' },
      { name: 'rate', value: '0.2', unit: 'EUR/g' },
      { name: 'taxes', value: '0.2', unit: 'share' },
    ],
    formula: '((applied - in the price) x rate) x (1 + taxes)',
  });
});

test.each<{ name: string; rule: OnTopRule; change: Partial<SheetInput>; amount: string }>([
  {
    name: 'by gram of what was mixed, where the studio counts so: (90 - 60) x 0.20 x 1.2',
    rule: { kind: 'lightener', by: 'gram', ratePerGram: decimal('0.20') },
    change: { measuredOn: 'mixed' },
    amount: '7.2',
  },
  {
    name: 'by cost: 7.123456 x 72/90 x 12/72 x 1.5 x 1.2',
    rule: { kind: 'lightener', by: 'cost', markup: decimal('0.5') },
    change: {},
    amount: '1.71',
  },
  {
    name: 'by started bowl, the studio’s own not counted: 2 bowls x 6 x 1.2',
    rule: { kind: 'lightener', by: 'bowl', ratePerBowl: decimal('6') },
    change: {
      bowls: [
        { id: '1', kind: 'lightener' },
        { id: '2', kind: 'lightener' },
        { id: '3', kind: 'lightener', borneBy: 'studio' },
        { id: '4', kind: 'toner' },
      ],
    },
    amount: '14.4',
  },
])('on top $name', ({ rule, change, amount }) => {
  const { lines } = priceSheet({ ...visit, ...change, discounts: [], onTop: [rule] });
  const onTop = lines.filter((line) => line.kind === 'on_top');
  expect(onTop.map((line) => canonical(line.amount))).toEqual([amount]);
});

test('on top is net, and stays net where prices are net', () => {
  const { lines } = priceSheet({ ...visit, money: { ...money, priceMode: 'exclusive' } });
  expect(canonical(lines.find((line) => line.kind === 'on_top')?.amount ?? zero)).toBe('2.4');
});

test('a discount on all reaches what is on top; one on the menu does not', () => {
  const discount = (of: 'menu' | 'all') =>
    priceSheet({ ...visit, discounts: [{ label: 'Off', of, share: decimal('0.1') }] }).totals.gross;
  expect(canonical(discount('menu'))).toBe('143.28');
  expect(canonical(discount('all'))).toBe('142.99'); // 158.88 x 0.9 = 142.992
});

test('per line, a discount is shared over its lines before they are taxed', () => {
  const { totals } = priceSheet({
    money: { ...money, priceMode: 'exclusive', taxBasis: 'line', rounding: 'half_up' },
    services: [
      { id: 'a', label: 'A', price: decimal('10.03') },
      { id: 'b', label: 'B', price: decimal('10.03') },
    ],
    discounts: [{ label: 'Off', amount: decimal('0.01') }],
  });
  // 10.02 and 10.03: 2.004 -> 2.00 and 2.006 -> 2.01
  expect([canonical(totals.net), canonical(totals.tax)]).toEqual(['20.05', '4.01']);
});

test('no margin is shown while a product has no cost, and the sheet says which', () => {
  const sheet = priceSheet({ ...visit, products: [powder, { ...developer, noCost: true }] });
  expect(sheet.totals.margin).toBeNull();
  expect(sheet.noCost).toEqual([{ productId: 'dev-20', label: 'Developer 20 vol' }]);
  expect(sheet.notes.find((note) => note.code === 'no_cost')?.text).toContain('1 product has');
});

test('what the studio bears is shown, not charged, and in no cost', () => {
  const { totals } = priceSheet({
    ...visit,
    products: [powder, { ...developer, borneBy: 'studio' }],
  });
  expect(canonical(totals.product)).toBe('7.12');
  expect(canonical(totals.notCharged)).toBe('3.46');
});

test('replacement cost is none where one product has none', () => {
  const sheet = priceSheet({
    ...visit,
    products: [powder, { ...developer, replacementValue: null }],
  });
  expect(sheet.totals.replacementProduct).toBeNull();
});

test('in cash the total goes to the coin, outside tax; the fee is on cards alone', () => {
  const { totals } = priceSheet({
    ...visit,
    money: { ...money, currency: 'CHF' },
    payments: [
      { method: 'card', amount: decimal('100.01') },
      { method: 'cash', amount: decimal('43.25') },
    ],
  });
  expect(canonical(totals.fee)).toBe('1.6');
  expect(canonical(totals.cashRounding)).toBe('-0.02'); // 43.27 -> 43.25
  expect(canonical(totals.toTheTill)).toBe('143.26');
  expect(canonical(totals.tax)).toBe('23.88');
});

test('deposits lower what is due, tips stand beside it, neither touches net or margin', () => {
  const { totals } = priceSheet({
    ...visit,
    payments: [{ method: 'card', amount: decimal('123.28') }],
    deposits: [{ label: 'Voucher', amount: decimal('20') }],
    tip: { method: 'card', amount: decimal('10') },
  });
  expect(canonical(totals.due)).toBe('123.28');
  expect(canonical(totals.toTheTill)).toBe('133.28');
  expect(canonical(totals.net)).toBe('119.4');
  expect(canonical(totals.fee)).toBe('2.1'); // 133.28 x 0.015 + 0.10 = 2.0992
});

test.each<{ name: string; change: Partial<SheetInput>; code: string; pointer?: string }>([
  {
    name: 'an unknown currency',
    change: { money: { ...money, currency: 'EURO' } },
    code: 'unknown_currency',
  },
  {
    name: 'prices without a tax rule',
    change: { money: { ...money, taxes: null } },
    code: 'no_tax_rule',
  },
  {
    name: 'a negative rate',
    change: { time: [{ label: 'Ines', minutes: decimal('5'), ratePerHour: decimal('-1') }] },
    code: 'negative_amount',
    pointer: '/time/0/ratePerHour',
  },
  {
    name: 'a commission of more than all',
    change: { commissions: [{ label: 'Ines', rate: decimal('45'), base: 'net' }] },
    code: 'rate_out_of_range',
    pointer: '/commissions/0/rate',
  },
  {
    name: 'a discount above the menu',
    change: { discounts: [{ label: 'Off', amount: decimal('156.01') }] },
    code: 'discount_above_price',
    pointer: '/discounts/0',
  },
])('$name is refused', ({ change, code, pointer }) => {
  const problem = refused(() => priceSheet({ ...visit, ...change }));
  expect(problem).toMatchObject(pointer === undefined ? { code } : { code, pointer });
});

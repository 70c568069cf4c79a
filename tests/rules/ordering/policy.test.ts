/** Lead times, reorder points, price breaks and the words for chances. */
import { leadTimeOf } from '../../../shared/ordering/lead-time.js';
import {
  breaksAreInOrder,
  priceAt,
  priceTiers,
  totalPrice,
} from '../../../shared/ordering/price-breaks.js';
import { reachableLevel, reorderPolicy } from '../../../shared/ordering/reorder-policy.js';
import {
  oneIn,
  packsInWords,
  plainQuantity,
  shortInWords,
} from '../../../shared/ordering/words.js';

const nobody = { product: null, supplier: null };

test('five receipts teach a lead time, four do not', () => {
  expect(leadTimeOf([3, 4, 4, 5, 4], nobody)).toEqual({
    ...{ days: 4, variance: 0.5, from: 'deliveries', receipts: 5 },
  });
  // a quarter of 8 days is 2, squared 4
  expect(leadTimeOf([3, 4, 4, 5], { product: null, supplier: 8 })).toEqual({
    ...{ days: 8, variance: 4, from: 'declared', receipts: 4 },
  });
  expect(leadTimeOf([], nobody)).toMatchObject({ days: 7, from: 'usual' });
  expect(leadTimeOf([], { product: 0, supplier: 8 })).toMatchObject({ days: 0, variance: 0 });
});

test('a lead time typed on the product stands, with the spread of its supplier', () => {
  expect(leadTimeOf([3, 4, 4, 5, 4], { product: 9, supplier: null })).toMatchObject({
    ...{ days: 9, variance: 0.5, from: 'deliveries' },
  });
});

const terms = { serviceLevel: 0.95, leadTime: leadTimeOf([], nobody), reviewDays: 7 };

test('the reorder point is the quantile of gamma demand', () => {
  // gamma of shape 4 and scale 25; its 95 % point is 193.84 (chi-square 8 df 15.5073 / 2 x 25)
  const policy = reorderPolicy(
    { family: 'gamma', mean: 100, variance: 2500 },
    { ...terms, pack: 60, unit: 'g' },
  );
  expect(policy.point).toBeCloseTo((15.50731305586545 / 2) * 25, 6);
  expect(policy.upTo).toBeCloseTo(policy.point + 60, 9);
  expect(policy.safetyStock).toBeCloseTo(policy.point - 100, 9);
  expect(policy.days).toBe(14);
  expect(policy.sentence).toContain('assumed, since nobody has declared it');
  expect(policy.sentence).toContain('more than 194 g only about one time in 20');
});

test('no use, certain use and no lead time give figures, not NaN', () => {
  const none = reorderPolicy(
    { family: 'gamma', mean: 0, variance: 0 },
    { ...terms, pack: null, unit: 'g' },
  );
  expect([none.point, none.upTo]).toEqual([0, 0]);
  expect(none.sentence).toBe('No use is expected, so nothing is reordered by itself.');
  const certain = reorderPolicy(
    { family: 'gamma', mean: 40, variance: 0 },
    { ...terms, pack: null, unit: 'g' },
  );
  expect(certain.point).toBe(40);
});

test.each([0, 1, 0.3, 0.99999, -1])('a service level of %d is refused with a sentence', (level) => {
  expect(() => reachableLevel(level)).toThrow(/0\.5 to 0\.9999/);
});

test.each([
  [0.05, '20'],
  [0.1, '10'],
  [0.02, '50'],
  [0.00003, '33000'],
  [0, 'very many'],
  [1, '1'],
])('a chance of %d is one in %s', (chance, words) => expect(oneIn(chance)).toBe(words));

test('chances and quantities are said plainly', () => {
  expect(shortInWords(0.05)).toBe('short about one order in 20');
  expect(shortInWords(0)).toBe('practically never short');
  expect(shortInWords(0.5)).toBe('short about every other order');
  expect(shortInWords(1)).toBe('short for certain');
  expect([plainQuantity(1234.6), plainQuantity(4.04), plainQuantity(0)]).toEqual([
    ...['1230', '4.04', '0'],
  ]);
  expect([packsInWords(1), packsInWords(3)]).toEqual(['1 pack', '3 packs']);
});

test('from six packs on all of them cost less', () => {
  const breaks = [
    { fromPacks: 12, packPrice: '8' },
    { fromPacks: 6, packPrice: '9' },
  ];
  expect([1, 5, 6, 11, 12].map((packs) => priceAt('10', breaks, packs))).toEqual([
    ...['10', '10', '9', '9', '8'],
  ]);
  const tiers = priceTiers('10', breaks);
  expect(tiers.map(({ least, most }) => [least, most])).toEqual([
    [1, 5],
    [6, 11],
    [12, null],
  ]);
  expect([0, 5, 6].map((packs) => totalPrice(tiers, packs).toFixed())).toEqual(['0', '50', '54']);
  expect(breaksAreInOrder('10', breaks)).toBe(true);
  expect(breaksAreInOrder('10', [{ fromPacks: 6, packPrice: '11' }])).toBe(false);
  expect(breaksAreInOrder('10', [breaks[1]!, breaks[1]!])).toBe(false);
  expect(priceAt(null, [], 3)).toBeNull();
});

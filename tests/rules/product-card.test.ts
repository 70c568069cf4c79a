/** A product as entered: strength and per cent, packs in the unit of stock, what is asked. */
import { amount } from '../../shared/amount.js';
import { clientLabel, shortClientLabel } from '../../shared/client-label.js';
import { canonical, decimal } from '../../shared/decimal.js';
import { productCard, type ProductEntry } from '../../shared/product-card.js';
import { refused } from '../support/refused.js';

const developer: ProductEntry = { name: 'D', kind: 'developer', unit: 'ml' };
const sds = 'safety data sheet 17720; AMA, A Handbook of Useful Drugs';
const sp811 = 'NIST SP 811, B.8';

test.each([
  { percent: '3', volume: '10', source: sds },
  { percent: '6', volume: '20', source: sds },
  { percent: '12', volume: '40', source: 'Regulation (EC) 1223/2009, Annex III, entry 12' },
  { percent: '1.9', volume: '6.333', source: '1.9 / 0.3 by hand' },
])('$percent per cent alone is $volume vol ($source)', ({ percent, volume }) => {
  const card = productCard({ ...developer, percent: decimal(percent) });
  expect(card.strength_vol && canonical(card.strength_vol)).toBe(volume);
});

test.each([
  { given: '1', unit: 'l', kept: '1000', source: sp811 },
  { given: '2', unit: '[foz_us]', kept: '59.147', source: `${sp811}: 29.57353 ml` },
  { given: '1', unit: '[lb_av]', kept: '444.698', source: '453.59237 g / 1.02 g/ml by hand' },
  { given: '102', unit: 'g', kept: '100', source: '102 g / 1.02 g/ml by hand' },
  { given: '60', unit: undefined, kept: '60', source: 'its own unit' },
])('a pack of $given $unit is $kept ml ($source)', ({ given, unit, kept }) => {
  const pack = { label: 'a', quantity: decimal(given), unit };
  const entry = { ...developer, strength: decimal('20'), density: decimal('1.02') };
  const card = productCard({ ...entry, packs: [pack] });
  expect(card.packs.map(({ quantity }) => canonical(quantity))).toEqual([kept]);
  expect(card.assumedDensity).toBe(false);
});

test.each([
  { unit: 'ml', given: 'l', assumed: false },
  { unit: 'ml', given: 'kg', assumed: true },
  { unit: 'g', given: 'ml', assumed: true },
  { unit: 'g', given: '[oz_av]', assumed: false },
  { unit: 'piece', given: 'piece', assumed: false },
] as const)('$given of a product kept in $unit: density supposed $assumed', (row) => {
  const packs = [{ label: 'a', quantity: decimal('1'), unit: row.given }];
  const card = productCard({ name: 'P', kind: 'care', unit: row.unit, packs });
  expect(card.assumedDensity).toBe(row.assumed);
});

test('a dose in grams is kept in millilitres', () => {
  const entry = { ...developer, strength: decimal('20'), density: decimal('1.25') };
  const { dose } = productCard({ ...entry, dose: amount('5', 'g') });
  expect(dose && canonical(dose)).toBe('4'); // 5 g / 1.25 g/ml
});

test('a pack too small to count is refused', () => {
  const packs = [{ label: 'drop', quantity: decimal('0.0004'), unit: 'ml' }];
  const problem = refused(() => productCard({ name: 'P', kind: 'care', unit: 'ml', packs }));
  expect([problem.code, problem.pointer]).toEqual(['quantity_not_positive', '/packs/0/quantity']);
});

test.each([
  ['Ada Maria Brook', 'Ada B.'],
  ['  ada   brook ', 'ada B.'],
  ['Ada', 'Ada'],
  ['Zoë Ångström', 'Zoë Å.'],
  [null, 'client 0192'],
])('at the bench %s is called %s', (name, label) => {
  expect(shortClientLabel({ number: 192, name })).toBe(label);
});

test('without a name a client is her number, padded to four', () => {
  expect(clientLabel({ number: 7, name: null })).toBe('client 0007');
  expect(clientLabel({ number: 12345, name: null })).toBe('client 12345');
});

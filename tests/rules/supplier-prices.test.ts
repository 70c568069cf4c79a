/** What typed supplier prices cost the studio, worked out by hand. */
import { canonical, decimal } from '../../shared/decimal.js';
import { costOfTyped, supplierPricesOf } from '../../shared/supplier-prices.js';

test.each([
  ['without tax', '12.30', null, '12.3'],
  ['tax kept', '12.30', null, '12.3'],
  ['tax got back', '12.30', '0.23', '10'], // 12.30 / 1.23
  ['tax got back', '10', '0.07', '9.345794'], // 10 / 1.07 = 9.3457943…
  ['tax got back', '0', '0.23', '0'],
] as const)('%s: %s typed, rate %s, costs %s', (are, price, taxRate, cost) => {
  expect(canonical(costOfTyped(decimal(price), { are, taxRate }))).toBe(cost);
});

test('a rate is needed where the tax is got back, and says nothing elsewhere', () => {
  expect(() => supplierPricesOf('tax got back', undefined)).toThrow(/Give its rate/);
  expect(supplierPricesOf('without tax', '0.23')).toEqual({ are: 'without tax', taxRate: null });
});

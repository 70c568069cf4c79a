/** Units: factors as published, and the way between grams, millilitres, pieces and stock. */
import { canonical, decimal } from '../../shared/decimal.js';
import {
  convert,
  gramsOf,
  inStockUnit,
  parseMeasure,
  roundedFactor,
  stockQuantityOf,
  type Weighable,
} from '../../shared/units.js';
import { refused } from '../support/refused.js';

const ucum = 'UCUM 2.2, ucum-essence.xml (2024-06-17)';
const derived = 'derived from UCUM 2.2';
const act = 'Weights and Measures Act 1985 (UK), Schedule 1, Part V';
const nist = 'NIST SP 811, Appendix B.8';

test.each([
  { value: '1', from: '[lb_av]', to: 'g', expected: '453.59237', source: act },
  { value: '1', from: '[oz_av]', to: 'g', expected: '28.349523125', source: act },
  { value: '1', from: '[oz_tr]', to: 'g', expected: '31.1034768', source: act },
  { value: '1', from: '[gr]', to: 'mg', expected: '64.79891', source: nist },
  { value: '1', from: '[dr_av]', to: 'g', expected: '1.7718451953125', source: derived },
  { value: '1', from: '[pwt_tr]', to: 'g', expected: '1.55517384', source: derived },
  { value: '1', from: '[car_m]', to: 'g', expected: '0.2', source: ucum },
  { value: '1', from: '[gal_us]', to: 'mL', expected: '3785.411784', source: derived },
  { value: '1', from: '[foz_us]', to: 'mL', expected: '29.5735295625', source: derived },
  { value: '1', from: '[foz_br]', to: 'mL', expected: '28.4130625', source: ucum },
  { value: '1', from: '[pt_us]', to: 'mL', expected: '473.176473', source: derived },
  { value: '1', from: '[pt_br]', to: 'mL', expected: '568.26125', source: derived },
  { value: '1', from: '[tsp_us]', to: 'mL', expected: '4.92892159375', source: derived },
  { value: '1', from: '[in_i]', to: 'cm', expected: '2.54', source: ucum },
  { value: '1', from: '%', to: '1', expected: '0.01', source: ucum },
  { value: '2', from: '[foz_us]', to: 'mL', expected: '59.147059125', source: derived },
  { value: '1.5', from: '[oz_av]', to: 'g', expected: '42.5242846875', source: derived },
  { value: '2', from: '[lb_av]', to: '[oz_av]', expected: '32', source: act },
])('$value $from is $expected $to ($source)', ({ value, from, to, expected }) => {
  expect(canonical(convert(decimal(value), from, to))).toBe(expected);
});

test.each([
  { from: '[lb_av]', to: 'kg', expected: '0.4535924', source: nist },
  { from: '[oz_av]', to: 'g', expected: '28.34952', source: nist },
  { from: '[gal_us]', to: 'L', expected: '3.785412', source: nist },
  { from: '[foz_br]', to: 'mL', expected: '28.41306', source: nist },
])('$from is $expected $to to seven digits ($source)', ({ from, to, expected }) => {
  expect(canonical(roundedFactor(from, to, 7))).toBe(expected);
});

const developer: Weighable = { id: 'd20', unit: 'ml', density: decimal('1.02') };
const undated: Weighable = { id: 'd30', name: '30 vol developer', unit: 'ml' };
const powder: Weighable = { id: 'p', name: 'Powder lightener', unit: 'g' };
const foil: Weighable = { id: 'f', name: 'Foil', unit: 'piece' };
const capsule: Weighable = { id: 'c', unit: 'piece', gramsPerPiece: decimal('3.2') };

test.each([
  { product: developer, quantity: '60', given: 'ml', grams: '61.2', assumed: false },
  { product: developer, quantity: '61.2', given: 'g', grams: '61.2', assumed: false },
  { product: undated, quantity: '60', given: 'ml', grams: '60', assumed: true },
  { product: capsule, quantity: '2', given: 'piece', grams: '6.4', assumed: false },
] as const)('$quantity $given of $product.id weigh $grams g', (row) => {
  const found = gramsOf(decimal(row.quantity), row.given, row.product);
  expect(canonical(found.grams)).toBe(row.grams);
  expect(found.assumedDensity).toBe(row.assumed);
});

test.each([
  { product: developer, grams: '61.2', stock: '60' },
  { product: developer, grams: '10', stock: '9.804' },
  { product: capsule, grams: '6.4', stock: '2' },
  { product: powder, grams: '12.3455', stock: '12.346' },
  { product: powder, grams: '12.3445', stock: '12.344' },
])('$grams g of $product.id are $stock of stock, half-even', ({ product, grams, stock }) => {
  expect(canonical(stockQuantityOf(decimal(grams), product))).toBe(stock);
});

test('a product kept in g takes millilitres through its density', () => {
  const cream = { ...powder, density: decimal('0.95') };
  expect(canonical(inStockUnit(decimal('40'), 'ml', cream))).toBe('38');
});

test.each([
  { what: 'foils on the scale', work: () => stockQuantityOf(decimal('5'), foil), unit: 'piece' },
  { what: 'powder in pieces', work: () => gramsOf(decimal('1'), 'piece', powder), unit: 'g' },
  { what: 'foils in ml', work: () => gramsOf(decimal('1'), 'ml', foil), unit: 'piece' },
])('refuses $what, and names the unit to use', ({ work, unit }) => {
  const problem = refused(work);
  expect(problem.code).toBe('pieces_against_weight');
  expect(problem.facts['kept']).toBe(unit);
});

test.each(['0', '-1', '0.05', '11'])('refuses a density of %s g/ml', (density) => {
  const product = { ...undated, density: decimal(density) };
  expect(refused(() => gramsOf(decimal('1'), 'ml', product)).code).toBe('density_out_of_range');
});

test('reads a measure with its unit, and refuses what is none', () => {
  const { value, unit } = parseMeasure('1.5 [oz_av]');
  expect([canonical(value), unit.code]).toEqual(['1.5', '[oz_av]']);
  expect(refused(() => parseMeasure('1.5')).code).toBe('not_a_quantity');
  expect(refused(() => parseMeasure('1 tael')).code).toBe('unknown_unit');
  expect(refused(() => convert(decimal('1'), 'g', 'mL')).code).toBe(
    'units_measure_different_things',
  );
});

/** Money: minor units, coins, lines set to a total, taxes, markup against margin, discounts. */
import { shareEvenly, shareOut } from '../../shared/allocation.js';
import { apportion, apportionByDivisor } from '../../shared/apportionment.js';
import { cashStep, currencyCodes, minorDigits, minorUnit } from '../../shared/currency.js';
import { canonical, decimal } from '../../shared/decimal.js';
import {
  discountBetween,
  discountOn,
  priceAfterDiscount,
  priceBeforeDiscount,
} from '../../shared/discount.js';
import {
  costBehindMargin,
  costBehindMarkup,
  marginBetween,
  marginOfMarkup,
  markupBetween,
  markupOfMargin,
  priceByMargin,
  priceByMarkup,
} from '../../shared/markup.js';
import { roundForCash, roundMoney, roundUpToStep, setToTotal } from '../../shared/money.js';
import { taxed, type PriceMode, type TaxBasis } from '../../shared/tax.js';
import { refused } from '../support/refused.js';

const iso = 'ISO 4217 list one';
const openStax = 'OpenStax Contemporary Mathematics, Discounts, Markups, and Sales Tax';
const hand = 'worked out by hand';

test.each([
  { currency: 'EUR', digits: 2, source: iso },
  { currency: 'JPY', digits: 0, source: iso },
  { currency: 'UGX', digits: 0, source: iso },
  { currency: 'IQD', digits: 3, source: iso },
  { currency: 'CLF', digits: 4, source: iso },
])('$currency has $digits minor digits ($source)', ({ currency, digits }) => {
  expect(minorDigits(currency)).toBe(digits);
});

test.each(['XAU', 'eur', 'XXX', '', 'Euro'])('%p is no currency of a studio', (currency) => {
  expect(refused(() => minorUnit(currency))).toMatchObject({ code: 'unknown_currency' });
});

test('every code is one that the Unicode currency data knows too, and none stands twice', () => {
  const known = new Set(Intl.supportedValuesOf('currency'));
  const codes = currencyCodes();
  const fundCodes = ['BOV', 'CHE', 'CHW', 'CLF', 'COU', 'MXV', 'USN', 'UYI', 'UYW'];
  // Codes younger than the data of the oldest Node that is supported.
  const younger = ['SLE', 'VED', 'XCG', 'ZWG'];
  const unknown = codes.filter((code) => !known.has(code) && !younger.includes(code));
  expect(unknown.filter((code) => !fundCodes.includes(code))).toEqual([]);
  expect(codes).toHaveLength(17 + 7 + 2 + 139);
});

test.each([
  { amount: '4.92', currency: 'CAD', cash: '4.9', source: 'Canada, Budget 2012' },
  { amount: '1.03', currency: 'CAD', cash: '1.05', source: 'Canada, Budget 2012' },
  { amount: '17.88', currency: 'CHF', cash: '17.9', source: 'SR 941.101' },
  { amount: '24.50', currency: 'SEK', cash: '25', source: 'Lag (1970:1029)' },
  { amount: '24.49', currency: 'SEK', cash: '24', source: 'Lag (1970:1029)' },
  { amount: '10.05', currency: 'NZD', cash: '10', source: 'retailers’ advice: 5 goes down' },
  { amount: '1012', currency: 'HUF', cash: '1010', source: 'Unicode CLDR 48' },
  { amount: '12.34', currency: 'EUR', cash: '12.34', source: 'coins of one cent' },
])('$amount $currency in coins is $cash ($source)', ({ amount, currency, cash }) => {
  expect(canonical(roundForCash(decimal(amount), currency))).toBe(cash);
});

test.each([
  { value: '2.345', rounding: 'half_even', expected: '2.34' },
  { value: '2.345', rounding: 'half_up', expected: '2.35' },
  { value: '-2.345', rounding: 'half_up', expected: '-2.35' },
] as const)('$value EUR by $rounding is $expected', ({ value, rounding, expected }) => {
  expect(canonical(roundMoney(decimal(value), 'EUR', rounding))).toBe(expected);
});

test.each([
  { price: '86.2', step: '5', expected: '90' },
  { price: '90', step: '5', expected: '90' },
  { price: '90.01', step: '0.5', expected: '90.5' },
])('$price goes up to $expected in steps of $step', ({ price, step, expected }) => {
  expect(canonical(roundUpToStep(decimal(price), decimal(step)))).toBe(expected);
});

test.each([
  { lines: ['1.005', '1.005'], total: '2.01', set: ['1.01', '1'] },
  { lines: ['7.123456', '3.456789'], total: '10.58', set: ['7.12', '3.46'] },
  { lines: ['120', '2.8849', '-12.3333'], total: '110.55', set: ['120', '2.88', '-12.33'] },
])('lines $lines are set to $total as $set', ({ lines, total, set }) => {
  expect(setToTotal(lines.map(decimal), decimal(total), 2).map(canonical)).toEqual(set);
});

test.each([
  { total: '100', weights: ['1', '1', '1'], shares: ['34', '33', '33'] },
  { total: '-5', weights: ['7', '3'], shares: ['-3', '-2'] },
  { total: '1', weights: ['0.33', '0.66'], shares: ['0', '1'] },
  { total: '5', weights: ['7', '0', '3'], shares: ['4', '0', '1'] },
])('$total shared $weights is $shares (moneyphp/money tests)', ({ total, weights, shares }) => {
  expect(shareOut(decimal(total), weights.map(decimal), 0).map(canonical)).toEqual(shares);
});

test('800 shared evenly among three is 267, 267, 266 (moneyphp/money tests)', () => {
  expect(shareEvenly(decimal('800'), 3, 0).map(canonical)).toEqual(['267', '267', '266']);
});

test('616 seats with a minimum of one (OpenStax Contemporary Mathematics, Apportionment)', () => {
  const weights = ['46310', '224230', '20', '16560', '38450'].map(decimal);
  const [seats, one] = [decimal('616'), decimal('1')];
  const hamilton = apportion(seats, weights, one);
  const jefferson = apportionByDivisor(seats, weights, 'jefferson', one);
  expect(hamilton.map(canonical)).toEqual(['87', '424', '1', '31', '73']);
  expect(jefferson.map(canonical)).toEqual(['87', '425', '1', '31', '72']);
});

const threeLines = ['0.10', '0.10', '0.10'];
const twoRates = ['0.06', '0.025'];
test.each<{
  mode: PriceMode;
  basis: TaxBasis;
  lines: string[];
  rates: string[];
  expected: [net: string, taxes: string[], gross: string];
  source: string;
}>([
  {
    mode: 'exclusive',
    basis: 'line',
    lines: threeLines,
    rates: ['0.05'],
    expected: ['0.3', ['0.03'], '0.33'],
    source: hand,
  },
  {
    mode: 'exclusive',
    basis: 'invoice',
    lines: threeLines,
    rates: ['0.05'],
    expected: ['0.3', ['0.02'], '0.32'],
    source: hand,
  },
  {
    mode: 'exclusive',
    basis: 'invoice',
    lines: ['499.00'],
    rates: ['0.0881'],
    expected: ['499', ['43.96'], '542.96'],
    source: openStax,
  },
  {
    mode: 'inclusive',
    basis: 'invoice',
    lines: ['467.64'],
    rates: ['0.0825'],
    expected: ['432', ['35.64'], '467.64'],
    source: openStax,
  },
  {
    mode: 'exclusive',
    basis: 'invoice',
    lines: ['100'],
    rates: twoRates,
    expected: ['100', ['6', '2.5'], '108.5'],
    source: hand,
  },
  {
    mode: 'inclusive',
    basis: 'invoice',
    lines: ['108.50'],
    rates: twoRates,
    expected: ['100', ['6', '2.5'], '108.5'],
    source: hand,
  },
  {
    mode: 'inclusive',
    basis: 'invoice',
    lines: ['50'],
    rates: [],
    expected: ['50', [], '50'],
    source: hand,
  },
])('$lines $mode at $rates, per $basis ($source)', ({ mode, basis, lines, rates, expected }) => {
  const rule = { mode, basis, rates: rates.map(decimal), places: 2, rounding: 'half_up' } as const;
  const { net, taxes, gross } = taxed(lines.map(decimal), rule);
  expect([canonical(net), taxes.map(canonical), canonical(gross)]).toEqual(expected);
});

const of = (first: string, second: string) => [decimal(first), decimal(second)] as const;
test.each([
  { what: 'price by markup', got: priceByMarkup(...of('750', '0.45')), expected: '1087.5' },
  { what: 'cost behind a markup', got: costBehindMarkup(...of('26.55', '1.25')), expected: '11.8' },
  { what: 'markup between', got: markupBetween(...of('480', '840')), expected: '0.75' },
  {
    what: 'price after 30 % off',
    got: priceAfterDiscount(...of('168.90', '0.3')),
    expected: '118.23',
  },
  { what: '30 % of 168.90', got: discountOn(...of('168.90', '0.3')), expected: '50.67' },
  { what: 'price before 75 % off', got: priceBeforeDiscount(...of('90', '0.75')), expected: '360' },
  { what: 'discount between', got: discountBetween(...of('1200', '900')), expected: '0.25' },
])(`$what is $expected (${openStax})`, ({ got, expected }) => {
  expect(canonical(got)).toBe(expected);
});

test('markup is on cost, margin on price: 20 sold for 100 is 400 % and 80 %', () => {
  const [cost, price] = of('20', '100');
  expect(canonical(markupBetween(cost, price))).toBe('4');
  expect(canonical(marginBetween(cost, price))).toBe('0.8');
  expect(canonical(marginOfMarkup(decimal('0.25')))).toBe('0.2');
  expect(canonical(markupOfMargin(decimal('0.5')))).toBe('1');
  expect(canonical(priceByMargin(cost, decimal('0.8')))).toBe('100');
  expect(canonical(costBehindMargin(price, decimal('0.8')))).toBe('20');
  expect(refused(() => priceByMargin(cost, decimal('1')))).toMatchObject({
    code: 'margin_unreachable',
  });
});

test('the smallest coin: Danish 0.50, Norwegian 1, Hungarian 5 (Unicode CLDR 48)', () => {
  expect(['DKK', 'NOK', 'HUF'].map((code) => canonical(cashStep(code)))).toEqual(['0.5', '1', '5']);
});

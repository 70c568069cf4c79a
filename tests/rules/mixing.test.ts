/** Plans: from ratio, strength and size to pours that add up, and what is refused. */
import { Amount, type StockUnit } from '../../shared/amount.js';
import { canonical, decimal, fixed, sum, type Decimal } from '../../shared/decimal.js';
import type { MixPlan, MixProduct, MixRequest, MixSize } from '../../shared/mix.js';
import { planMix } from '../../shared/mixing.js';
import { refused } from '../support/refused.js';

const practice = 'common practice, no source';
const byHand = 'by hand';
const d = (text: string): Decimal => decimal(text);
const q = (value: string, unit: StockUnit = 'g'): Amount<StockUnit> => new Amount(d(value), unit);
const developer = (vol: string, density?: string): MixProduct => ({
  id: `d${vol}`,
  kind: 'developer',
  unit: 'ml',
  strength: d(vol),
  density: density === undefined ? undefined : d(density),
});
const shelf: MixProduct[] = [
  { id: 'lift', kind: 'lightener', unit: 'g' },
  { id: 'pearl', kind: 'toner', unit: 'g' },
  { id: 'ash', kind: 'toner', unit: 'g' },
  { id: 'sand', kind: 'toner', unit: 'g' },
  { id: 'gloss', kind: 'toner', unit: 'ml', density: d('1.05') },
  developer('6'),
  developer('10', '1.02'),
  developer('20', '1.02'),
  developer('40', '1.04'),
  { id: 'bond', kind: 'additive', unit: 'ml', density: d('1.1'), dose: q('4', 'ml') },
  { id: 'drops', kind: 'additive', unit: 'g' },
  { id: 'capsule', kind: 'additive', unit: 'piece', gramsPerPiece: d('2.5') },
  { id: 'foil', kind: 'sundry', unit: 'piece' },
  { id: 'tap', kind: 'water', unit: 'ml' },
];

const plan = (request: MixRequest): MixPlan => planMix(request, shelf, shelf);
const pours = (result: MixPlan): string[] =>
  result.pours.map((pour) => `${pour.productId} ${canonical(pour.quantity)} ${pour.unit}`);

interface Row {
  readonly name: string;
  readonly request: Omit<MixRequest, 'size'>;
  readonly size: MixSize;
  readonly pours: readonly string[];
  readonly total: string;
  readonly vol?: string;
  readonly peroxide: string;
  readonly source: string;
}

const lift = [{ productId: 'lift' }];
const pearl = [{ productId: 'pearl' }];

test.each<Row>([
  {
    name: 'lightener 1:2 by total',
    request: { ratio: '1:2', powders: lift, developers: [{ productId: 'd6' }] },
    size: { total: q('90') },
    pours: ['lift 30 g', 'd6 60 ml'],
    total: '90',
    vol: '6',
    peroxide: '1.20',
    source: practice,
  },
  {
    name: 'toner 1:1 by powder',
    request: { ratio: '1:1', powders: pearl, developers: [{ productId: 'd6' }] },
    size: { powder: q('40') },
    pours: ['pearl 40 g', 'd6 40 ml'],
    total: '80',
    vol: '6',
    peroxide: '0.90',
    source: practice,
  },
  {
    name: 'equal parts of 10 and 20 vol, by developer in ml, by volume',
    request: { ratio: '1:1.5', basis: 'volume', powders: lift, strength: d('15') },
    size: { developer: q('60', 'ml') },
    pours: ['lift 40 g', 'd10 30 ml', 'd20 30 ml'],
    total: '101.2',
    vol: '15',
    peroxide: '2.72',
    source: byHand,
  },
  {
    name: '13 vol from 6 and 20, no density on one of them, by weight',
    request: {
      ratio: '1:1',
      powders: lift,
      strength: d('13'),
      developers: [{ productId: 'd6' }, { productId: 'd20' }],
    },
    size: { developer: q('101') },
    pours: ['lift 101 g', 'd6 50 ml', 'd20 50 ml'],
    total: '202',
    vol: '13',
    peroxide: '1.96',
    source: byHand,
  },
  {
    name: 'two thirds and one third of two bottles',
    request: {
      ratio: '1:1',
      powders: pearl,
      developers: [{ productId: 'd10', share: d('2') }, { productId: 'd20' }],
    },
    size: { powder: q('30.6') },
    pours: ['pearl 30.6 g', 'd10 20 ml', 'd20 10 ml'],
    total: '61.2',
    vol: '13.333333',
    peroxide: '2.00',
    source: byHand,
  },
  {
    name: 'three shades in thirds of 20 g, to a thousandth of a gram',
    request: {
      powders: [{ productId: 'pearl' }, { productId: 'ash' }, { productId: 'sand' }],
    },
    size: { total: q('20') },
    pours: ['pearl 6.667 g', 'ash 6.667 g', 'sand 6.666 g'],
    total: '20',
    peroxide: '0.00',
    source: 'largest remainder, by hand',
  },
  {
    name: 'shades by share, one kept in ml',
    request: {
      ratio: '1:2',
      powders: [{ productId: 'pearl', share: d('2') }, { productId: 'gloss' }],
      developers: [{ productId: 'd6' }],
    },
    size: { total: q('94.5') },
    pours: ['pearl 21 g', 'gloss 10 ml', 'd6 63 ml'],
    total: '94.5',
    vol: '6',
    peroxide: '1.20',
    source: byHand,
  },
])('$name: $pours ($source)', ({ request, size, pours: expected, total, vol, peroxide }) => {
  const result = plan({ ...request, size });
  expect(pours(result)).toEqual(expected);
  expect(result.total.toString()).toBe(`${total} g`);
  expect(result.strength && canonical(result.strength.volume.toDecimalPlaces(6))).toBe(vol);
  expect(fixed(result.peroxidePercent, 2)).toBe(peroxide);
});

const onlyLift = { ratio: '1:2', powders: lift, developers: [{ productId: 'd6' }] };

test.each([
  {
    name: '5 % of the powder side, outside the size',
    additives: [{ productId: 'drops', of: 'powder', percent: d('5') }],
    expected: ['lift 30 g', 'd6 60 ml', 'drops 1.5 g'],
    contents: '91.5',
    source: byHand,
  },
  {
    name: '10 % of both sides, counted: 99 g hold 90 g of mix',
    additives: [{ productId: 'drops', of: 'total', percent: d('10'), counted: true }],
    total: '99',
    expected: ['lift 30 g', 'd6 60 ml', 'drops 9 g'],
    contents: '99',
    source: byHand,
  },
  {
    name: 'fixed grams, counted',
    additives: [{ productId: 'drops', grams: d('6'), counted: true }],
    expected: ['lift 28 g', 'd6 56 ml', 'drops 6 g'],
    contents: '90',
    source: byHand,
  },
  {
    name: 'one dose of 4 ml to 30 g of powder',
    additives: [{ productId: 'bond', dosesPer: d('30') }],
    expected: ['lift 30 g', 'd6 60 ml', 'bond 4 ml'],
    contents: '94.4',
    source: practice,
  },
  {
    name: 'a second dose from the first gram above the step',
    additives: [{ productId: 'bond', dosesPer: d('30') }],
    total: '93',
    expected: ['lift 31 g', 'd6 62 ml', 'bond 8 ml'],
    contents: '101.8',
    source: practice,
  },
  {
    name: 'capsules in whole pieces, one to 20 g',
    additives: [{ productId: 'capsule', dosesPer: d('20') }],
    expected: ['lift 30 g', 'd6 60 ml', 'capsule 2 piece'],
    contents: '95',
    source: byHand,
  },
  {
    name: 'counted doses at the edge of a step keep the size and the larger dose',
    additives: [{ productId: 'capsule', dosesPer: d('30'), counted: true }],
    total: '94',
    expected: ['lift 29.667 g', 'd6 59.333 ml', 'capsule 2 piece'],
    contents: '94',
    source: 'by hand: one capsule leaves 30.5 g of powder, two leave 29.667 g',
  },
] as const)('additive: $name ($source)', ({ additives, expected, contents, ...row }) => {
  const total = 'total' in row ? row.total : '90';
  const result = plan({ ...onlyLift, additives, size: { total: q(total) } });
  expect(pours(result)).toEqual(expected);
  expect(result.contents.toString()).toBe(`${contents} g`);
  const counted = result.pours.filter((pour) => pour.counted).map((pour) => pour.grams);
  expect(sum(counted).equals(result.total.value)).toBe(true);
});

test('a density is supposed only where it was needed, and the plan says so', () => {
  const unknown = plan({ ...onlyLift, size: { total: q('90') } }).assumed;
  expect(unknown.map((each) => each.productId)).toEqual(['d6']);
  const known = { ...onlyLift, developers: [{ productId: 'd20' }] };
  expect(plan({ ...known, size: { total: q('90') } }).assumed).toEqual([]);
});

test('millilitres stand beside grams for what is measured by volume', () => {
  const result = plan({
    ...onlyLift,
    developers: [{ productId: 'd20' }],
    size: { powder: q('51') },
  });
  expect(result.pours.map((pour) => pour.millilitres && canonical(pour.millilitres))).toEqual([
    undefined,
    '100',
  ]);
});

type Change = Partial<MixRequest>;
const named: [string, Change, string, string][] = [
  ['an 80 kg bowl', { size: { total: q('80000') } }, 'size_too_large', '/size/total'],
  ['a bowl of nothing', { size: { total: q('0') } }, 'size_not_positive', '/size/total'],
  ['a bowl below nothing', { size: { powder: q('-30') } }, 'size_not_positive', '/size/powder'],
  ['a total in ml', { size: { total: q('90', 'ml') } }, 'size_in_wrong_unit', '/size/total'],
  ['pieces of powder', { size: { powder: q('2', 'piece') } }, 'size_in_wrong_unit', '/size/powder'],
  ['a part of zero', { ratio: '1:0' }, 'no_parts', '/ratio'],
  ['200 vol', { strength: d('200') }, 'strength_out_of_range', '/strength'],
  ['3 vol from 6', { strength: d('3') }, 'strength_unreachable', '/strength'],
  ['no powder', { powders: [] }, 'no_powder', '/powders'],
  [
    'a powder of no share',
    { powders: [{ productId: 'lift', share: d('0') }] },
    'no_parts',
    '/powders/0/share',
  ],
  ['developer as powder', { powders: [{ productId: 'd6' }] }, 'wrong_kind', '/powders/0'],
  ['powder twice', { powders: [...lift, ...lift] }, 'product_twice', '/powders/1'],
  [
    'a powder that is an additive too',
    { additives: [{ productId: 'lift', grams: d('1') }] },
    'product_twice',
    '/additives/0',
  ],
  [
    'an unknown developer',
    { developers: [{ productId: 'nowhere' }] },
    'product_not_given',
    '/developers/0/productId',
  ],
  ['water as developer', { developers: [{ productId: 'tap' }] }, 'wrong_kind', '/developers/0'],
  ['no ratio with developer', { ratio: undefined }, 'developer_without_ratio', '/ratio'],
  ['no developer at all', { developers: [] }, 'no_developer', '/developers'],
  [
    'foil in the bowl',
    { additives: [{ productId: 'foil', grams: d('1') }] },
    'wrong_kind',
    '/additives/0',
  ],
  [
    'doses of unknown size',
    { additives: [{ productId: 'drops', dosesPer: d('30') }] },
    'dose_unknown',
    '/additives/0',
  ],
  [
    '200 % of the powder',
    { additives: [{ productId: 'drops', of: 'powder', percent: d('200') }] },
    'percent_out_of_range',
    '/additives/0',
  ],
  [
    'additives as large as the bowl',
    { additives: [{ productId: 'drops', grams: d('90'), counted: true }] },
    'additives_fill_the_bowl',
    '/size',
  ],
  [
    'additive below nothing',
    { additives: [{ productId: 'drops', grams: d('-1') }] },
    'quantity_not_positive',
    '/additives/0',
  ],
];

test.each(named)('refuses %s', (_name, change, code, pointer) => {
  const problem = refused(() => plan({ ...onlyLift, size: { total: q('90') }, ...change }));
  expect(problem.code).toBe(code);
  expect(problem.pointer).toBe(pointer);
});

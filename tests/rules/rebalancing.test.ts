/** Rebalancing: what to pour after what was poured, and which offer comes first. */
import { Amount } from '../../shared/amount.js';
import { canonical, decimal, type Decimal } from '../../shared/decimal.js';
import type { MixProduct, MixRequest } from '../../shared/mix.js';
import { planMix } from '../../shared/mixing.js';
import {
  afterPour,
  keepTheSize,
  leaveIt,
  nextTargets,
  restore,
  thatsAll,
  type ToPour,
} from '../../shared/rebalancing.js';
import { tooLightFor } from '../../shared/cautioning.js';
import {
  bowlUnderway,
  partsAfter,
  standing,
  toleranceOf,
  type BenchProgress,
  type BowlUnderway,
} from '../../shared/underway.js';
import { refused } from '../support/refused.js';

const byHand = 'by hand from the formula';
const d = (text: string): Decimal => decimal(text);

const shelf: MixProduct[] = [
  { id: 'lift', name: 'Powder lightener', kind: 'lightener', unit: 'g' },
  { id: 'd6', kind: 'developer', unit: 'ml', strength: d('6') },
  { id: 'd20', kind: 'developer', unit: 'ml', strength: d('20') },
  ...['pearl', 'ash', 'sand'].map((id) => ({ id, kind: 'toner' as const, unit: 'g' as const })),
  { id: 'drops', kind: 'additive', unit: 'g' },
  { id: 'bond', kind: 'additive', unit: 'g' },
  { id: 'tap', kind: 'water', unit: 'ml' },
];

const lightener: MixRequest = {
  ratio: '1:2',
  powders: [{ productId: 'lift' }],
  strength: d('13'),
  size: { total: new Amount(d('90'), 'g') },
};
const shades: MixRequest = {
  ratio: '1:2',
  powders: ['pearl', 'ash', 'sand'].map((productId) => ({ productId })),
  developers: [{ productId: 'd6' }],
  size: { total: new Amount(d('90'), 'g') },
};

type Poured = Readonly<Record<string, string>>;

function bowl(request: MixRequest, poured: Poured, progress?: BenchProgress): BowlUnderway {
  const weighed = Object.entries(poured).map(([productId, grams]) => ({
    productId,
    grams: d(grams),
  }));
  return bowlUnderway(planMix(request, shelf, shelf), request, shelf, weighed, progress);
}

const list = (toPour: readonly ToPour[]): string[] =>
  toPour.map(({ productId, grams }) => `${productId} ${canonical(grams)}`);

test.each([
  {
    name: 'nothing poured: the plan',
    poured: {},
    expected: ['lift 30', 'd6 30', 'd20 30'],
  },
  {
    name: '36 g of powder: 36 g of each developer',
    poured: { lift: '36' },
    expected: ['lift 0', 'd6 36', 'd20 36'],
  },
  {
    name: '45 g of one developer after the powder: 15 g powder and 45 g of the other',
    poured: { lift: '30', d6: '45' },
    expected: ['lift 15', 'd6 0', 'd20 45'],
  },
])('restore after $name ($expected)', ({ poured, expected }) => {
  expect(list(restore(bowl(lightener, poured))?.toPour ?? [])).toEqual(expected);
});

test.each([
  {
    name: '40 g of powder: 50 g to share',
    poured: { lift: '40' },
    expected: ['lift 0', 'd6 25', 'd20 25'],
    ratio: '1 : 1.25',
    vol: '13',
  },
  {
    name: '45 g of 6 vol: 45 g to share between powder and 20 vol',
    poured: { d6: '45' },
    expected: ['lift 22.5', 'd6 0', 'd20 22.5'],
    ratio: '1 : 3',
    vol: '10.667',
  },
  {
    name: 'everything poured and too much: nothing more',
    poured: { lift: '30', d6: '30', d20: '36' },
    expected: ['lift 0', 'd6 0', 'd20 0'],
    ratio: '1 : 2.2',
    vol: '13.636',
  },
])('keep the size after $name', ({ poured, expected, ratio, vol }) => {
  const offer = keepTheSize(bowl(lightener, poured));
  expect(list(offer.toPour)).toEqual(expected);
  expect(offer.ratio).toBe(ratio);
  expect(offer.strength && canonical(offer.strength.volume.toDecimalPlaces(3))).toBe(vol);
});

test('leave it: shades stay as poured and the developer follows their weight', () => {
  const offer = leaveIt(
    bowl(shades, { pearl: '7', ash: '10', sand: '15' }, { finished: ['pearl'] }),
  );
  expect(offer.shades).toBe('7 : 10 : 15');
  expect(list(offer.toPour)).toEqual(['pearl 0', 'ash 0', 'sand 0', 'd6 64']);
  expect(offer.ratio).toBe('1 : 2');
});

test.each([
  {
    name: 'powder short before any developer: the bowl shrinks to it',
    poured: { lift: '25' },
    expected: ['lift 0', 'd6 25', 'd20 25'],
    says: 'ratio and strength as planned',
  },
  {
    name: 'one developer short after the rest: nothing to take away, what results is said',
    poured: { lift: '30', d20: '30', d6: '20' },
    ended: 'd6',
    expected: ['lift 0', 'd6 0', 'd20 0'],
    says: '1 : 1.67 instead of 1 : 2, developer 14.4 vol',
  },
  {
    name: 'powder short while one developer is complete: the other still comes to it',
    poured: { lift: '25', d6: '30' },
    expected: ['lift 0', 'd6 0', 'd20 30'],
    says: '1 : 2.4 instead of 1 : 2, developer 13 vol',
  },
])("that's all, $name ($says)", ({ poured, ended = 'lift', expected, says }) => {
  const offer = thatsAll(bowl(lightener, poured), ended);
  expect(list(offer.toPour)).toEqual(expected);
  expect(offer.text).toContain(says);
});

test("that's all of something not planned is refused", () => {
  expect(refused(() => thatsAll(bowl(lightener, {}), 'pearl')).code).toBe('not_in_the_plan');
});

test('later targets follow what was really poured, also below the target', () => {
  expect(list(nextTargets(bowl(lightener, { lift: '29.4' })))).toEqual([
    'lift 0',
    'd6 29.4',
    'd20 29.4',
  ]);
  expect(list(nextTargets(bowl(lightener, { lift: '12' })))).toEqual([
    'lift 18',
    'd6 30',
    'd20 30',
  ]);
});

test.each([
  { poured: { lift: '30.6' }, order: [], why: 'inside the tolerance of 0.6 g' },
  { poured: { lift: '34' }, order: ['restore', 'keep_the_size'], why: '102 g, up to 1.15' },
  { poured: { lift: '34.5' }, order: ['restore', 'keep_the_size'], why: '103.5 g is 1.15 exactly' },
  { poured: { lift: '34.6' }, order: ['keep_the_size', 'restore'], why: '103.8 g, just above' },
  { poured: { lift: '35' }, order: ['keep_the_size', 'restore'], why: '105 g, above 1.15' },
  { poured: { lift: '40' }, order: ['keep_the_size', 'restore'], why: '120 g, above 1.25' },
])('offers after $poured: $order ($why)', ({ poured, order }) => {
  const { offers, toPour } = afterPour(bowl(lightener, poured));
  expect(offers.map((offer) => offer.kind)).toEqual(order);
  if (offers[0]) expect(toPour).toEqual(offers[0].toPour);
});

test('for shades: leave it, then keep, then grow; growing beyond the vessel is not offered', () => {
  const over = bowl(shades, { pearl: '14' });
  expect(afterPour(over).offers.map((offer) => offer.text)).toEqual([
    'Leave it: shades 14 : 10 : 10; the developer follows.',
    'Keep 90 g: 1 : 1.73 instead of 1 : 2, developer 6 vol.',
    'Grow to 126 g: ratio and strength as planned.',
  ]);
  const small = afterPour(over, { largest_g: d('120') });
  expect(small.offers.map((offer) => offer.kind)).toEqual(['leave_it', 'keep_the_size']);
});

test('what has run out is asked for by no offer', () => {
  const out = bowl(lightener, { lift: '20', d6: '45' }, { ranOut: ['lift'] });
  expect(restore(out)).toBeUndefined();
  expect(list(keepTheSize(out).toPour)).toEqual(['lift 0', 'd6 0', 'd20 25']);
});

test('per-cent additives follow their side, fixed ones keep their grams', () => {
  const request: MixRequest = {
    ...lightener,
    additives: [
      { productId: 'drops', of: 'powder', percent: d('10') },
      { productId: 'bond', grams: d('5') },
    ],
  };
  const offer = restore(bowl(request, { lift: '36', bond: '2' }));
  expect(list(offer?.toPour ?? [])).toEqual(['lift 0', 'd6 36', 'd20 36', 'drops 3.6', 'bond 3']);
  expect(offer && canonical(offer.contents_g)).toBe('116.6');
});

test('water is not rebalanced and weakens what results', () => {
  const offer = restore(bowl(lightener, { lift: '30', d6: '30', d20: '30', tap: '20' }));
  expect(offer && list(offer.toPour)).toEqual(['lift 0', 'd6 0', 'd20 0']);
  expect(offer?.strength && canonical(offer.strength.volume)).toBe('9.75');
  expect(offer && canonical(offer.contents_g)).toBe('110');
});

test('cautions of an offer look at what it would leave in the bowl', () => {
  const over = bowl(lightener, { d20: '40', tap: '5' });
  const parts = partsAfter(over, restore(over)?.toPour);
  expect(parts.map(({ product, grams }) => `${product.id} ${canonical(grams)}`)).toEqual([
    'lift 40',
    'd6 40',
    'd20 40',
    'tap 5',
  ]);
  expect(partsAfter(over).map((part) => part.product.id)).toEqual(['d20', 'tap']);
});

test.each([
  { target: '30', interval: '0.1', kind: 'lightener', tolerance: '0.6', source: '2 %' },
  { target: '30', interval: '1', kind: 'lightener', tolerance: '2', source: 'two intervals' },
  { target: '30', interval: '0.1', kind: 'toner', tolerance: '1.5', source: '5 % for shades' },
  { target: '10', interval: '1', kind: 'toner', tolerance: '2', source: 'two intervals' },
] as const)('tolerance of $target g of $kind on $interval g: $tolerance g ($source)', (row) => {
  const found = toleranceOf(d(row.target), { kind: row.kind }, d(row.interval));
  expect(canonical(found)).toBe(row.tolerance);
});

test.each([
  { poured: '12', state: 'to go', difference: '-18' },
  { poured: '28', state: 'in the notch', difference: '-2' },
  { poured: '32', state: 'in the notch', difference: '2' },
  { poured: '33', state: 'over', difference: '3' },
])('$poured g of 30 g on a scale of 1 g is $state', ({ poured, state, difference }) => {
  const found = standing(d(poured), d('30'), { kind: 'lightener' }, d('1'));
  expect([found.state, canonical(found.difference_g)]).toEqual([state, difference]);
});

test(`a pour below ten intervals is too light for the scale (${byHand})`, () => {
  expect(tooLightFor(d('9.9'), d('1'))).toBe(true);
  expect(tooLightFor(d('10'), d('1'))).toBe(false);
});

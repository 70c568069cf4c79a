/** What a bowl holds and how it splits: interim weighing, thinning, dividing, leftover. */
import {
  asksAboutBrush,
  contentsGrams,
  developerToThin,
  divideContents,
  leftoverTolerance,
  moreOfTheSame,
  sidesOf,
  splitEstimated,
  splitLeftover,
  stillInBowl,
  type ContentLine,
  type ContentSplit,
} from '../../shared/contents.js';
import { canonical, decimal, type Decimal } from '../../shared/decimal.js';
import { parseRatio } from '../../shared/ratio.js';
import { refused } from '../support/refused.js';

const practice = 'common practice, no source';
const d = (text: string): Decimal => decimal(text);

interface Held {
  readonly grams: string;
  /** Where it differs from the grams */
  readonly quantity?: string;
  readonly lots?: readonly (readonly [quantity: string, value: string])[];
}

const line = (id: string, { grams, quantity = grams, lots }: Held): ContentLine => ({
  pourId: `pour-${id}`,
  productId: id,
  grams: d(grams),
  quantity: d(quantity),
  lots: (lots ?? [[quantity, '1.000000']]).map(([each, value], index) => ({
    lotId: `${id}-${index + 1}`,
    quantity: d(each),
    value: d(value),
  })),
});
const wastedGrams = (split: ContentSplit): string[] =>
  split.lines.map((each) => canonical(each.wasted.grams));

test('thinning 1:1 to 1:2: 40 + 40, 30 left, 15 to add; 9 left of 45 are 3 and 6', () => {
  const mixed = [line('toner', { grams: '40' }), line('developer', { grams: '40' })];
  const interim = splitLeftover(mixed, d('30'));
  expect(wastedGrams(interim)).toEqual(['15', '15']);
  expect(interim.lines.map((each) => canonical(each.applied.grams))).toEqual(['25', '25']);

  const left = stillInBowl(interim);
  const sides = sidesOf(left, (id) => (id === 'toner' ? 'powder' : 'developer'));
  const toAdd = developerToThin(sides, parseRatio('1:2'));
  expect(canonical(toAdd)).toBe('15');

  const thinned = [...left, line('developer', { grams: canonical(toAdd) })];
  const settled = splitLeftover(thinned, d('9'));
  expect(canonical(settled.contents_g)).toBe('45');
  expect(wastedGrams(settled)).toEqual(['3', '3', '3']);
  expect(canonical(settled.share)).toBe('0.2');
});

test('without the interim weighing the same leftover splits by all pours', () => {
  const all = [line('toner', { grams: '40' }), line('developer', { grams: '55' })];
  // by hand: 9 x 40 / 95 and 9 x 55 / 95
  expect(wastedGrams(splitLeftover(all, d('9')))).toEqual(['3.789', '5.211']);
});

test('grams, stock and lots: half-even for the pour, largest remainder for its lots', () => {
  const contents = [
    line('lift', {
      grams: '30',
      lots: [
        ['12.5', '0.612345'],
        ['17.5', '0.900001'],
      ],
    }),
    line('developer', { grams: '61.2', quantity: '60', lots: [['60', '0.480000']] }),
  ];
  const split = splitLeftover(contents, d('10'));
  // by hand: 10 / 91.2 of each; lots of 30 g share 3.289 g as 12.5 : 17.5
  const [lift, developer] = split.lines;
  expect(wastedGrams(split)).toEqual(['3.289', '6.711']);
  expect(lift && canonical(lift.wasted.quantity)).toBe('3.289');
  expect(lift?.lots.map((lot) => canonical(lot.wasted.quantity))).toEqual(['1.37', '1.919']);
  expect(lift?.lots.map((lot) => canonical(lot.wasted.value))).toEqual(['0.067113', '0.098692']);
  expect(lift?.lots.map((lot) => canonical(lot.applied.value))).toEqual(['0.545232', '0.801309']);
  expect(developer && canonical(developer.wasted.quantity)).toBe('6.579');
  expect(developer && canonical(developer.wasted.value)).toBe('0.052632');
});

test.each([
  { left: '0', applied: ['40', '40'], why: 'nothing left: all of it was applied' },
  { left: '80', applied: ['0', '0'], why: 'all of it is left' },
  { left: '80.9', applied: ['0', '0'], why: 'inside the tolerance it counts as the contents' },
])('$left g left of 80 g: $why', ({ left, applied }) => {
  const split = splitLeftover([line('a', { grams: '40' }), line('b', { grams: '40' })], d(left));
  expect(split.lines.map((each) => canonical(each.applied.quantity))).toEqual(applied);
  expect(split.applied_g.plus(split.wasted_g).equals(split.contents_g)).toBe(true);
});

test('more left over than the bowl held is refused with both figures and likely causes', () => {
  const problem = refused(() => splitLeftover([line('a', { grams: '80' })], d('81.1'), d('1')));
  expect(problem.code).toBe('leftover_exceeds_contents');
  expect(problem.message).toContain('81.1 g were weighed and the bowl held 80 g');
  expect(problem.message).toContain('the brush is in the bowl');
  expect(problem.message).toContain('another vessel');
  expect(problem.message).toContain('a pour was not recorded');
});

test('below nothing, and something from an empty bowl, are refused', () => {
  const contents = [line('a', { grams: '80' })];
  expect(refused(() => splitLeftover(contents, d('-1'))).code).toBe('quantity_negative');
  expect(refused(() => splitLeftover([], d('5'))).code).toBe('contents_unknown');
  expect(splitLeftover([], d('0')).lines).toEqual([]);
});

test.each([
  { interval: '0.1', stored: false, tolerance: '0.1' },
  { interval: '0.1', stored: true, tolerance: '0.2' },
  { interval: undefined, stored: true, tolerance: '1' },
])('interval $interval, stored tare $stored: $tolerance g above the contents', (row) => {
  const interval = row.interval === undefined ? undefined : d(row.interval);
  expect(canonical(leftoverTolerance(interval, row.stored))).toBe(row.tolerance);
});

test('above half of the contents it asks whether the brush is in it', () => {
  expect(asksAboutBrush(d('40'), d('80'))).toBe(false);
  expect(asksAboutBrush(d('40.1'), d('80'))).toBe(true);
});

test('a bowl divides in its own proportion', () => {
  const contents = [line('toner', { grams: '40' }), line('developer', { grams: '60' })];
  const { stays, handedOn } = divideContents(contents, d('25'));
  expect(handedOn.map((each) => canonical(each.quantity))).toEqual(['10', '15']);
  expect(stays.map((each) => canonical(each.quantity))).toEqual(['30', '45']);
  expect(refused(() => divideContents(contents, d('0'))).code).toBe('quantity_not_positive');
});

test('rinsed, about a tenth: a share of the contents stands for the weighing', () => {
  const contents = [line('a', { grams: '30' }), line('b', { grams: '60' })];
  expect(wastedGrams(splitEstimated(contents, d('0.1')))).toEqual(['3', '6']);
  expect(refused(() => splitEstimated(contents, d('1.1'))).code).toBe('percent_out_of_range');
});

test.each([
  { powder: '40', developer: '40', ratio: '1:2', add: '40', source: practice },
  { powder: '15', developer: '15', ratio: '1:1.5', add: '7.5', source: 'by hand' },
  { powder: '30', developer: '60', ratio: '1:2', add: '0', source: 'by hand' },
])('$powder + $developer to $ratio takes $add ($source)', ({ powder, developer, ratio, add }) => {
  const sides = { powder: d(powder), developer: d(developer) };
  expect(canonical(developerToThin(sides, parseRatio(ratio)))).toBe(add);
});

test('what is thinner already cannot be brought back by adding developer', () => {
  const sides = { powder: d('15'), developer: d('45') };
  expect(refused(() => developerToThin(sides, parseRatio('1:2'))).code).toBe('nothing_to_add');
});

test('a bit more of the same keeps the proportion of what is there', () => {
  const contents = [line('a', { grams: '10' }), line('b', { grams: '20' })];
  expect(moreOfTheSame(contents, d('20')).map(canonical)).toEqual(['6.667', '13.333']);
  expect(canonical(contentsGrams(contents))).toBe('30');
  expect(refused(() => moreOfTheSame([], d('20'))).code).toBe('contents_unknown');
});

/** Strength: the trade's volumes and per cent, chemistry beside them, blends and who is chosen. */
import {
  alligationAlternate,
  alligationMedial,
  alligationParts,
  amountsOfTwo,
  amountToAdd,
  smallestWholeParts,
} from '../../shared/alligation.js';
import { canonical, decimal, fixed, round } from '../../shared/decimal.js';
import { chooseDevelopers, statedDevelopers } from '../../shared/developers.js';
import type { MixProduct } from '../../shared/mix.js';
import {
  molarVolume_L,
  molesPerLitreOfPercent,
  molesPerLitreOfVolume,
  normalityOfVolume,
  percentWeightPerVolume,
  stockForDilution,
  stoichiometricPercentOfVolume,
  stoichiometricVolumeOfPercent,
  tradeDifference,
} from '../../shared/peroxide.js';
import {
  exceedsPeroxideLimit,
  judgeStrength,
  percentOfVolume,
  peroxidePercentOfBowl,
  strengthOfBlend,
  strengthOfBottle,
  volumeOfPercent,
  waterStrength,
} from '../../shared/strength.js';
import { refused } from '../support/refused.js';

const sds = 'safety data sheet 17720; AMA, A Handbook of Useful Drugs';
const annex = 'Regulation (EC) 1223/2009, Annex III, entry 12';
const practice = 'common practice, no source';

test.each([
  { vol: '10', percent: '3', source: sds },
  { vol: '20', percent: '6', source: sds },
  { vol: '30', percent: '9', source: practice },
  { vol: '40', percent: '12', source: annex },
  { vol: '13', percent: '3.9', source: practice },
  { vol: '0', percent: '0', source: practice },
])('$vol vol is $percent % in the trade ($source)', ({ vol, percent }) => {
  expect(canonical(percentOfVolume(decimal(vol)))).toBe(percent);
  expect(canonical(volumeOfPercent(decimal(percent)))).toBe(vol);
});

test('above 40 vol asks, above 100 vol and below zero refuse', () => {
  expect(judgeStrength(decimal('40'))).toBe('usual');
  expect(judgeStrength(decimal('40.1'))).toBe('ask');
  expect(judgeStrength(decimal('100'))).toBe('ask');
  expect(refused(() => judgeStrength(decimal('200'))).code).toBe('strength_out_of_range');
  expect(refused(() => percentOfVolume(decimal('-1'))).code).toBe('strength_out_of_range');
  expect(refused(() => volumeOfPercent(decimal('30.1'))).code).toBe('strength_out_of_range');
});

test('what is printed on a bottle stands, what is not follows from it', () => {
  const printed = strengthOfBottle({ id: 'a', strength: decimal('6'), percent: decimal('1.9') });
  expect([canonical(printed.volume), canonical(printed.percent)]).toEqual(['6', '1.9']);
  expect(canonical(strengthOfBottle({ id: 'b', percent: decimal('1.8') }).volume)).toBe('6');
  expect(refused(() => strengthOfBottle({ id: 'c' })).code).toBe('developer_without_strength');
  const absurd = { id: 'd', strength: decimal('200'), percent: decimal('6') };
  expect(refused(() => strengthOfBottle(absurd)).code).toBe('strength_out_of_range');
});

test.each([
  { vol: '10', moles: '0.8923', percent: '3.035', source: 'derived: 2 H2O2 -> 2 H2O + O2' },
  { vol: '20', moles: '1.7846', percent: '6.070', source: 'derived: 2 H2O2 -> 2 H2O + O2' },
  { vol: '30', moles: '2.6769', percent: '9.105', source: 'derived: 2 H2O2 -> 2 H2O + O2' },
])('by chemistry $vol vol is $moles mol/L and $percent % w/v ($source)', (row) => {
  expect(fixed(molesPerLitreOfVolume(decimal(row.vol)), 4)).toBe(row.moles);
  expect(fixed(stoichiometricPercentOfVolume(decimal(row.vol)), 3)).toBe(row.percent);
});

test('by chemistry as printed elsewhere', () => {
  // chemzipper.com, Volume strength of H2O2 (2018)
  expect(fixed(normalityOfVolume(decimal('10')), 2)).toBe('1.79');
  // CLEAPSS, Student Safety Sheet 57 (2018): 5 % w/v is 1.5 mol/L and 18 vol
  const room = molarVolume_L.roomTemperature;
  expect(fixed(molesPerLitreOfPercent(decimal('5')), 1)).toBe('1.5');
  expect(fixed(stoichiometricVolumeOfPercent(decimal('5'), room), 0)).toBe('18');
  // derived; density 1.0204 g/ml is a value from memory
  const sixPercent = percentWeightPerVolume(decimal('6'), decimal('1.0204'));
  expect(fixed(sixPercent, 3)).toBe('6.122');
  expect(fixed(stoichiometricVolumeOfPercent(sixPercent), 2)).toBe('20.17');
  // bio.net, METHDS-REAGNTS, September 2018: 50 % w/w of 1.19662 g/ml, 17.5897 mol/L, 5.68513 ml
  const stock = molesPerLitreOfPercent(percentWeightPerVolume(decimal('50'), decimal('1.19662')));
  expect(fixed(stock, 4)).toBe('17.5897');
  expect(fixed(stockForDilution(decimal('1'), decimal('100'), stock), 5)).toBe('5.68513');
  // by hand: 6 / 6.07026 - 1
  expect(fixed(tradeDifference(decimal('20')), 4)).toBe('-0.0116');
});

test.each([
  {
    parts: [
      ['50', '6'],
      ['50', '20'],
    ],
    vol: '13',
    percent: '3.9',
    source: practice,
  },
  {
    parts: [
      ['40', '20'],
      ['40', '20'],
    ],
    vol: '20',
    percent: '6',
    source: practice,
  },
  {
    parts: [
      ['30', '9'],
      ['10', '5'],
      ['20', '0'],
    ],
    vol: '5.33',
    percent: '1.6',
    source: 'by hand',
  },
])('$parts.0 and $parts.1 make $vol vol ($source)', ({ parts, vol, percent }) => {
  const made = strengthOfBlend(
    parts.map(([ml, strength]) => ({
      millilitres: decimal(ml ?? ''),
      strength:
        strength === '0'
          ? waterStrength
          : strengthOfBottle({ id: '', strength: decimal(strength ?? '') }),
    })),
  );
  expect(canonical(round(made.volume, 2, 'half_even'))).toBe(vol);
  expect(canonical(round(made.percent, 2, 'half_even'))).toBe(percent);
});

test.each([
  {
    parts: [
      ['30', '0'],
      ['60', '12'],
    ],
    expected: '8.00',
    source: `derived from ${annex}`,
  },
  {
    parts: [
      ['40', '0'],
      ['40', '6'],
    ],
    expected: '3.00',
    source: 'derived',
  },
])('$parts of powder and developer hold $expected % peroxide ($source)', ({ parts, expected }) => {
  const percent = peroxidePercentOfBowl(
    parts.map(([grams, each]) => ({ grams: decimal(grams ?? ''), percent: decimal(each ?? '') })),
  );
  expect(fixed(percent, 2)).toBe(expected);
});

test('the most of a rule is not above the rule', () => {
  expect(exceedsPeroxideLimit(decimal('12.00'), decimal('12'))).toBe(false);
  expect(exceedsPeroxideLimit(decimal('12.01'), decimal('12'))).toBe(true);
});

const army = 'US Army Medical Department, Subcourse MD0802';

test('alligation as printed in pharmacy courses', () => {
  const pair = alligationAlternate(decimal('29.3'), decimal('12.3'), decimal('15.7'));
  const whole = smallestWholeParts([pair.stronger, pair.weaker]);
  expect(whole.map(canonical)).toEqual(['1', '4']); // rxcal.org, alligation type 2
  const three = alligationParts(['50', '20', '5'].map(decimal), decimal('10'));
  expect(smallestWholeParts(three).map(canonical)).toEqual(['1', '1', '10']); // uhphar-4330
  const litre = amountsOfTwo(decimal('1000'), decimal('75'), decimal('10'), decimal('45'));
  expect([fixed(litre.stronger, 2), fixed(litre.weaker, 2)]).toEqual(['538.46', '461.54']);
  const mean = alligationMedial([
    { amount: decimal('1'), strength: decimal('9') },
    { amount: decimal('1'), strength: decimal('6') },
  ]);
  expect(canonical(mean)).toBe('7.5'); // seilnacht.com, dilution of peroxide
});

test.each([
  { have: '480', now: '20', added: '100', target: '31', add: '76.52', source: 'rxcal.org, type 3' },
  { have: '960', now: '95', added: '0', target: '81', add: '165.93', source: 'rxcal.org, type 4' },
  { have: '120', now: '95', added: '0', target: '22', add: '398.18', source: 'rxcal.org, type 4' },
  { have: '300', now: '70', added: '0', target: '40', add: '225.00', source: army },
  { have: '500', now: '0.005', added: '0', target: '0.00025', add: '9500.00', source: army },
])('$have of $now with $added to $target takes $add ($source)', (row) => {
  const [have, now, added, target] = [row.have, row.now, row.added, row.target].map(decimal);
  if (!have || !now || !added || !target) throw new Error('a row lacks a figure');
  expect(fixed(amountToAdd(have, now, added, target), 2)).toBe(row.add);
});

const bottle = (id: string, vol: string, more: Partial<MixProduct> = {}): MixProduct => ({
  id,
  kind: 'developer',
  unit: 'ml',
  strength: decimal(vol),
  ...more,
});
const shelf = ['5', '6', '10', '13', '20', '30', '40'].map((vol) => bottle(`d${vol}`, vol));

test.each([
  { want: '13', from: ['d6', 'd20'], parts: ['d6 7', 'd20 7'], source: practice },
  { want: '13', from: ['d6', 'd13', 'd20'], parts: ['d13 1'], source: practice },
  { want: '15', from: ['d6', 'd10', 'd20', 'd30'], parts: ['d10 5', 'd20 5'], source: 'by hand' },
  { want: '25', from: ['d10', 'd40'], parts: ['d10 15', 'd40 15'], source: 'by hand' },
  { want: '7', from: ['d6', 'd10'], parts: ['d6 3', 'd10 1'], source: 'by hand' },
])('$want vol from $from: $parts ($source)', ({ want, from, parts }) => {
  const candidates = shelf.filter((each) => from.includes(each.id));
  const chosen = chooseDevelopers(candidates.reverse(), decimal(want));
  expect(chosen.map(({ product, parts: n }) => `${product.id} ${canonical(n)}`)).toEqual(parts);
});

test('equals go by earliest expiry, then id; no expiry is last', () => {
  const never = bottle('a', '20');
  const late = bottle('b', '20', { expiresOn: '2027-05-01' });
  const soon = bottle('d', '20', { expiresOn: '2026-09-30' });
  const twin = bottle('c', '20', { expiresOn: '2026-09-30' });
  const pick = (...from: MixProduct[]): string | undefined =>
    chooseDevelopers(from, decimal('20'))[0]?.product.id;
  expect(pick(never, late, soon, twin)).toBe('c');
  expect(pick(never, late)).toBe('b');
  const blended = chooseDevelopers([bottle('w', '10'), never, late], decimal('15'));
  expect(blended.map((each) => each.product.id)).toEqual(['w', 'b']);
});

test('developers of the powder’s line come first, others only where it cannot reach', () => {
  const own = [bottle('o10', '10', { line: 'Quay' }), bottle('o30', '30', { line: 'Quay' })];
  const other = [bottle('x20', '20', { line: 'Spit' }), bottle('x40', '40', { line: 'Spit' })];
  const ids = (vol: string): string[] =>
    chooseDevelopers([...own, ...other], decimal(vol), 'Quay').map((each) => each.product.id);
  expect(ids('20')).toEqual(['o10', 'o30']);
  expect(ids('35')).toEqual(['o30', 'x40']);
});

test('a strength out of reach names the reachable range; water never widens it', () => {
  const water: MixProduct = { id: 'w', kind: 'water', unit: 'ml', strength: decimal('0') };
  const problem = refused(() => chooseDevelopers([...shelf, water], decimal('3')));
  expect(problem.code).toBe('strength_unreachable');
  expect(problem.facts).toEqual({ strength: '3', lowest: '5', highest: '40' });
  expect(problem.message).toContain('from 5 to 40 vol');
  expect(refused(() => chooseDevelopers(shelf, decimal('200'))).code).toBe('strength_out_of_range');
  expect(refused(() => chooseDevelopers([water], decimal('10'))).code).toBe('no_developer');
});

test('a blend stated by shares must meet a strength asked for as well', () => {
  const half = ['6', '20'].map((vol) => ({ product: bottle(vol, vol) }));
  expect(statedDevelopers(half, decimal('13')).map((each) => canonical(each.parts))).toEqual([
    '1',
    '1',
  ]);
  const problem = refused(() => statedDevelopers(half, decimal('12')));
  expect(problem.code).toBe('shares_miss_the_strength');
  expect(problem.facts).toEqual({ made: '13', strength: '12' });
  const zeroShare = [{ product: bottle('a', '6'), share: decimal('0') }];
  expect(refused(() => statedDevelopers(zeroShare)).code).toBe('no_parts');
});

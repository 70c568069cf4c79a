/** The parts of weighing by themselves: stability, which bowl, check weight, sentences. */
import { decimal } from '../../shared/decimal.js';
import { permissibleError, rowsOfScale } from '../../shared/scales/accuracy-class.js';
import { compareCheckWeight } from '../../shared/weighing/check-weight.js';
import {
  instrumentSentences,
  plateSentences,
  sentenceOf,
} from '../../shared/weighing/sentences.js';
import { judge, lookBack, spanWithinOneInterval } from '../../shared/weighing/stability.js';
import { instrumentStates, plateStates } from '../../shared/weighing/state.js';
import { fittingBowls, type OpenBowl } from '../../shared/weighing/which-bowl.js';

const g = decimal;

test.each([
  [['42.3', '42.4', '42.3', '42.4'], '0.1', true, 'OIML R 76-1 cl. 4.4.2'],
  [['42.3', '42.4', '42.5'], '0.1', false, 'OIML R 76-1 cl. 4.4.2'],
  [['5', '6'], '1', true, 'OIML R 76-1 cl. 4.4.2'],
  [['5', '7'], '1', false, 'OIML R 76-1 cl. 4.4.2'],
  [[], '1', false, 'nothing seen is not stable'],
])('%j by %s: stable %s (%s)', (values, interval, stable) => {
  expect(spanWithinOneInterval(values.map(g), g(interval))).toBe(stable);
});

test('the window keeps the longer of its time and its count, and no more', () => {
  const rule = { windowMs: 800, readings: 5 };
  const after = (everyMs: number, count: number) => {
    let window: readonly { atMs: number; grams: ReturnType<typeof g> }[] = [];
    for (let each = 0; each < count; each += 1) {
      window = lookBack(window, { atMs: each * everyMs, grams: g('1') }, rule);
    }
    return window.length;
  };
  expect(after(500, 20)).toBe(5); // five readings take 2 s
  expect(after(100, 20)).toBe(9); // 800 ms take nine readings
  expect(after(1, 5000)).toBe(256); // never more than it can hold
});

test('the scale’s own word goes before its span', () => {
  const wide = [
    { atMs: 0, grams: g('1') },
    { atMs: 5000, grams: g('9') },
  ];
  const rule = { windowMs: 800, readings: 2 };
  expect(judge(wide, true, g('1'), rule)).toEqual({ stable: true, windowMs: 0 });
  expect(judge(wide, undefined, g('1'), rule)).toEqual({ stable: false, windowMs: 5000 });
});

const front: OpenBowl = {
  id: 'front',
  tareGrams: g('120'),
  contentsGrams: g('90'),
  lastGrossGrams: g('210'),
  vesselId: 'triangle',
};
const nape: OpenBowl = {
  id: 'nape',
  tareGrams: g('95'),
  contentsGrams: g('60'),
  lastGrossGrams: g('155'),
  vesselId: 'two lines',
};
const vessels = [
  { id: 'triangle', tareGrams: g('120') },
  { id: 'two lines', tareGrams: g('95') },
  { id: 'square', tareGrams: g('134') },
];

test.each([
  { gross: '210', resumes: 'front', offered: ['front'], newIn: [], why: 'as it last weighed' },
  { gross: '212', resumes: 'front', offered: ['front'], newIn: [], why: 'within two intervals' },
  { gross: '213', resumes: undefined, offered: [], newIn: [], why: 'heavier than any' },
  { gross: '140', resumes: undefined, offered: ['nape', 'front'], newIn: [], why: 'fits both' },
  { gross: '154', resumes: 'nape', offered: ['nape', 'front'], newIn: [], why: 'nape, untouched' },
  { gross: '96', resumes: undefined, offered: ['nape'], newIn: [], why: 'nape, used up' },
  { gross: '134', resumes: undefined, offered: ['nape', 'front'], newIn: ['square'], why: 'empty' },
  { gross: '90', resumes: undefined, offered: [], newIn: [], why: 'lighter than any' },
])('$gross g: $why', ({ gross, resumes, offered, newIn }) => {
  const fit = fittingBowls(g(gross), g('1'), [front, nape], vessels);
  expect(fit).toEqual({ resumes, offered, newIn });
});

test('two bowls of the same last weight: none resumes by itself', () => {
  const twin = { ...front, id: 'back', lastGrossGrams: g('211') };
  const fit = fittingBowls(g('210'), g('1'), [front, twin], []);
  expect(fit).toEqual({ resumes: undefined, offered: ['front', 'back'], newIn: [] });
});

test.each([
  ['512', '514', false],
  ['512', '515', true],
  ['512', '509', true],
])('check weight of %s g, now %s: off %s', (before, now, off) => {
  expect(compareCheckWeight(g(before), g(now), g('1')).off).toBe(off);
});

// OIML R 76-1 tables 3 and 6
test.each([
  ['3000', '0.1', ['II']],
  ['5000', '1', ['II', 'III']],
  ['1000', '0.1', ['II', 'III']],
])('%s g by %s g can be class %j', (most, interval, classes) => {
  expect(rowsOfScale(g(most), g(interval)).map((row) => row.class)).toEqual(classes);
});

test.each([
  ['III', '500', '0.5'],
  ['III', '501', '1'],
  ['III', '2001', '1.5'],
  ['II', '20001', '1.5'],
] as const)('class %s at %s e may be %s e off', (name, load, error) => {
  expect(permissibleError(name, g(load)).toFixed()).toBe(error);
});

test('sentences say what happened, in the page’s way of writing grams', () => {
  expect(sentenceOf({ type: 'lifted', keptGrams: g('62') })).toBe('Lifted. 62 g kept.');
  expect(sentenceOf({ type: 'residue', grams: g('2') })).toBe('2 g on the plate. Wipe it.');
  expect(sentenceOf({ type: 'unit_changed', unit: 'ounce' })).toBe(
    'Scale is in ounces; converted.',
  );
  expect(
    sentenceOf({ type: 'asleep', keptGrams: g('62.5') }, (grams) => `${grams.toFixed(2)} Gramm`),
  ).toBe('The scale sleeps. Press its key. 62.50 Gramm are kept.');
  expect(sentenceOf({ type: 'asleep', keptGrams: undefined })).toBe(
    'The scale sleeps. Press its key.',
  );
});

test('every state has one sentence, ended by a full stop or a question', () => {
  const all = [
    ...instrumentStates.map((state) => instrumentSentences[state]),
    ...plateStates.map((state) => plateSentences[state]),
  ];
  expect(all).toHaveLength(instrumentStates.length + plateStates.length);
  for (const sentence of all) expect(sentence).toMatch(/^[A-Z].*[.?]$/);
});

/** Lines of serial scales: every form, in pieces, with noise, cut. */
import { canonical } from '../../../shared/decimal.js';
import { readTextLine } from '../../../shared/scales/text-lines.js';
import { bytesOf, heard, inShort } from '../../support/scale-bytes.js';

interface Row {
  line: string;
  means: string;
  source: string;
}

const balance = 'bench-balance manuals: header, sign, number, unit';
const indicator = 'indicator manuals: status, gross or net, weight, unit';
const legend = 'bench-scale manuals: weight, unit, stability, legend';

test.each<Row>([
  { line: 'ST,+001234.5  g', means: '1234.5 g stable', source: balance },
  { line: 'QT,+00012345 PC', means: '12345 piece stable', source: balance },
  { line: 'ST,+000123.4  %', means: '123.4 percent stable', source: balance },
  { line: 'WT,+000123.4  g', means: '123.4 g stable', source: balance },
  { line: 'OL,+999999.9  g', means: 'over', source: balance },
  { line: 'OL,-99999999 PC', means: 'under', source: balance },
  { line: 'US,-00183.96  g', means: '-183.96 g moving', source: balance },
  { line: 'ST,+00000.00  g', means: '0 g stable', source: balance },
  { line: 'ST,-00000.00  g', means: '0 g stable', source: 'no negative zero' },
  { line: 'ST,GS,  18.000kg', means: '18 kg stable gross', source: indicator },
  { line: 'US,NT,-  0.200kg', means: '-0.2 kg moving net', source: indicator },
  { line: 'ST,NT,+ 0.2000,kg', means: '0.2 kg stable net', source: `${indicator}, comma` },
  { line: 'OL,GS,  18.000kg', means: 'over', source: indicator },
  { line: '    192.21 g', means: '192.21 g stable', source: legend },
  { line: '      0.01 g     ?', means: '0.01 g moving', source: legend },
  { line: '    192.21 g       NET', means: '192.21 g stable net', source: legend },
  { line: '    192.21 g     ? G', means: '192.21 g moving gross', source: legend },
  { line: 'SI       12.345 g  ', means: '12.345 g stable', source: 'command echo' },
  { line: 'SI ?     12.345 g  ', means: '12.345 g moving', source: 'command echo' },
  { line: 'SI   -   12.345 g  ', means: '-12.345 g stable', source: 'command echo' },
  { line: 'SI ^     12.345 g  ', means: 'over', source: 'command echo' },
  { line: 'SI v     12.345 g  ', means: 'under', source: 'command echo' },
  { line: 'Z_A', means: 'reply accepted', source: 'command echo' },
  { line: 'Z I', means: 'reply not_now', source: 'command echo' },
  { line: 'T_E', means: 'reply timed_out', source: 'command echo' },
  { line: 'S S    100.00 g', means: '100 g stable', source: 'letter status' },
  { line: 'S D    100.00 g', means: '100 g moving', source: 'letter status' },
  { line: 'S I', means: 'not_ready', source: 'letter status' },
  { line: 'S +', means: 'over', source: 'letter status' },
  { line: 'S -', means: 'under', source: 'letter status' },
  { line: 'ST,+00123.45', means: 'damage unreadable', source: 'unit lost' },
  { line: 'ST,+0123.45  g', means: 'damage unreadable', source: 'digit lost' },
  { line: 'ST,+0.123.45  g', means: 'damage unreadable', source: 'two points' },
  { line: '   192.21 g', means: 'damage unreadable', source: 'a column lost' },
  { line: '    192.2  g', means: 'damage unreadable', source: 'last digit lost' },
  { line: '      0.01 g     ', means: 'damage unreadable', source: 'its mark lost' },
  { line: 'ST,+000123.4 zz', means: 'damage unknown_unit', source: 'no such unit' },
  { line: 'hello', means: 'damage unreadable', source: 'no line of a scale' },
  { line: 'constructor', means: 'damage unreadable', source: 'a name every object has' },
])('"$line" is $means ($source)', ({ line, means }) => {
  expect(inShort(readTextLine(line))).toBe(means);
});

// exact factors of UCUM 2.2, by hand
test.each([
  ['ST,GS,   1.000lb', '453.59237'],
  ['ST,+000001.5 oz', '42.5242846875'],
  ['ST,+000002.0ozt', '62.2069536'],
  ['ST,+000010.0 ct', '2'],
  ['ST,+000100.0 GN', '6.479891'],
  ['ST,+000001.0dwt', '1.55517384'],
])('"%s" is %s g', (line, grams) => {
  const reading = readTextLine(line);
  if (reading.kind !== 'reading') throw new Error(inShort(reading));
  expect(canonical(reading.grams!)).toBe(grams);
});

test.each(['ST,+000001.0 tl', 'ST,+000001.0mom', 'ST,+000001.0  N', 'QT,+00000012 PC'])(
  '"%s" has no grams',
  (line) => {
    expect(readTextLine(line)).toMatchObject({ kind: 'reading', status: 'weight' });
    expect(readTextLine(line)).not.toHaveProperty('grams');
  },
);

const g5 = 'ST,+00005.00  g\r\n';
const g6 = 'ST,+00006.00  g\r\n';

test('the first line after a connect is dropped, and a width is believed the second time', () => {
  const found = heard('text_lines', [bytesOf(`5.00  g\r\n${g5}${g5}${g6}`)]);
  expect(found.map(inShort)).toEqual([
    'damage started_midway',
    'damage new_width',
    '5 g stable',
    '6 g stable',
  ]);
});

test('a line that came in whole after an empty one is still the first', () => {
  expect(heard('text_lines', [bytesOf(`\r\n${g5}${g5}`)]).map(inShort)).toEqual([
    'damage new_width',
    '5 g stable',
  ]);
});

interface Lost {
  good: string;
  cut: string;
  wouldBe: string;
}

test.each<Lost>([
  { good: 'ST,GS,  18.000kg', cut: 'ST,GS,  8.000kg', wouldBe: '8 kg' },
  { good: 'ST,+000001.2 kg', cut: 'ST,+000001.2 g', wouldBe: '1.2 g' },
  { good: '    192.21 kg', cut: '    192.21 g', wouldBe: '192.21 g' },
  { good: 'S S    100.00 g', cut: 'S S    10.00 g', wouldBe: '10 g' },
])('"$cut" with a byte lost would read $wouldBe and is not believed', ({ good, cut, wouldBe }) => {
  expect(inShort(readTextLine(cut))).toContain(wouldBe);
  const lines = [good, good, good, cut, good].map((line) => `${line}\r\n`).join('');
  const found = heard('text_lines', [bytesOf(lines)]).map(inShort);
  expect(found[3]).toBe('damage new_width');
  expect(found[4]).toBe(found[2]);
});

test('a mark that comes and goes does not change the width', () => {
  const lines = ['x', '    192.21 g', '    192.22 g     ?', '    192.21 g'];
  const found = heard('text_lines', [bytesOf(lines.map((line) => `${line}\r\n`).join(''))]);
  expect(found.map(inShort)).toEqual([
    'damage started_midway',
    'damage new_width',
    '192.22 g moving',
    '192.21 g stable',
  ]);
});

test('noise without an end of line is dropped once and does not grow', () => {
  const found = heard('text_lines', [bytesOf(`\r\n${'9'.repeat(5000)}\r\n${g5}${g5}`)]);
  expect(found.map(inShort)).toEqual(['damage too_long', 'damage new_width', '5 g stable']);
  expect(found[0]!.carriedBy).toHaveLength(96);
});

test('bytes that no text has make a line unreadable', () => {
  const found = heard('text_lines', [bytesOf(`\r\n${g5}${g5}ST,+0000\u00b5.00  g\r\n${g6}`)]);
  expect(found.map(inShort)).toEqual([
    'damage new_width',
    '5 g stable',
    'damage not_text',
    '6 g stable',
  ]);
});

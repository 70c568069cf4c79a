/** Scales that answer when asked: SMA SCP-0499, and the protocol with status bytes. */
import { canonical } from '../../../shared/decimal.js';
import { requestsOf } from '../../../shared/scales/decoders.js';
import { filledField, statusBits } from '../../../shared/scales/status-bytes.js';
import { bytesOf, heard, inShort } from '../../support/scale-bytes.js';

interface Row {
  reply: string;
  means: string;
  source: string;
}

const scp = 'SMA SCP-0499 (1999, mod. 2005), examples in device manuals';

test.each<Row>([
  { reply: '\n 1G       5.025lb \r', means: '5.025 pound stable gross', source: scp },
  { reply: '\n 1N      100000lb \r', means: '100000 pound stable net', source: scp },
  { reply: '\n 1g      5.0025lb \r', means: '5.0025 pound stable gross', source: scp },
  { reply: '\nZ1G       0.000lb \r', means: '0 pound stable gross at zero', source: scp },
  { reply: '\n 1G       7.025kg \r', means: '7.025 kg stable gross', source: scp },
  { reply: '\n 1GM      7.650kg \r', means: '7.65 kg moving gross', source: scp },
  { reply: '\n 1G      -0.050kg \r', means: '-0.05 kg stable gross', source: 'by the columns' },
  { reply: '\nO1G       9.999kg \r', means: 'over', source: scp },
  { reply: '\nU1G      -9.999kg \r', means: 'under', source: scp },
  { reply: '\nE1G  ----------kg \r', means: 'needs_zero', source: scp },
  { reply: '\nE1G  ----------kg\r', means: 'damage unreadable', source: 'a column missing' },
  { reply: '\nI1G  ----------kg  \r', means: 'damage unreadable', source: 'a column too many' },
  { reply: '\n 1T       0.200kg \r', means: 'reply tare', source: 'by the columns' },
  { reply: '\n    \r', means: 'reply diagnostics', source: scp },
  { reply: '\nCAP:kg :6000:1:0\r', means: 'reply capacity', source: scp },
  { reply: '\nSMA:2/1.0\r', means: 'reply information', source: 'by the form' },
  { reply: '\n?\r', means: 'reply unknown_command', source: scp },
  { reply: '\n!\r', means: 'reply line_error', source: scp },
  { reply: '\n 1G       7.02kg \r', means: 'damage unreadable', source: 'a byte lost' },
  { reply: '\n 1G       7.0\n 1G       7.025kg \r', means: 'damage unreadable', source: 'broken' },
  { reply: '\n 1G       7.025zz \r', means: 'damage unknown_unit', source: 'no such unit' },
  { reply: '\n 1G       7.0\u00b55kg \r', means: 'damage not_text', source: 'noise' },
])('SMA reply $reply is $means ($source)', ({ reply, means }) => {
  expect(heard('sma', [bytesOf(reply)]).map(inShort)[0]).toBe(means);
});

test.each([
  ['E', 'needs_zero'],
  ['I', 'needs_zero'],
  ['T', 'fault'],
])('an SMA status %s comes with ten dashes and no figure: %s', (letter, status) => {
  const [found] = heard('sma', [bytesOf(`\n${letter}1G  ${'-'.repeat(10)}lb \r`)]);
  expect(found).toMatchObject({ kind: 'reading', status });
  expect(found).not.toHaveProperty('grams');
});

test('outside LF and CR nothing is a reply, and a reply begun before the connect is none', () => {
  const found = heard('sma', [bytesOf(' 7.025kg \rxx\n 1G       7.025kg \rnoise')]);
  expect(found.map(inShort)).toEqual(['7.025 kg stable gross']);
});

interface Status {
  bytes: string;
  on: string[];
  source: string;
}

const manuals = 'status-byte table in bench-scale manuals; derived';

test.each<Status>([
  { bytes: '00', on: [], source: manuals },
  { bytes: '10', on: ['motion'], source: manuals },
  { bytes: '20', on: ['atZero'], source: manuals },
  { bytes: '01', on: ['underCapacity'], source: manuals },
  { bytes: '02', on: ['overCapacity'], source: manuals },
  { bytes: '40', on: ['ramError'], source: manuals },
  { bytes: '80', on: ['eepromError'], source: manuals },
  { bytes: '04', on: ['romError'], source: manuals },
  { bytes: '08', on: ['calibrationFault'], source: manuals },
  { bytes: '0p4', on: ['net'], source: manuals },
  { bytes: '0p8', on: ['zeroError'], source: manuals },
])('status bytes "$bytes" say $on ($source)', ({ bytes, on }) => {
  const bits = statusBits([...bytes].map((letter) => letter.charCodeAt(0)))!;
  expect(Object.keys(bits).filter((name) => bits[name as keyof typeof bits] === true)).toEqual(on);
});

test.each(['0', '0000', '0p', '000', 'p0', '\u00010'])('"%s" are no status bytes', (bytes) => {
  expect(statusBits([...bytes].map((letter) => letter.charCodeAt(0)))).toBeUndefined();
});

test('parity in bit 7 changes nothing', () => {
  expect(statusBits([0x31 | 0x80, 0x30])).toEqual(statusBits([0x31, 0x30]));
});

test.each([
  ['^^^^^^', 'over_capacity'],
  ['______', 'under_capacity'],
  ['------', 'zero_error'],
  ['  12.3', undefined],
  ['-', undefined],
])('a weight field "%s" means %s', (field, meaning) => {
  expect(filledField(field)).toBe(meaning);
});

const answer = (weight: string, status: string) => `\n${weight}\r\n${status}\r\u0003`;

test('answers with status bytes, the first of a width not yet believed', () => {
  const stream = [
    answer('  123.4g', '00'),
    answer('  123.4g', '00'),
    answer('  150.0g', '10'),
    answer('    0.0g', '20'),
    answer('  999.9g', '02'),
    answer('^^^^^^^g', '00'),
    answer('  150.0g', '0p4'),
    '\n00\r\u0003',
    '\n?\r\u0003',
  ].join('');
  expect(heard('status_bytes', [bytesOf(`23.4g\r\n00\r\u0003${stream}`)]).map(inShort)).toEqual([
    'reply status',
    'damage new_width',
    '123.4 g stable',
    '150 g moving',
    '0 g stable at zero',
    'over',
    'over',
    'damage new_width',
    'reply status',
    'reply unknown_command',
  ]);
});

test('a lost digit is a new width and is not believed', () => {
  const good = answer('  123.4g', '00');
  const found = heard('status_bytes', [bytesOf(`${good}${good}${answer('  12.4g', '00')}${good}`)]);
  expect(found.map(inShort)).toEqual([
    'damage new_width',
    '123.4 g stable',
    'damage new_width',
    '123.4 g stable',
  ]);
});

test('the worth of the last place is the interval, in grams', () => {
  const [found] = heard('sma', [bytesOf('\n 1G       7.025kg \r')]);
  if (found?.kind !== 'reading') throw new Error('no reading');
  expect(canonical(found.intervalGrams!)).toBe('1');
});

test('only polled scales are asked', () => {
  expect(requestsOf('sma')).toMatchObject({ weight: '\nW\r', zero: '\nZ\r' });
  expect(requestsOf('status_bytes')).toEqual({ weight: 'W\r', zero: 'Z\r' });
  expect(requestsOf('text_lines')).toBeUndefined();
  expect(requestsOf('hid')).toBeUndefined();
});

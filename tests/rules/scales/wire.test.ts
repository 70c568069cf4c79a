/** Messages about a scale as text: what they carry there and back, and what is no message. */
import fc from 'fast-check';
import { decimal } from '../../../shared/decimal.js';
import { listen } from '../../../shared/scales/decoders.js';
import {
  freshMs,
  heardAlso,
  newcomerHears,
  nothingHeard,
} from '../../../shared/scales/last-heard.js';
import type { Reading } from '../../../shared/scales/reading.js';
import { scaleUnits } from '../../../shared/scales/scale-units.js';
import { longestMessage, readTold, writeTold, type Told } from '../../../shared/scales/wire.js';
import { bytesOf } from '../../support/scale-bytes.js';

/** The reading of a line, heard three times: the first is dropped, the second not yet believed. */
function readingOf(line: string): Reading {
  const found = listen('text_lines')
    .feed(bytesOf(`${line}\r\n`.repeat(3)))
    .found.at(-1);
  if (found?.kind !== 'reading') throw new Error(`No reading: ${line}`);
  return found;
}

test.each([
  ['ST,GS,+    42.5g', { value: '42.5', unit: 'g', stable: true, mode: 'gross', interval: '0.1' }],
  ['US,NT,-  0.200kg', { value: '-0.2', unit: 'kg', stable: false, mode: 'net', interval: '1' }],
  ['QT,+00012345 PC', { value: '12345', unit: 'piece', stable: true, mode: 'unknown' }],
])('%s travels as it was read', (line, figure) => {
  const text = writeTold({ type: 'reading', reading: readingOf(line) });
  expect(JSON.parse(text)).toEqual({
    type: 'reading',
    reading: { status: 'weight', ...figure, carriedBy: line },
  });
  expect(readTold(text)).toEqual({ type: 'reading', reading: readingOf(line) });
});

test('grams are worked out from value and unit: 1 ounce (UCUM 2.2) is 28.349523125 g', () => {
  const view = { status: 'weight', value: '1', unit: 'ounce', mode: 'unknown', carriedBy: '' };
  const told = readTold(JSON.stringify({ type: 'reading', reading: view }));
  expect(told?.type === 'reading' && told.reading.grams?.toFixed()).toBe('28.349523125');
});

test('a state of the scale carries no figure, whatever the text adds', () => {
  const view = { status: 'over', value: '9', unit: 'g', mode: 'gross', carriedBy: 'OL' };
  const told = readTold(JSON.stringify({ type: 'reading', reading: view }));
  expect(told).toEqual({
    type: 'reading',
    reading: { kind: 'reading', status: 'over', mode: 'gross', stable: undefined, carriedBy: 'OL' },
  });
});

test('a figure that plain notation cannot carry is damage', () => {
  const value = decimal('1').dividedBy(decimal('10').pow(40));
  const reading: Reading = { ...readingOf('ST,GS,+    42.5g'), value, grams: value };
  expect(writeTold({ type: 'reading', reading })).toBe('{"type":"damage"}');
});

const aReading = fc
  .record({
    status: fc.constantFrom<Reading['status']>('weight', 'over', 'under', 'fault', 'not_ready'),
    mode: fc.constantFrom<Reading['mode']>('gross', 'net', 'unknown'),
    stable: fc.option(fc.boolean(), { nil: undefined }),
    value: fc.bigInt({ min: -99999999n, max: 99999999n }),
    places: fc.nat({ max: 4 }),
    unit: fc.constantFrom(...scaleUnits),
    carriedBy: fc.string({ maxLength: 96 }),
  })
  .map(({ status, value, places, unit, ...rest }) => {
    const figure = decimal(`${value}`).dividedBy(decimal('10').pow(places));
    return {
      kind: 'reading',
      status,
      ...rest,
      ...(status === 'weight' ? { value: figure, unit } : {}),
    } satisfies Reading;
  });

test('law: what is written is read again', () => {
  fc.assert(
    fc.property(aReading, (reading) => {
      const text = writeTold({ type: 'reading', reading });
      const told = readTold(text);
      expect(text.length).toBeLessThanOrEqual(longestMessage);
      expect(told && writeTold(told)).toBe(text);
    }),
    { numRuns: 2000 },
  );
});

test('fuzz: no text makes reading throw, and what is read can be written and read again', () => {
  const told = writeTold({ type: 'reading', reading: readingOf('ST,GS,+    42.5g') });
  const damaged = fc
    .tuple(fc.nat({ max: told.length }), fc.nat({ max: 12 }), fc.string({ maxLength: 6 }))
    .map(([at, length, put]) => told.slice(0, at) + put + told.slice(at + length));
  const anything = fc.oneof(damaged, fc.string(), fc.json(), fc.string({ unit: 'binary' }));
  fc.assert(
    fc.property(anything, (text) => {
      const read = readTold(text);
      if (read) expect(readTold(writeTold(read))).toEqual(read);
    }),
    { numRuns: 100_000 },
  );
}, 60_000);

test('a newcomer hears the trouble, else the latest reading while it is fresh', () => {
  const reading: Told = { type: 'reading', reading: readingOf('ST,GS,+    42.5g') };
  const lost: Told = { type: 'lost', trouble: 'unplugged' };
  expect(newcomerHears(nothingHeard, 0)).toEqual([{ type: 'lost', trouble: 'nobody_there' }]);

  const heard = heardAlso(nothingHeard, reading, 1000);
  expect(freshMs).toBe(2000);
  expect(newcomerHears(heard, 3000)).toEqual([reading]);
  expect(newcomerHears(heard, 3001)).toEqual([]);
  expect(newcomerHears(heardAlso(heard, { type: 'damage' }, 1500), 2000)).toEqual([reading]);

  expect(newcomerHears(heardAlso(heard, lost, 1500), 1600)).toEqual([lost]);
  const back = heardAlso(heardAlso(heard, lost, 1500), { type: 'back' }, 1700);
  expect(newcomerHears(back, 1800)).toEqual([]);
});

/** Pours beyond the book: which are unexplained, worked out from what was recorded. */
import { canonical, decimal, fixed, type Decimal } from '../../../shared/decimal.js';
import { lowered, shortages } from '../../../shared/moving/levels.js';
import { openShortfalls, type ShortfallEntry } from '../../../shared/moving/shortfalls.js';

const entry = (
  kind: ShortfallEntry['kind'],
  on: string,
  quantity: string,
  rest: Partial<ShortfallEntry> = {},
): ShortfallEntry => ({
  kind,
  at: `${on}T10:00:00.000Z`,
  on,
  lotId: kind === 'short' ? 'short' : 'B',
  quantity: decimal(quantity),
  value: decimal('0'),
  ...rest,
});

test.each([
  {
    name: 'nothing explained',
    entries: [entry('short', '2026-03-02', '30')],
    open: ['2026-03-02 30'],
    tooMuch: [],
  },
  {
    name: 'a delivery explained part of it',
    entries: [entry('short', '2026-03-02', '30'), entry('given', '2026-03-02', '20')],
    open: ['2026-03-02 10'],
    tooMuch: [],
  },
  {
    name: 'the pour was undone, the delivery gave for nothing',
    entries: [entry('given', '2026-03-01', '20', { value: decimal('0.4') })],
    open: [],
    tooMuch: ['B 20 for 0.400000'],
  },
  {
    name: 'and that came back to the shelf',
    entries: [
      entry('given', '2026-03-01', '20', { value: decimal('0.4') }),
      entry('taken again', '2026-03-01', '20', { value: decimal('0.4') }),
    ],
    open: [],
    tooMuch: [],
  },
  {
    name: 'it was about a pour an hour after: that one was undone',
    entries: [
      entry('short', '2026-03-02', '30'),
      entry('given', '2026-03-02', '30', {
        at: '2026-03-02T11:00:00.000Z',
        value: decimal('3'),
      }),
    ],
    open: ['2026-03-02 30'],
    tooMuch: ['B 30 for 3.000000'],
  },
])('$name (worked out by hand)', ({ entries, open, tooMuch }) => {
  const replayed = openShortfalls(entries);
  expect(replayed.open.map((each) => `${each.on} ${canonical(each.quantity)}`)).toEqual(open);
  expect(
    replayed.tooMuch.map(
      (each) => `${each.lotId} ${canonical(each.quantity)} for ${fixed(each.value, 6)}`,
    ),
  ).toEqual(tooMuch);
});

const level = (on: string, quantity: string) => ({ at: '', on, quantity: decimal(quantity) });
const at = (on: string) => ({ at: `${on}T10:00:00.000Z`, on });
const levels = [
  level('2026-03-01', '20'),
  level('2026-03-03', '520'),
  level('2026-03-04', '12'),
  level('2026-03-05', '300'),
];
const plain = (each: { on: string; quantity: Decimal }) => `${each.on} ${canonical(each.quantity)}`;

test.each([
  { on: '2026-03-02', quantity: '30', missing: ['2026-03-02 10', '2026-03-04 8'] },
  { on: '2026-03-02', quantity: '12', missing: [] },
  { on: '2026-03-03', quantity: '30', missing: ['2026-03-04 18'] },
  { on: '2026-03-05', quantity: '300', missing: [] },
  { on: '2026-03-09', quantity: '301', missing: ['2026-03-09 1'] },
])('$quantity taken late, on $on: missing $missing (worked out by hand)', (row) => {
  const missing = shortages(levels, at(row.on), decimal(row.quantity));
  expect(missing.map(plain)).toEqual(row.missing);
});

test('no level known, nothing is missing', () => {
  expect(shortages([], at('2026-03-01'), decimal('5'))).toEqual([]);
});

test('levels after a late draw of 30: never below zero (worked out by hand)', () => {
  const moment = at('2026-03-02');
  const missing = shortages(levels, moment, decimal('30'));
  expect(lowered(levels, moment, decimal('30'), missing).map(plain)).toEqual([
    '2026-03-01 20',
    '2026-03-02 0',
    '2026-03-03 500',
    '2026-03-04 0',
    '2026-03-05 288',
  ]);
});

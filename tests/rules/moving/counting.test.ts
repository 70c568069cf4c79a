/** Counts: less than the book, more, explained later, older than one that stands. */
import { canonical, decimal } from '../../../shared/decimal.js';
import { settleCount, type CountOrder } from '../../../shared/moving/counting.js';
import { takenByCounts, type CountMovement } from '../../../shared/moving/taken.js';
import type { ProductStock } from '../../../shared/moving/stock.js';
import { lines, lotOf, lotsLeft, shelfOf } from '../../support/shelf.js';

const byHand = 'worked out by hand';
const evening = '2026-03-10T18:00:00.000Z';
const count = (book: string, counted: string, rest: Partial<CountOrder> = {}): CountOrder => ({
  book: decimal(book),
  counted: decimal(counted),
  countedAt: evening,
  day: '2026-03-10',
  taken: [],
  foundLotId: 'found',
  ...rest,
});
const taken = (lotId: string, quantity: string, value: string) => ({
  lotId,
  receivedOn: '2026-01-01',
  expiresOn: null,
  quantity: decimal(quantity),
  value: decimal(value),
});

interface Row {
  name: string;
  shelf: ProductStock;
  order: CountOrder;
  moved: string[];
  left: string[];
  flags: string[];
  source: string;
}

const rows: Row[] = [
  {
    name: 'as the book says',
    shelf: shelfOf([lotOf('A', '100', '10')]),
    order: count('100', '100'),
    moved: [],
    left: ['A 100 for 10.000000'],
    flags: [],
    source: byHand,
  },
  {
    name: 'below the book: drawn as a pour is',
    shelf: shelfOf([lotOf('A', '15', '3'), lotOf('B', '85', '8.5', { receivedOn: '2026-02-01' })]),
    order: count('100', '80'),
    moved: [
      'shelf > correction, A, 15 for 3.000000 (counted)',
      'shelf > correction, B, 5 for 0.500000 (counted)',
    ],
    left: ['B 80 for 8.000000'],
    flags: [],
    source: byHand,
  },
  {
    name: 'above the book: what counts took comes back first, the rest is found',
    shelf: shelfOf([lotOf('B', '80', '8')]),
    order: count('80', '103', { taken: [taken('B', '5', '0.5'), taken('A', '15', '3')] }),
    moved: [
      'correction > shelf, B, 5 for 0.500000 (counted)',
      'correction > shelf, A, 15 for 3.000000 (counted)',
      'correction > shelf, found, 3 for 0.300000 (counted)',
    ],
    left: ['A 15 for 3.000000', 'B 85 for 8.500000', 'found 3 for 0.300000'],
    flags: [],
    source: `${byHand}; cost of what was found: that of the newest lot, 0.10`,
  },
  {
    name: 'found where nothing ever had a price',
    shelf: shelfOf([]),
    order: count('0', '40'),
    moved: ['correction > shelf, found, 40 for 0.000000 (counted)'],
    left: ['found 40 for 0.000000'],
    flags: ['no_cost'],
    source: byHand,
  },
  {
    name: 'counted at 18:00, entered after a pour of 18:30 went 10 beyond the book',
    shelf: shelfOf([], {
      fallbackUnitCost: decimal('0.1'),
      shortfalls: [
        { at: '2026-03-10T18:30:00.000Z', on: '2026-03-10', quantity: decimal('10') },
        { at: '2026-03-10T17:30:00.000Z', on: '2026-03-10', quantity: decimal('7') },
      ],
    }),
    order: count('100', '120'),
    moved: [
      'correction > shelf, short, 10 for 0.000000 (counted)',
      'shelf > correction, short, 10 for 0.000000 (shortfall given back)',
      'correction > shelf, found, 10 for 1.000000 (counted)',
    ],
    left: ['found 10 for 1.000000'],
    flags: [],
    source: `${byHand}: 120 there, 110 poured, 10 left; the 7 are closed by the count`,
  },
  {
    name: 'more is missing than the shelf still has',
    shelf: shelfOf([lotOf('A', '5', '1')]),
    order: count('100', '80'),
    moved: [
      'shelf > correction, A, 5 for 1.000000 (counted)',
      'correction > shelf, short, 15 for 3.000000 (shortfall)',
      'shelf > correction, short, 15 for 3.000000 (counted)',
    ],
    left: [],
    flags: ['recount'],
    source: byHand,
  },
  {
    name: 'older than the count that stands: nothing changes',
    shelf: shelfOf([lotOf('A', '100', '10')], { lastCountedAt: '2026-03-11T08:00:00.000Z' }),
    order: count('100', '80'),
    moved: [],
    left: ['A 100 for 10.000000'],
    flags: [],
    source: byHand,
  },
];

test.each(rows)('$name ($source)', ({ shelf, order, moved, left, flags }) => {
  const result = settleCount(shelf, order);
  expect(lines(result.movements)).toEqual(moved);
  expect(lotsLeft(result.stock)).toEqual(left);
  expect(result.flags).toEqual(flags);
});

test('a count closes the shortfalls before it and stands from its instant on', () => {
  const shelf = shelfOf([lotOf('A', '100', '10')], {
    shortfalls: [{ at: '2026-03-10T17:30:00.000Z', on: '2026-03-10', quantity: decimal('7') }],
  });
  const { stock, stands } = settleCount(shelf, count('100', '100'));
  expect({ stands, at: stock.lastCountedAt, open: stock.shortfalls }).toEqual({
    stands: true,
    at: evening,
    open: [],
  });
});

const moved = (
  way: CountMovement['way'],
  lotId: string,
  quantity: string,
  value: string,
  byCount = true,
): CountMovement => ({ ...taken(lotId, quantity, value), way, byCount });

test.each([
  {
    name: 'newest first',
    history: [moved('taken', 'A', '15', '3'), moved('taken', 'B', '5', '0.5')],
    expected: ['B 5 0.5', 'A 15 3'],
  },
  {
    name: 'what a count put back is gone from its lot',
    history: [
      moved('taken', 'A', '15', '3'),
      moved('taken', 'B', '5', '0.5'),
      moved('put back', 'A', '10', '2'),
    ],
    expected: ['B 5 0.5', 'A 5 1'],
  },
  {
    name: 'what a late bowl explained is gone, whatever its lot',
    history: [
      moved('taken', 'A', '15', '3'),
      moved('taken', 'B', '5', '0.5'),
      moved('put back', 'C', '8', '1', false),
    ],
    expected: ['A 12 2.4'],
  },
  {
    name: 'a lot that was found is nobody’s loss',
    history: [moved('taken', 'A', '15', '3'), moved('put back', 'found', '8', '1')],
    expected: ['A 15 3'],
  },
])('taken by counts: $name (worked out by hand)', ({ history, expected }) => {
  expect(
    takenByCounts(history).map(
      (each) => `${each.lotId} ${canonical(each.quantity)} ${canonical(each.value)}`,
    ),
  ).toEqual(expected);
});

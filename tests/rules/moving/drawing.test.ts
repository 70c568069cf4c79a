/** Taking off the shelf: lots in order, beyond the book, expired, late, already counted. */
import { canonical, decimal, fixed } from '../../../shared/decimal.js';
import { draw, type DrawOrder } from '../../../shared/moving/drawing.js';
import type { ProductStock } from '../../../shared/moving/stock.js';
import { lines, lotOf, lotsLeft, shelfOf } from '../../support/shelf.js';

const byHand = 'worked out by hand';
const pour = (quantity: string, rest: Partial<DrawOrder> = {}): DrawOrder => ({
  quantity: decimal(quantity),
  to: 'bowl',
  toPour: { bowlId: 'bowl', pourId: 'pour' },
  happenedAt: '2026-03-10T10:00:00.000Z',
  day: '2026-03-10',
  ...rest,
});

interface Row {
  name: string;
  shelf: ProductStock;
  order: DrawOrder;
  moved: string[];
  left: string[];
  flags: string[];
  source: string;
}

const rows: Row[] = [
  {
    name: 'two lots, the earlier expiry first and to its last millionth',
    shelf: shelfOf([
      lotOf('late', '10', '1', { expiresOn: '2026-12-01' }),
      lotOf('soon', '3', '10', { expiresOn: '2026-05-01' }),
    ]),
    order: pour('5'),
    moved: ['shelf > bowl, soon, 3 for 10.000000', 'shelf > bowl, late, 2 for 0.200000'],
    left: ['late 8 for 0.800000'],
    flags: [],
    source: byHand,
  },
  {
    name: 'a third of a lot, the rest keeps what is left',
    shelf: shelfOf([lotOf('A', '3', '10')]),
    order: pour('1'),
    moved: ['shelf > bowl, A, 1 for 3.333333'],
    left: ['A 2 for 6.666667'],
    flags: [],
    source: byHand,
  },
  {
    name: 'average: one value for all lots',
    shelf: shelfOf([lotOf('A', '10', '0'), lotOf('B', '10', '0')], {
      method: 'average',
      value: decimal('30'),
    }),
    order: pour('15'),
    moved: ['shelf > bowl, A, 10 for 15.000000', 'shelf > bowl, B, 5 for 7.500000'],
    left: ['B 5 for -7.500000'],
    flags: [],
    source: byHand,
  },
  {
    name: 'beyond the book: at the cost of the lot last drawn',
    shelf: shelfOf([lotOf('A', '20', '4')]),
    order: pour('30'),
    moved: [
      'shelf > bowl, A, 20 for 4.000000',
      'correction > shelf, short, 10 for 2.000000 (shortfall)',
      'shelf > bowl, short, 10 for 2.000000',
    ],
    left: [],
    flags: ['recount'],
    source: byHand,
  },
  {
    name: 'nothing in the book and a price known from before',
    shelf: shelfOf([], { fallbackUnitCost: decimal('0.0211') }),
    order: pour('30'),
    moved: [
      'correction > shelf, short, 30 for 0.633000 (shortfall)',
      'shelf > bowl, short, 30 for 0.633000',
    ],
    left: [],
    flags: ['recount'],
    source: byHand,
  },
  {
    name: 'nothing in the book and no price: no cost, and said so',
    shelf: shelfOf([]),
    order: pour('30'),
    moved: [
      'correction > shelf, short, 30 for 0.000000 (shortfall)',
      'shelf > bowl, short, 30 for 0.000000',
    ],
    left: [],
    flags: ['no_cost', 'recount'],
    source: byHand,
  },
  {
    name: 'a lot whose cost nobody has said',
    shelf: shelfOf([lotOf('A', '20', '0')]),
    order: pour('5'),
    moved: ['shelf > bowl, A, 5 for 0.000000'],
    left: ['A 15 for 0.000000'],
    flags: ['no_cost'],
    source: byHand,
  },
  {
    name: 'only an expired lot is left',
    shelf: shelfOf([lotOf('A', '20', '4', { expiresOn: '2026-03-09' })]),
    order: pour('5'),
    moved: ['shelf > bowl, A, 5 for 1.000000'],
    left: ['A 15 for 3.000000'],
    flags: ['expired'],
    source: byHand,
  },
  {
    name: 'happened before a count that stands: the counted figure stays',
    shelf: shelfOf([lotOf('A', '20', '4')], { lastCountedAt: '2026-03-10T18:00:00.000Z' }),
    order: pour('30'),
    moved: [
      'shelf > bowl, A, 20 for 4.000000',
      'correction > shelf, short, 10 for 2.000000 (shortfall)',
      'shelf > bowl, short, 10 for 2.000000',
      'correction > shelf, A, 20 for 4.000000 (already counted)',
    ],
    left: ['A 20 for 4.000000'],
    flags: [],
    source: byHand,
  },
  {
    name: 'comes late: cannot have taken what was delivered two days after',
    shelf: shelfOf([lotOf('A', '20', '4'), lotOf('B', '500', '10', { receivedOn: '2026-03-12' })], {
      levels: [
        { at: '', on: '2026-03-10', quantity: decimal('20') },
        { at: '', on: '2026-03-12', quantity: decimal('520') },
      ],
    }),
    order: pour('30'),
    moved: [
      'shelf > bowl, A, 20 for 4.000000',
      'correction > shelf, short, 10 for 2.000000 (shortfall)',
      'shelf > bowl, short, 10 for 2.000000',
    ],
    left: ['B 500 for 10.000000'],
    flags: ['recount'],
    source: byHand,
  },
  {
    name: 'one named lot, the rest of the shelf untouched',
    shelf: shelfOf([lotOf('A', '20', '4'), lotOf('B', '20', '8')]),
    order: pour('5', { lotId: 'B', to: 'bin', reason: 'damaged' }),
    moved: ['shelf > bin, B, 5 for 2.000000 (damaged)'],
    left: ['A 20 for 4.000000', 'B 15 for 6.000000'],
    flags: [],
    source: byHand,
  },
];

test.each(rows)('$name ($source)', ({ shelf, order, moved, left, flags }) => {
  const result = draw(shelf, order);
  expect(lines(result.movements)).toEqual(moved);
  expect(lotsLeft(result.stock)).toEqual(left);
  expect([...result.flags].sort()).toEqual(flags);
});

test('a second draw in the same posting costs what the first one did (worked out by hand)', () => {
  const first = draw(shelfOf([lotOf('A', '20', '4')]), pour('20'));
  const second = draw(first.stock, pour('5'));
  expect(fixed(second.value, 6)).toBe('1.000000');
  expect(second.flags).toEqual(['recount']);
});

test('what was short stays open, with its day, until something explains it', () => {
  const { stock } = draw(shelfOf([lotOf('A', '20', '4')]), pour('30'));
  expect(stock.shortfalls.map(({ on, quantity }) => `${on} ${canonical(quantity)}`)).toEqual([
    '2026-03-10 10',
  ]);
});

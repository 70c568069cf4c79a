/** Putting on the shelf: a delivery, an opening, what they explain, what was counted already. */
import { canonical, decimal } from '../../../shared/decimal.js';
import { receive } from '../../../shared/moving/receiving.js';
import { arriving, lines, lotOf, lotsLeft, shelfOf } from '../../support/shelf.js';

const byHand = 'worked out by hand';
const noon = '2026-03-10T12:00:00.000Z';
const short = (on: string, quantity: string) => ({
  at: `${on}T10:00:00.000Z`,
  on,
  quantity: decimal(quantity),
});

test.each([
  {
    name: 'a lot beside the others',
    shelf: shelfOf([lotOf('A', '20', '4')]),
    lot: arriving('B', '500', '10'),
    moved: ['supplier > shelf, B, 500 for 10.000000'],
    left: ['A 20 for 4.000000', 'B 500 for 10.000000'],
    open: [],
    source: byHand,
  },
  {
    name: 'a pour of the same day was made of it',
    shelf: shelfOf([], { shortfalls: [short('2026-03-10', '30')] }),
    lot: arriving('B', '500', '10'),
    moved: [
      'supplier > shelf, B, 500 for 10.000000',
      'shelf > correction, B, 30 for 0.600000 (shortfall given back)',
    ],
    left: ['B 470 for 9.400000'],
    open: [],
    source: byHand,
  },
  {
    name: 'a pour of the day before was not',
    shelf: shelfOf([], { shortfalls: [short('2026-03-09', '30'), short('2026-03-11', '5')] }),
    lot: arriving('B', '500', '10'),
    moved: [
      'supplier > shelf, B, 500 for 10.000000',
      'shelf > correction, B, 5 for 0.100000 (shortfall given back)',
    ],
    left: ['B 495 for 9.900000'],
    open: ['2026-03-09 30'],
    source: byHand,
  },
  {
    name: 'an opening explains all of them, as far as it goes',
    shelf: shelfOf([], { shortfalls: [short('2026-03-09', '30'), short('2026-03-11', '5')] }),
    lot: arriving('B', '32', '1', { source: 'opening' }),
    moved: [
      'supplier > shelf, B, 32 for 1.000000',
      'shelf > correction, B, 30 for 0.937500 (shortfall given back)',
      'shelf > correction, B, 2 for 0.062500 (shortfall given back)',
    ],
    left: [],
    open: ['2026-03-11 3'],
    source: byHand,
  },
  {
    name: 'it was counted with the rest, and explains nothing after',
    shelf: shelfOf([lotOf('found', '500', '9')], {
      lastCountedAt: '2026-03-10T18:00:00.000Z',
      shortfalls: [short('2026-03-11', '5')],
    }),
    lot: arriving('B', '500', '10'),
    moved: [
      'supplier > shelf, B, 500 for 10.000000',
      'shelf > correction, B, 500 for 10.000000 (already counted)',
    ],
    left: ['found 500 for 9.000000'],
    open: ['2026-03-11 5'],
    source: byHand,
  },
])('$name ($source)', ({ shelf, lot, moved, left, open }) => {
  const { stock, movements } = receive(shelf, lot, noon);
  expect(lines(movements)).toEqual(moved);
  expect(lotsLeft(stock)).toEqual(left);
  expect(stock.shortfalls.map((each) => `${each.on} ${canonical(each.quantity)}`)).toEqual(open);
});

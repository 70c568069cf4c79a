/** A cost filled in later: what is on the shelf, and what was used without one. */
import { decimal } from '../../../shared/decimal.js';
import { recost, type CostOrder, type UsedAtNoCost } from '../../../shared/moving/recosting.js';
import type { ProductStock } from '../../../shared/moving/stock.js';
import { lines, lotOf, lotsLeft, shelfOf } from '../../support/shelf.js';

const byHand = 'worked out by hand';
const used = (place: UsedAtNoCost['place'], quantity: string, visitId: string | null) => ({
  lotId: 'A',
  place,
  visitId,
  quantity: decimal(quantity),
  ...(place === 'bowl' ? { pour: { bowlId: 'bowl', pourId: 'pour' } } : {}),
});

interface Row {
  name: string;
  shelf: ProductStock;
  order: CostOrder;
  moved: string[];
  left: string[];
  visits: string[];
  source: string;
}

const rows: Row[] = [
  {
    name: 'no cost so far: shelf, bowl, head and bin get theirs',
    shelf: shelfOf([lotOf('A', '100', '0'), lotOf('B', '50', '3')]),
    order: {
      unitCost: decimal('0.02'),
      used: [used('bowl', '30', 'v2'), used('head', '350', 'v1'), used('bin', '20', null)],
    },
    moved: [
      'shelf > correction, A, 100 for 0.000000 (new cost)',
      'correction > shelf, A, 100 for 2.000000 (new cost)',
      'bowl > correction, A, 30 for 0.000000 (new cost)',
      'correction > bowl, A, 30 for 0.600000 (new cost)',
      'head > correction, A, 350 for 0.000000 (new cost)',
      'correction > head, A, 350 for 7.000000 (new cost)',
      'bin > correction, A, 20 for 0.000000 (new cost)',
      'correction > bin, A, 20 for 0.400000 (new cost)',
    ],
    left: ['A 100 for 2.000000', 'B 50 for 3.000000'],
    visits: ['v2', 'v1'],
    source: byHand,
  },
  {
    name: 'a wrong cost of one lot: only what is left changes',
    shelf: shelfOf([lotOf('A', '100', '2'), lotOf('B', '50', '3')]),
    order: {
      unitCost: decimal('0.03'),
      lot: { id: 'A', unitCost: decimal('0.02') },
      used: [],
    },
    moved: [
      'shelf > correction, A, 100 for 2.000000 (new cost)',
      'correction > shelf, A, 100 for 3.000000 (new cost)',
    ],
    left: ['A 100 for 3.000000', 'B 50 for 3.000000'],
    visits: [],
    source: byHand,
  },
  {
    name: 'average: the pool changes by what the lot’s change is worth',
    shelf: shelfOf([lotOf('A', '100', '0'), lotOf('B', '100', '0')], {
      method: 'average',
      value: decimal('8'),
    }),
    order: {
      unitCost: decimal('0.03'),
      lot: { id: 'A', unitCost: decimal('0.02') },
      used: [],
    },
    moved: [
      'shelf > correction, A, 100 for 4.000000 (new cost)',
      'correction > shelf, A, 100 for 5.000000 (new cost)',
    ],
    left: ['A 100 for 1.000000', 'B 100 for 0.000000'],
    visits: [],
    source: byHand,
  },
  {
    name: 'the same cost again moves nothing',
    shelf: shelfOf([lotOf('A', '100', '2')]),
    order: {
      unitCost: decimal('0.02'),
      lot: { id: 'A', unitCost: decimal('0.02') },
      used: [],
    },
    moved: [],
    left: ['A 100 for 2.000000'],
    visits: [],
    source: byHand,
  },
];

test.each(rows)('$name ($source)', ({ shelf, order, moved, left, visits }) => {
  const result = recost(shelf, order);
  expect(lines(result.movements)).toEqual(moved);
  expect(lotsLeft(result.stock)).toEqual(left);
  expect(result.visitIds).toEqual(visits);
});

test('average: the value on the shelf after a lot’s new cost (worked out by hand)', () => {
  const shelf = shelfOf([lotOf('A', '100', '0'), lotOf('B', '100', '0')], {
    method: 'average',
    value: decimal('8'),
  });
  const lot = { id: 'A', unitCost: decimal('0.02') };
  const { stock } = recost(shelf, { unitCost: decimal('0.03'), lot, used: [] });
  expect(stock.value.toFixed()).toBe('9');
});

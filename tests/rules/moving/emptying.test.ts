/** What a bowl gives away: onto the head, into the bin, into another bowl, back to the shelf. */
import { decimal } from '../../../shared/decimal.js';
import {
  backToShelf,
  toBin,
  toHead,
  toOtherBowl,
  type FallenPart,
  type HeldPart,
} from '../../../shared/moving/emptying.js';
import { lines } from '../../support/shelf.js';

const held = (lotId: string, quantity: string, value: string): HeldPart => ({
  pour: { bowlId: 'bowl', pourId: `pour of ${lotId}` },
  productId: 'P',
  lotId,
  quantity: decimal(quantity),
  value: decimal(value),
});
const fallen = (part: HeldPart, quantity: string, value: string): FallenPart => ({
  ...part,
  aside: { quantity: decimal(quantity), value: decimal(value) },
});
const parts = [
  fallen(held('A', '30', '6'), '10', '2'),
  fallen(held('B', '5', '1'), '5', '1'),
  fallen(held('C', '7', '0.7'), '0', '0'),
];

test('what is applied goes on the head, and nothing where nothing was (worked out by hand)', () => {
  expect(lines(toHead(parts))).toEqual([
    'bowl > head, A, 20 for 4.000000',
    'bowl > head, C, 7 for 0.700000',
  ]);
});

test('what is left goes into the bin, for its reason (worked out by hand)', () => {
  expect(lines(toBin(parts, 'left over'))).toEqual([
    'bowl > bin, A, 10 for 2.000000 (left over)',
    'bowl > bin, B, 5 for 1.000000 (left over)',
  ]);
});

test('or into another bowl, as a line of its own there (worked out by hand)', () => {
  const moved = toOtherBowl(parts, (part) => ({ bowlId: 'other', pourId: `from ${part.lotId}` }));
  expect(lines(moved)).toEqual([
    'bowl > bowl, A, 10 for 2.000000',
    'bowl > bowl, B, 5 for 1.000000',
  ]);
  expect(moved.map(({ fromPour, toPour }) => [fromPour?.pourId, toPour?.pourId])).toEqual([
    ['pour of A', 'from A'],
    ['pour of B', 'from B'],
  ]);
});

test.each([
  { quantity: '7', moved: ['bowl > shelf, B, 5 for 1.000000', 'bowl > shelf, A, 2 for 0.400000'] },
  { quantity: '5', moved: ['bowl > shelf, B, 5 for 1.000000'] },
  { quantity: '0', moved: [] },
])('scooped back $quantity: the lot drawn last first (worked out by hand)', (row) => {
  const back = backToShelf([held('A', '30', '6'), held('B', '5', '1')], decimal(row.quantity));
  expect(lines(back)).toEqual(row.moved);
});

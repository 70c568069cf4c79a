/** Undoing: everything goes back as it came, last first, or it is refused with figures. */
import { decimal, type Decimal } from '../../../shared/decimal.js';
import type { Place } from '../../../shared/moving/movement.js';
import { onShelf, reverse, type RecordedMovement } from '../../../shared/moving/reversing.js';
import { lines, lotOf, lotsLeft, shelfOf } from '../../support/shelf.js';
import { refused } from '../../support/refused.js';

const recorded = (
  id: string,
  from: Place,
  to: Place,
  lotId: string,
  quantity: string,
  value: string,
): RecordedMovement => ({
  id,
  productId: 'P',
  from,
  to,
  lotId,
  quantity: decimal(quantity),
  value: decimal(value),
});
const holding = (quantity: string, value: string | null) => () => ({
  quantity: decimal(quantity),
  value: value === null ? null : decimal(value),
});

test('a pour beyond the book goes back last movement first (worked out by hand)', () => {
  const journal = [
    recorded('1', 'shelf', 'bin', 'A', '20', '4'),
    recorded('2', 'correction', 'shelf', 'short', '10', '2'),
    recorded('3', 'shelf', 'bin', 'short', '10', '2'),
  ];
  const back = reverse(journal, (spot) => (spot.place === 'shelf' ? nothing() : null));
  expect(lines(back)).toEqual([
    'bin > shelf, short, 10 for 2.000000',
    'shelf > correction, short, 10 for 2.000000',
    'bin > shelf, A, 20 for 4.000000',
  ]);
  expect(back.map((movement) => movement.reverses)).toEqual(['3', '2', '1']);
});

test('a movement that was undone with a count is not undone twice', () => {
  const journal = [
    recorded('1', 'shelf', 'bin', 'A', '20', '4'),
    { ...recorded('2', 'correction', 'shelf', 'A', '20', '4'), undone: true },
  ];
  expect(lines(reverse(journal, () => null))).toEqual(['bin > shelf, A, 20 for 4.000000']);
});

test.each([
  {
    name: 'more than the lot has left',
    held: holding('470', '9.4'),
    facts: { place: 'shelf', held: '470', needed: '500' },
  },
  {
    name: 'its quantity is there and its value is not',
    held: holding('500', '9'),
    facts: { place: 'shelf', held: 'a value of 9', needed: 'a value of 10' },
  },
  {
    name: 'a value would stay behind without a quantity',
    held: holding('500', '12'),
    facts: { place: 'shelf', held: 'a value of 12', needed: 'a value of 10' },
  },
])('refused: $name (worked out by hand)', ({ held, facts }) => {
  const journal = [recorded('1', 'supplier', 'shelf', 'A', '500', '10')];
  const problem = refused(() =>
    reverse(journal, (spot) => (spot.place === 'shelf' ? held() : null)),
  );
  expect(problem.code).toBe('reversal_below_zero');
  expect(problem.facts).toEqual(facts);
});

test('before a standing count the shelf stays as counted (worked out by hand)', () => {
  const shelf = shelfOf([lotOf('A', '80', '8')], { lastCountedAt: '2026-03-10T18:00:00.000Z' });
  const back = reverse([recorded('1', 'shelf', 'bin', 'A', '15', '1.5')], (spot) =>
    spot.place === 'shelf' ? holding('80', '8')() : null,
  );
  const lots = new Map([['A', { id: 'A', receivedOn: '2026-01-01', expiresOn: null }]]);
  const after = onShelf(shelf, back, lots, true);
  expect(lines(after.movements)).toEqual([
    'shelf > correction, A, 15 for 1.500000 (already counted)',
  ]);
  expect(lotsLeft(after.stock)).toEqual(['A 80 for 8.000000']);
});

test('average: a product cannot lose more value than it has (worked out by hand)', () => {
  const shelf = shelfOf([lotOf('A', '10', '0')], { method: 'average', value: decimal('5') });
  const back = reverse([recorded('1', 'supplier', 'shelf', 'A', '10', '7')], holding('10', null));
  const lots = new Map([['A', { id: 'A', receivedOn: '2026-01-01', expiresOn: null }]]);
  const problem = refused(() => onShelf(shelf, back, lots, false));
  expect(problem.facts).toEqual({
    place: 'shelf',
    held: 'a value of 5',
    needed: 'a value of 7',
  });
});

function nothing(): { quantity: Decimal; value: Decimal } {
  return { quantity: decimal('0'), value: decimal('0') };
}

/** The size of a bowl that is done again, worked out by hand. */
import { decimal } from '../../shared/decimal.js';
import { sizeAsBefore, type TakenBefore } from '../../shared/repeating.js';

const bowl = (
  visitId: string,
  applied: string,
  leftover = '8',
  rest: Partial<TakenBefore> = {},
): TakenBefore => ({
  ...{ visitId, purpose: 'front', order: 1, weighed: true },
  ...{ applied_g: decimal(applied), leftover_g: decimal(leftover) },
  ...rest,
});

interface Row {
  name: string;
  bowls: TakenBefore[];
  /** visits, least, most, ran out, plan */
  size: [number, string, string, boolean, string] | null;
}

test.each<Row>([
  { name: 'nothing before', bowls: [], size: null },
  {
    name: 'the last four took 48 to 54 g; the fifth does not count',
    bowls: [bowl('e', '48'), bowl('d', '54'), bowl('c', '51'), bowl('b', '50'), bowl('a', '90')],
    size: [4, '48', '54', false, '55'],
  },
  {
    name: 'one that came back all but empty may have needed more',
    bowls: [bowl('b', '54', '4.9'), bowl('a', '40')],
    size: [2, '40', '54', true, '60'],
  },
  {
    name: 'a second mix in a visit is added to the first',
    bowls: [bowl('a', '20', '6', { order: 2 }), bowl('a', '30', '0')],
    size: [1, '50', '50', false, '50'],
  },
  {
    name: 'what nobody weighed counts only where nothing was weighed',
    bowls: [bowl('b', '70', '7', { weighed: false }), bowl('a', '41')],
    size: [1, '41', '41', false, '45'],
  },
  {
    name: 'all of it guessed',
    bowls: [bowl('b', '70', '7', { weighed: false })],
    size: [1, '70', '70', false, '70'],
  },
])('$name', ({ bowls, size }) => {
  const found = sizeAsBefore(bowls);
  const told = found && [
    ...[found.visits, found.low_g.toFixed(), found.high_g.toFixed(), found.ranOut],
    found.plan_g.toFixed(),
  ];
  expect(told).toEqual(size);
});

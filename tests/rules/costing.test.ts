/** Costing: which lot is drawn, what a draw is worth, what a delivered line cost. */
import {
  deliveryLineCosts,
  drawLots,
  drawOrder,
  lineOfPacks,
  valueOfPart,
  type LotBalance,
} from '../../shared/costing.js';
import { canonical, decimal, sum } from '../../shared/decimal.js';
import { refused } from '../support/refused.js';

const byHand = 'worked out by hand';
const day = '2026-03-10';

function lot(id: string, quantity: string, value: string, rest: Partial<LotBalance> = {}) {
  return {
    id,
    quantity: decimal(quantity),
    value: decimal(value),
    expiresOn: null,
    receivedOn: '2026-01-01',
    ...rest,
  };
}

test.each([
  {
    name: 'earliest expiry first, lots without expiry after them',
    lots: [
      lot('never', '1', '1'),
      lot('late', '1', '1', { expiresOn: '2026-09-01' }),
      lot('soon', '1', '1', { expiresOn: '2026-05-01' }),
    ],
    expected: ['soon', 'late', 'never'],
  },
  {
    name: 'expired ones last, the last good day still good',
    lots: [
      lot('expired', '1', '1', { expiresOn: '2026-03-09' }),
      lot('never', '1', '1'),
      lot('today', '1', '1', { expiresOn: '2026-03-10' }),
    ],
    expected: ['today', 'never', 'expired'],
  },
  {
    name: 'then oldest delivery, then id; empty ones never',
    lots: [
      lot('b', '1', '1', { receivedOn: '2026-02-02' }),
      lot('empty', '0', '0', { receivedOn: '2025-01-01' }),
      lot('a', '1', '1', { receivedOn: '2026-02-02' }),
      lot('c', '1', '1', { receivedOn: '2026-02-01' }),
    ],
    expected: ['c', 'a', 'b'],
  },
])('$name', ({ lots, expected }) => {
  expect(drawOrder(lots, day).map(({ id }) => id)).toEqual(expected);
});

test.each([
  { value: '10', part: '1', whole: '3', expected: '3.333333', source: byHand },
  { value: '10', part: '3', whole: '3', expected: '10', source: byHand },
  { value: '10.0000004', part: '3', whole: '3', expected: '10.0000004', source: 'emptying' },
  { value: '0.000001', part: '1', whole: '2', expected: '0', source: 'half-even tie' },
  { value: '0.000003', part: '1', whole: '2', expected: '0.000002', source: 'half-even tie' },
])('$part of $whole worth $value is worth $expected ($source)', (row) => {
  const value = valueOfPart(decimal(row.value), decimal(row.part), decimal(row.whole));
  expect(canonical(value)).toBe(row.expected);
});

test('fifo: each lot gives its own value, and the emptied one all of it', () => {
  const lots = [
    lot('old', '3', '10', { receivedOn: '2026-01-01' }),
    lot('new', '3', '20', { receivedOn: '2026-02-01' }),
  ];
  const { draws, short } = drawLots(lots, decimal('4'), { method: 'fifo', day });
  expect(
    draws.map((draw) => [draw.lotId, canonical(draw.quantity), canonical(draw.value)]),
  ).toEqual([
    ['old', '3', '10'],
    ['new', '1', '6.666667'],
  ]);
  expect(canonical(short)).toBe('0');
});

test('average: the value comes from the product, and emptying it takes all', () => {
  const lots = [lot('a', '1', '0'), lot('b', '2', '0')];
  const drawn = drawLots(lots, decimal('3'), {
    method: 'average',
    day,
    productValue: decimal('10'),
    productQuantity: decimal('3'),
  });
  expect(drawn.draws.map((draw) => canonical(draw.value))).toEqual(['3.333333', '6.666667']);
});

test('what the book does not have comes back as short; an expired lot is flagged', () => {
  const lots = [lot('gone-off', '5', '8', { expiresOn: '2026-03-01' })];
  const { draws, short } = drawLots(lots, decimal('7.5'), { method: 'fifo', day });
  expect(canonical(short)).toBe('2.5');
  expect(draws).toMatchObject([{ lotId: 'gone-off', expired: true }]);
  expect(canonical(sum(draws.map((draw) => draw.value)))).toBe('8');
});

test.each([
  {
    name: 'freight by value',
    lines: [
      ['60', '500'],
      ['30', '2000'],
    ],
    extras: { freight: '9.99' },
    expected: ['66.66', '33.33'],
  },
  {
    name: 'discount and freight by value',
    lines: [
      ['100', '1'],
      ['50', '1'],
    ],
    extras: { discount: '15', freight: '3' },
    expected: ['92', '46'],
  },
  {
    name: 'by quantity when all lines are free',
    lines: [
      ['0', '500'],
      ['0', '1500'],
    ],
    extras: { freight: '10' },
    expected: ['2.5', '7.5'],
  },
  {
    name: 'a free line beside paid ones takes no freight',
    lines: [
      ['20', '500'],
      ['0', '500'],
    ],
    extras: { freight: '5', otherCost: '1', nonRecoverableTax: '4' },
    expected: ['30', '0'],
  },
  {
    name: 'a rest of a millionth goes to the earlier line',
    lines: [
      ['10', '1'],
      ['10', '1'],
      ['10', '1'],
    ],
    extras: { freight: '1' },
    expected: ['10.333334', '10.333333', '10.333333'],
  },
])('cost of a delivery: $name', ({ lines, extras, expected }) => {
  const delivered = lines.map(([price = '', quantity = '']) => ({
    price: decimal(price),
    quantity: decimal(quantity),
  }));
  const decimals = Object.fromEntries(
    Object.entries(extras).map(([name, value]) => [name, decimal(String(value))]),
  );
  expect(deliveryLineCosts(delivered, decimals).map(canonical)).toEqual(expected);
});

test('free packs share the cost of the paid ones', () => {
  const line = lineOfPacks({
    packs: decimal('10'),
    packPrice: decimal('8.40'),
    freePacks: decimal('2'),
    packQuantity: decimal('60'),
  });
  expect([canonical(line.price), canonical(line.quantity)]).toEqual(['84', '720']);
});

test('a discount above the price of the goods is refused with both figures', () => {
  const line = { price: decimal('20'), quantity: decimal('1') };
  expect(refused(() => deliveryLineCosts([line], { discount: decimal('20.01') }))).toMatchObject({
    code: 'discount_above_price',
    facts: { discount: '20.01', price: '20' },
  });
});

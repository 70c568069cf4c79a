/** Right size of a bowl: quantile with bowls that ran out, pooling of small groups. */
import { canonical, decimal } from '../../shared/decimal.js';
import { needsOf, pointOfNeeds, rightSize, sizingPoint, type Need } from '../../shared/sizing.js';

/** "12" took 12 g; "12+" took at least 12 g. */
function needs(text: string): Need[] {
  return text.split(' ').map((each) => ({
    grams: decimal(each.replace('+', '')),
    atLeast: each.endsWith('+'),
  }));
}

const remission = '6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+';
const published = 'Freireich et al., Blood 21 (1963), 6-MP group; Kaplan-Meier median 23 (memory)';

test.each([
  { data: remission, tau: '0.5', point: '23', lowerBound: false, source: published },
  { data: remission, tau: '0.3', point: '13', lowerBound: false, source: published },
  { data: remission, tau: '0.15', point: '7', lowerBound: false, source: published },
  { data: remission, tau: '0.9', point: '35', lowerBound: true, source: 'never reached' },
  { data: '40 50 50+ 60', tau: '0.5', point: '50', lowerBound: false, source: 'by hand' },
  {
    data: '10 20 30 40 50 60 70 80 90 100',
    tau: '0.9',
    point: '90',
    lowerBound: false,
    source: 'by hand',
  },
])('point $tau of $data is $point ($source)', ({ data, tau, point, lowerBound }) => {
  const found = pointOfNeeds(needs(data), decimal(tau));
  expect(found && [canonical(found.grams), found.lowerBound]).toEqual([point, lowerBound]);
});

test('a further bowl of one purpose is added; the last tells whether it was enough', () => {
  const bowl = (visitId: string, order: number, applied: string, leftover: string) => ({
    visitId,
    purpose: 'front',
    order,
    applied_g: decimal(applied),
    leftover_g: decimal(leftover),
  });
  const found = needsOf([
    bowl('mon', 2, '15', '6'),
    bowl('mon', 1, '50', '0'),
    bowl('tue', 1, '48', '4.9'),
    bowl('wed', 1, '48', '5'),
  ]);
  expect(found.map(({ grams, atLeast }) => [canonical(grams), atLeast])).toEqual([
    ['65', false],
    ['48', true],
    ['48', false],
  ]);
});

test('eight heads speak for themselves, rounded up to 5 g', () => {
  const own = needs('41 42 43 44 45 46 47 52');
  expect(rightSize([own, needs('90 90 90 90 90 90 90 90')])).toMatchObject({
    grams: decimal('55'),
    bowls: 8,
    pooled: false,
  });
});

test('four heads are half themselves and half the wider group: 40/2 + 62/2 = 51', () => {
  const wide = needs('60 60 60 60 60 60 60 62');
  const size = rightSize([needs('40 40 40 40'), wide]);
  expect(size).toMatchObject({ grams: decimal('55'), bowls: 4, widerBowls: 8, pooled: true });
});

test('two heads are a quarter themselves: 20/4 + 60 x 3/4 = 50', () => {
  const size = rightSize([needs('20 20'), needs('60 60 60 60 60 60 60 60')]);
  expect(size).toMatchObject({ grams: decimal('50'), bowls: 2, pooled: true });
});

test('nobody like it yet: the wider group alone; too few anywhere: no suggestion', () => {
  expect(canonical(rightSize([[], needs('60 60 60 60 60 60 60 60')])!.grams)).toBe('60');
  expect(rightSize([needs('40'), needs('40 50')])).toBeNull();
});

test('running out nine times as dear as a leftover makes 0.9; nothing told makes 0.9', () => {
  expect(canonical(sizingPoint(decimal('9'), decimal('1')))).toBe('0.9');
  expect(canonical(sizingPoint(decimal('0'), decimal('0')))).toBe('0.9');
  expect(canonical(sizingPoint(decimal('45'), decimal('15')))).toBe('0.75');
});

/** What a product needs of a plan, and what is said of it: limits, contradictions, odd input. */
import { linesOf, riskAfter, shortOf } from '../../../shared/ordering/plan-lines.js';
import { planNeed, type PlanFacts } from '../../../shared/ordering/plan-needs.js';

/** Gamma of shape 4 and scale 25: its 95 % point is 193.84 (chi-square 8 df 15.5073 / 2 x 25). */
const demand = { family: 'gamma', mean: 100, variance: 2500 } as const;
const tube = (quantity = 60, price = 9) => ({
  label: `${quantity} g tube`,
  quantity,
  tiers: [{ least: 1, price }],
});
const facts: PlanFacts = {
  ...{ id: 'toner', supplier: 0, packs: [tube()], serviceLevel: 0.95 },
  ...{ keepSealed: null, typedPoint: null, position: 50, demands: [demand], before: [0] },
  ...{ perDay: 8, perWeek: 50, lifeDemand: null, mostPacks: null },
};
const needOf = (more: Partial<PlanFacts> = {}) => planNeed({ ...facts, ...more }, 10);

test('whole packs up to the quantile of demand', () => {
  const need = needOf();
  // 193.84 - 50 = 143.84: three tubes of 60
  expect(need.targets[0]).toBeCloseTo(193.8414, 3);
  expect(need.product.needs).toEqual([3]);
  expect(need.product.prices.slice(0, 4)).toEqual([0, 9, 18, 27]);
  // after three tubes 230 g: P(chi-square 8 df > 18.4) = 0.0184 (tables: 0.02 at 18.168)
  expect(riskAfter(need, 0, 180)).toBeCloseTo(0.0184, 3);
});

test('two sizes share a step; every number of steps has its cheapest packs', () => {
  const need = needOf({ packs: [tube(60, 9), tube(180, 20)] });
  expect(need.step).toBe(60);
  expect(need.packsOf[3]).toEqual([0, 1]);
  expect(need.product.prices.slice(0, 5)).toEqual([0, 9, 18, 20, 29]);
});

test('sizes that share no step are planned in the first one', () => {
  const need = needOf({ packs: [tube(60), { ...tube(501), label: 'tub' }] });
  expect(need.step).toBe(60);
  expect(need.packsOf[2]).toEqual([2]);
});

test('sealed packs and a typed point stand before the forecast', () => {
  expect(needOf({ keepSealed: 4 }).product.needs).toEqual([4]); // 240 - 50 = 190
  expect(needOf({ typedPoint: 60, position: 59 }).product.needs).toEqual([1]);
  expect(needOf({ typedPoint: 60, position: 60 }).product.needs).toEqual([0]);
});

test('shelf life and room cap the packs, and it is said', () => {
  // a life in which hardly anything is used: one pack, since even it may be missed
  const short = needOf({ lifeDemand: { family: 'gamma', mean: 70, variance: 1000 } });
  expect(short.product.needs).toEqual([1]);
  expect(short.capped).toBe('life');
  const room = needOf({ mostPacks: 2 });
  // room for 120 g and 50 g are there: one more tube
  expect([room.product.needs, room.capped]).toEqual([[1], 'room']);
  const [line] = linesOf(room, [1], ['2026-03-14'], 'g');
  expect(line?.why).toContain('There is no room');
  expect(shortOf([room], [[1]])[0]?.words).toContain('There is no room for more.');
});

test('a line says why, and what one pack fewer risks', () => {
  const [line] = linesOf(needOf(), [3], ['2026-03-14'], 'g');
  expect(line).toMatchObject({ packLabel: '60 g tube', packs: 3 });
  expect(line?.why).toBe(
    '50 g on the shelf and on order. About 100 g are used by 2026-03-14, and more than 194 g ' +
      'only about one time in 20.',
  );
  // P(chi-square 8 df > 13.6) = 0.093
  expect(line?.oneFewer).toBe(
    'One pack fewer: short about one order in 11, instead of about one order in 54.',
  );
});

test.each<[string, Partial<PlanFacts>]>([
  ['no use at all', { demands: [{ ...demand, mean: 0, variance: 0 }], perDay: 0, perWeek: 0 }],
  ['no price', { packs: [tube(60, 0)] }],
  ['nothing on the shelf', { position: 0 }],
  ['far more than is used', { position: 1e6 }],
  ['certain demand', { demands: [{ ...demand, variance: 0 }] }],
  ['endless spread', { demands: [{ ...demand, variance: 1e12 }] }],
])('%s gives figures, never NaN', (_, more) => {
  const { product } = needOf(more);
  const figures = [...product.needs, ...product.missing.flat(), ...product.keeping, product.worth];
  expect(figures.every((each) => Number.isFinite(each))).toBe(true);
  expect(product.prices.every((each) => !Number.isNaN(each))).toBe(true);
});

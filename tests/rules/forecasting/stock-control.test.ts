/** Order sizes, reorder points, fill rates, shelf life and budgets against published answers. */
import { spendBudget } from '../../../shared/forecasting/budget-allocation.js';
import {
  allUnitsDiscount,
  economicOrder,
  economicOrderWithBackorders,
  economicProduction,
  incrementalDiscount,
  orderCostRate,
} from '../../../shared/forecasting/economic-order.js';
import {
  packFillRate,
  packsToOrder,
  periodicFillRate,
  reorderPointForFill,
} from '../../../shared/forecasting/fill-rate.js';
import { silverMeal, wagnerWhitin } from '../../../shared/forecasting/lot-sizing.js';
import { mismatchCosts, newsvendor } from '../../../shared/forecasting/newsvendor.js';
import { leadTimeDemand, serviceLevelStock } from '../../../shared/forecasting/reorder-point.js';
import { outdatingOf, shelfLifeCap } from '../../../shared/forecasting/shelf-life.js';

const snyder = 'Snyder & Shen, Fundamentals of Supply Chain Theory';

test(`economic order quantity (${snyder}, example 3.1)`, () => {
  const costs = { fixedCost: 8, holdingCost: 0.225, demandRate: 1300 };
  expect(economicOrder(costs).quantity).toBeCloseTo(304.0467800264368, 9);
  expect(economicOrder(costs).costRate).toBeCloseTo(68.41052550594827, 9);
  expect(orderCostRate(costs, 250)).toBeCloseTo(69.725, 10);
  expect(economicOrderWithBackorders(costs, 5).quantity).toBeCloseTo(310.8126, 4);
});

test('economic production quantity (Gallego): 100, 0.5, 0.1, 80, 400', () => {
  const got = economicProduction({ fixedCost: 100, holdingCost: 5, demandRate: 200 }, 1000);
  expect(got.quantity).toBeCloseTo(100, 10);
  expect([got.cycle, got.runTime]).toEqual([0.5, 0.1]);
  expect(got.mostInStock).toBeCloseTo(80, 10);
  expect(got.costRate).toBeCloseTo(400, 10);
});

test(`price steps (${snyder}, examples 3.6 and 3.7)`, () => {
  const steps = {
    fixedCost: 8,
    holdingRate: 0.3,
    demandRate: 1300,
    breakpoints: [0, 400, 800],
    unitCosts: [0.75, 0.72, 0.68],
  };
  const whole = allUnitsDiscount(steps);
  expect(whole.quantity).toBe(800);
  expect(whole.region).toBe(2);
  expect(whole.costRate).toBeCloseTo(978.6, 10);
  expect(incrementalDiscount(steps).costRate).toBeCloseTo(1043.41052551, 7);
});

test('Chopra & Meindl: lead time 7 days that vary by 7 ask for 22,491 of safety stock', () => {
  const demand = leadTimeDemand({ mean: 2500, sd: 500, leadTime: 7, leadTimeSd: 7 }, 'normal');
  expect(Math.floor(serviceLevelStock(0.9, demand).safetyStock)).toBe(22491);
});

test('service 0 asks for nothing, 1 for more than any stock; lead time 0 is allowed', () => {
  const demand = leadTimeDemand({ mean: 50, sd: 12, leadTime: 2 }, 'gamma');
  expect(serviceLevelStock(0, demand).level).toBe(0);
  expect(serviceLevelStock(1, demand).level).toBe(Infinity);
  const none = leadTimeDemand({ mean: 50, sd: 12, leadTime: 0 }, 'gamma');
  expect(serviceLevelStock(0.95, none)).toEqual({ level: 0, safetyStock: 0 });
});

test('Nahmias, mustard: fill rate 98 % with order size 100 needs 126 (tables)', () => {
  const demand = { family: 'normal' as const, mean: 100, variance: 625 };
  const r = reorderPointForFill(0.98, 100, demand, 'simple');
  expect(Math.ceil(r)).toBe(126);
});

test('the fill rate of whole packs is the average over the positions they leave', () => {
  const demand = { mean: 50, sd: 12, family: 'gamma' as const };
  let sum = 0;
  for (let i = 0; i < 2000; i++)
    sum += periodicFillRate(130 + (100 * (i + 0.5)) / 2000, demand, 2, 1);
  expect(packFillRate(130, 100, demand, 2, 1)).toBeCloseTo(sum / 2000, 6);
});

test.each([
  { position: 31, packs: 0 },
  { position: 30, packs: 1 },
  { position: 24, packs: 2 },
  { position: -1, packs: 6 },
])('reorder point 30, packs of 6: position $position orders $packs', ({ position, packs }) => {
  expect(packsToOrder(30, position, 6)).toBe(packs);
  if (packs > 0) expect(position + packs * 6).toBeGreaterThan(30);
});

test('newsvendor (Porteus): N(100, 30), price 4, cost 1 -> 120.23, cost 38.13', () => {
  const costs = mismatchCosts({ price: 4, cost: 1 });
  const got = newsvendor(costs, { family: 'normal', mean: 100, variance: 900 });
  expect(got.criticalRatio).toBe(0.75);
  expect(got.quantity).toBeCloseTo(120.23, 2);
  expect(got.expectedCost).toBeCloseTo(38.13, 2);
});

test.each([
  { demand: [90, 120, 80, 70], fixed: 500, holding: 2, orders: [210, 0, 150, 0], cost: 1380 },
  { demand: [150, 100, 80, 200], fixed: 120, holding: 0.8, orders: [150, 180, 0, 200], cost: 424 },
])(`exact lot sizes of $demand cost $cost (${snyder})`, (row) => {
  const plan = wagnerWhitin(row.demand, row.fixed, row.holding);
  expect(plan.orders).toEqual(row.orders);
  expect(plan.cost).toBeCloseTo(row.cost, 9);
  expect(silverMeal(row.demand, row.fixed, row.holding).cost).toBeGreaterThanOrEqual(row.cost);
});

test('what would expire: exponential demand of mean 10, 10 on the shelf (by hand: 10/e)', () => {
  const life = { family: 'gamma' as const, mean: 10, variance: 100 };
  expect(outdatingOf(1, 4, 6, life).expectedOutdating).toBeCloseTo(10 / Math.E, 9);
  const cap = shelfLifeCap(life, 0, 1, 0.05, 0.02);
  expect(cap.totalByRisk).toBeCloseTo(-10 * Math.log(0.95), 9);
  expect(cap.packsByRisk).toBe(0);
});

test('a budget buys the pack with the most shortage avoided per money first', () => {
  const demand = { family: 'gamma' as const, mean: 10, variance: 25 };
  const item = { demand, position: 0, pack: 5, cost: 10 };
  const plan = spendBudget(
    [
      { ...item, id: 'dear to miss', value: 9 },
      { ...item, id: 'cheap to miss', value: 1 },
    ],
    25,
  );
  expect(plan.trace.map((step) => step.buy)).toEqual(['dear to miss', 'dear to miss']);
  expect(plan.spent).toBe(20);
});

test('no budget buys nothing', () => {
  expect(spendBudget([], 0)).toEqual({ packs: {}, spent: 0, trace: [] });
});

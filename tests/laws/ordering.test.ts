/** Order plans against exhaustive search: no cheaper plan exists among all that keep the terms. */
import fc from 'fast-check';
import type { PlanProblem, PlanProduct } from '../../shared/ordering/plan-problem.js';
import { solvePlan } from '../../src/studio/purchasing/plan-solver.js';
import { openSolver } from '../../src/studio/purchasing/solver.js';

const exact = { seconds: 10, gap: 0 };
const solver = openSolver();
afterAll(() => solver.close());

/** Every plan: steps by product and day. */
function* allPlans(problem: PlanProblem): Generator<number[][]> {
  const slots = problem.products.flatMap((product) =>
    Array.from({ length: problem.orderDays }, () => product.prices.length - 1),
  );
  const counts = slots.map(() => 0);
  for (;;) {
    yield problem.products.map((_, p) =>
      counts.slice(p * problem.orderDays, (p + 1) * problem.orderDays),
    );
    let slot = 0;
    while (slot < counts.length && counts[slot] === slots[slot]) counts[slot++] = 0;
    if (slot === counts.length) return;
    counts[slot]! += 1;
  }
}

/** What a plan costs by the terms; Infinity where it breaks one. */
function costOf(problem: PlanProblem, plan: number[][], soft: boolean): number {
  let money = 0;
  let other = 0;
  problem.products.forEach((product, p) => {
    let bought = 0;
    plan[p]!.forEach((packs, day) => {
      bought += packs;
      money += product.prices[packs]!;
      other += packs * (problem.orderDays - 1 - day) * product.keepingADay;
      const need = product.needs[day]!;
      for (let n = bought; n < need; n++) other += soft ? product.missing[day]![n]! : Infinity;
    });
    if (bought >= product.prices.length) other = Infinity;
    const beyond = bought - product.needs[problem.orderDays - 1]!;
    for (let n = 0; n < beyond; n++) {
      const cost = product.keeping[n];
      if (cost !== undefined) other += cost - product.worth;
    }
  });
  problem.suppliers.forEach((supplier, s) => {
    for (let day = 0; day < problem.orderDays; day++) {
      const own = problem.products.flatMap((product, p) => (product.supplier === s ? [p] : []));
      const goods = own.reduce((a, p) => a + problem.products[p]!.prices[plan[p]![day]!]!, 0);
      if (!own.some((p) => plan[p]![day]! > 0)) continue;
      if (goods < supplier.minimumOrder) other = Infinity;
      const free = supplier.freeFreightFrom;
      money += free !== null && goods >= free ? 0 : supplier.freight;
    }
  });
  if (problem.budget !== null && money > problem.budget) other = Infinity;
  return money + other;
}

const aProduct = (days: number, suppliers: number) =>
  fc
    .record({
      supplier: fc.nat({ max: suppliers - 1 }),
      steps: fc.array(fc.nat({ max: 2 }), { minLength: days, maxLength: days }),
      extra: fc.nat({ max: 1 }),
      list: fc.integer({ min: 3, max: 20 }),
      breakFrom: fc.integer({ min: 2, max: 4 }),
      off: fc.nat({ max: 2 }),
      missing: fc.integer({ min: 1, max: 200 }),
    })
    .map(({ supplier, steps, extra, list, breakFrom, off, missing }): PlanProduct => {
      const needs = steps.map((_, day) =>
        Math.min(
          3,
          steps.slice(0, day + 1).reduce((a, b) => a + b),
        ),
      );
      const most = Math.min(3, needs[days - 1]! + extra + 1);
      return {
        id: 'p',
        supplier,
        prices: Array.from({ length: most + 1 }, (_, x) => x * (x < breakFrom ? list : list - off)),
        needs,
        missing: needs.map((need) => Array.from({ length: need }, (_, n) => missing * (need - n))),
        keeping: Array.from({ length: extra }, (_, n) => 0.5 + n),
        keepingADay: 0.25,
        worth: list,
      };
    });

const aProblem = fc
  .record({ days: fc.integer({ min: 1, max: 2 }), suppliers: fc.integer({ min: 1, max: 2 }) })
  .chain(({ days, suppliers }) =>
    fc.record({
      orderDays: fc.constant(days),
      products: fc.array(aProduct(days, suppliers), { minLength: 1, maxLength: 3 }),
      suppliers: fc.array(
        fc.record({
          id: fc.constant('s'),
          minimumOrder: fc.constantFrom(0, 12, 30),
          freight: fc.constantFrom(0, 5),
          freeFreightFrom: fc.constantFrom(null, 25),
        }),
        { minLength: suppliers, maxLength: suppliers },
      ),
      budget: fc.constantFrom(null, 20, 45, 90),
    }),
  );

test.each([
  [false, 60],
  [true, 60],
])(
  'no plan is cheaper than the one found (needs may go missing: %s)',
  async (soft, numRuns) => {
    await fc.assert(
      fc.asyncProperty(aProblem, async (problem) => {
        let least = Infinity;
        for (const plan of allPlans(problem)) least = Math.min(least, costOf(problem, plan, soft));
        const solved = await solvePlan(problem, soft, solver, exact);
        if (least === Infinity) {
          expect(solved).toBeNull();
          return;
        }
        const plan = solved!.steps.map((days) => [...days]);
        expect(costOf(problem, plan, soft)).toBeCloseTo(least, 5);
        expect(solved!.cost).toBeCloseTo(least, 5);
        expect(solved!.bound).toBeLessThanOrEqual(least + 1e-5);
      }),
      { numRuns, seed: 4180 },
    );
  },
  120_000,
);

test('packs that a person has fixed stay, even below the need', async () => {
  const product: PlanProduct = {
    ...{ id: 'p', supplier: 0, needs: [3], missing: [[30, 20, 10]], keeping: [] },
    ...{ keepingADay: 0, worth: 5, fixed: 1, prices: [0, 5, 10, 15] },
  };
  const supplier = { id: 's', minimumOrder: 0, freight: 0, freeFreightFrom: null };
  const problem = { orderDays: 1, products: [product], suppliers: [supplier], budget: null };
  const solved = await solvePlan(problem, false, solver, exact);
  expect(solved?.steps).toEqual([[1]]);
  // one pack for 5, and the second and third step missing: 20 + 10
  expect(solved?.cost).toBeCloseTo(35, 9);
});

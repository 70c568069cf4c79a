/** An order plan of 300 products, 5 suppliers and 3 order days: how long until it is proved. */
import type { PlanProblem, PlanProduct, PlanSupplier } from '../../shared/ordering/plan-problem.js';
import { solvePlan } from '../../src/studio/purchasing/plan-solver.js';
import { openSolver, type Solver } from '../../src/studio/purchasing/solver.js';
import { randomFrom, type Random } from '../support/random.js';
import { table } from './table.js';

const PRODUCTS = 300;
const SUPPLIERS = 5;
const ORDER_DAYS = 3;
/** What a plan must reach: proved within 1 % of the least cost, in 5 seconds. */
const limits = { seconds: 4.5, gap: 0.005 };
const wantedSeconds = 5;
const wantedGap = 0.01;

/** Prints a row a plan: free of a budget, with one that does not reach, with other seeds. */
export async function run(): Promise<void> {
  const rows: string[][] = [];
  const solver = openSolver();
  for (const seed of [1, 2, 3]) {
    const problem = largeProblem(seed);
    const free = await measured(solver, `seed ${seed}`, problem, false);
    const budget = free.cost * 0.7;
    const short = await measured(solver, `seed ${seed}, 70 %`, { ...problem, budget }, true);
    rows.push(free.row, short.row);
  }
  solver.close();
  table(
    `Order plan, ${PRODUCTS} products, ${SUPPLIERS} suppliers, ${ORDER_DAYS} order days`,
    ['plan', 'cost', 'solver s', 'all s', 'at most above the least', 'proved'],
    rows,
  );
}

async function measured(solver: Solver, name: string, problem: PlanProblem, soft: boolean) {
  const plan = await solvePlan(problem, soft, solver, limits);
  if (!plan) return { cost: 0, row: [name, '-', '-', '-', '-', 'NO'] };
  const proved = plan.gap <= wantedGap && plan.seconds < wantedSeconds;
  return {
    cost: plan.cost,
    row: [
      ...[name, plan.cost.toFixed(0), plan.solverSeconds.toFixed(2), plan.seconds.toFixed(2)],
      ...[`${(plan.gap * 100).toFixed(3)} %`, proved ? 'yes' : 'NO'],
    ],
  };
}

/** Every second product has price breaks; each supplier a minimum, freight and a free step. */
export function largeProblem(seed: number): PlanProblem {
  const random = randomFrom(seed);
  const products = Array.from({ length: PRODUCTS }, (_, p) => aProduct(random, p));
  const suppliers = Array.from({ length: SUPPLIERS }, (_, s): PlanSupplier => ({
    id: `supplier ${s}`,
    minimumOrder: 50 + random.below(150),
    freight: 6 + random.below(10),
    freeFreightFrom: 200 + random.below(600),
  }));
  return { orderDays: ORDER_DAYS, products, suppliers, budget: null };
}

function aProduct(random: Random, index: number): PlanProduct {
  const price = 4 + random.below(2600) / 100;
  const breaks = index % 2 === 0 ? random.oneOf([1, 2]) : 0;
  const first = 3 + random.below(6);
  const tiers = [
    { least: 1, price },
    ...(breaks > 0 ? [{ least: first, price: price * 0.94 }] : []),
    ...(breaks > 1 ? [{ least: 2 * first, price: price * 0.88 }] : []),
  ];
  const start = random.oneOf([0, 0, 1, 1, 2, 3, 5]);
  const second = start + random.below(3);
  const needs = [start, second, second + random.below(3)];
  const worth = tiers.at(-1)?.price ?? price;
  const days = random.oneOf([4, 8, 15, 30, 60]);
  return {
    id: `product ${index}`,
    supplier: random.below(SUPPLIERS),
    prices: Array.from({ length: (needs[2] ?? 0) + 13 }, (_, x) => {
      return x === 0 ? 0 : x * (tiers.findLast(({ least }) => least <= x)?.price ?? price);
    }),
    needs,
    missing: needs.map((need) =>
      Array.from({ length: need }, (_, n) => price * 3 * 1.6 ** (need - n)),
    ),
    keeping: Array.from({ length: 12 }, (_, n) => worth * (0.05 + (0.25 * (n + 0.5) * days) / 365)),
    keepingADay: (price * 0.25 * 7) / 365,
    worth,
  };
}

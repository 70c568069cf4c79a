/** Solves an order plan: ways of buying each product are added while any of them pays. */
import {
  cheapestPattern,
  coupledCost,
  patternOf,
  patternsWithin,
  type Coupling,
  type Pattern,
} from '../../../shared/ordering/plan-patterns.js';
import { planMaster } from '../../../shared/ordering/plan-master.js';
import { roundedPlan, type RoundedPlan } from '../../../shared/ordering/plan-rounding.js';
import type { PlanProblem, PlanSteps } from '../../../shared/ordering/plan-problem.js';
import type { Solver } from './solver.js';

/** How long it may take, and when it is good enough. */
export interface PlanLimits {
  readonly seconds: number;
  /** Part of the cost. */
  readonly gap: number;
}

/** A plan, and how far it can be from the best there is. */
export interface SolvedPlan {
  readonly steps: PlanSteps;
  readonly cost: number;
  /** Proved: no plan costs less. */
  readonly bound: number;
  /** (cost - bound) / cost. */
  readonly gap: number;
  /** Seconds inside of the solver, and of everything. */
  readonly solverSeconds: number;
  readonly seconds: number;
}

const uncoupled: Coupling = { perGoods: [], ordering: [] };
const MOST_ROUNDS = 60;
/** A pattern has to be cheaper by so much to be worth another round. */
const WORTH = 1e-7;
/** Ways of one product that may still be part of a better plan, at the most. */
const MOST_WAYS = 40;
/** Part of the time that the relaxed program may take. */
const PART_FOR_PRICES = 0.35;
/** Part of what is left that one choice of whole patterns may take. */
const PART_FOR_CHOICE = 0.9;

/** What terms cost a product, and what its patterns have to be cheaper than. */
interface Price {
  readonly coupling: Coupling;
  readonly own: number;
}

/** A plan being worked out. */
interface Work {
  readonly problem: PlanProblem;
  readonly soft: boolean;
  readonly solver: Solver;
  readonly limits: PlanLimits;
  /** Patterns of every product so far. */
  readonly ways: Pattern[][];
  readonly left: () => number;
  solverSeconds: number;
}

interface Priced {
  readonly prices: readonly Price[];
  /** No plan costs less. */
  readonly bound: number;
  /** A plan that is close to the relaxed one, where one was found. */
  readonly rounded: RoundedPlan | null;
}

/**
 * Column generation (Gilmore & Gomory 1961): the relaxed program prices the terms, the cheapest
 * pattern of each product at these prices is added, until none pays; then the relaxed cost is a
 * bound for every plan. Whole patterns are chosen among these, and where that is not yet close
 * enough, among all that can be part of a better plan.
 * @returns null where the terms cannot be kept
 */
export async function solvePlan(
  problem: PlanProblem,
  soft: boolean,
  solver: Solver,
  limits: PlanLimits,
): Promise<SolvedPlan | null> {
  const began = performance.now();
  const seconds = () => (performance.now() - began) / 1000;
  const left = () => Math.max(0.05, limits.seconds - seconds());
  const ways = problem.products.map((product) => [cheapestPattern(product, uncoupled, soft)]);
  const work: Work = { problem, soft, solver, limits, ways, left, solverSeconds: 0 };
  asNeeded(work);
  const priced = await price(work);
  if (!priced) return null;
  let { bound } = priced;
  let best: RoundedPlan | null = priced.rounded;
  const close = (cost: number) => (cost - bound) / Math.max(1e-9, Math.abs(cost)) <= limits.gap;
  if (!best || !close(best.cost)) best = cheaper(best, await choose(work));
  // Widening costs time of its own: it is begun in the first half or not at all.
  if (!best || (!close(best.cost) && left() > limits.seconds / 2)) {
    const reach = best ? best.cost - bound : Infinity;
    const all = widen(work, priced.prices, reach);
    const wider = await choose(work);
    if (wider && all) bound = Math.max(bound, Math.min(wider.bound, wider.cost));
    best = cheaper(best, wider);
  }
  if (!best) return null;
  return {
    steps: best.steps,
    cost: best.cost,
    bound: Math.min(bound, best.cost),
    gap: Math.max(0, best.cost - bound) / Math.max(1e-9, Math.abs(best.cost)),
    solverSeconds: work.solverSeconds,
    seconds: seconds(),
  };
}

function cheaper(a: RoundedPlan | null, b: RoundedPlan | null): RoundedPlan | null {
  return a && (!b || a.cost <= b.cost) ? a : b;
}

/** Adds patterns until none pays. Null where no plan at all keeps the terms. */
async function price(work: Work): Promise<Priced | null> {
  const { problem, limits, solver, left, ways } = work;
  let bound = -Infinity;
  let largest: readonly number[] = ways.map(() => 0);
  const done = (): Priced => ({ prices, bound, rounded: roundedPlan(problem, ways, largest) });
  let prices: readonly Price[] = problem.products.map(() => ({ coupling: uncoupled, own: 0 }));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const master = planMaster(problem, ways, false);
    const solved = await solver.solve(master.program, { ...limits, seconds: left() });
    work.solverSeconds += solved.seconds;
    if (solved.outcome !== 'within the gap') break;
    prices = problem.products.map((_, p) => ({
      coupling: master.coupling(solved.duals, p),
      own: master.own(solved.duals, p),
    }));
    largest = master.largest(solved.values);
    const { added, most } = addPaying(work, prices);
    // What the cheapest patterns still save, all together, is the most that can be missing.
    bound = Math.max(bound, solved.cost + most);
    if (added === 0) return master.isKept(solved.values) ? done() : null;
    const near = -most <= (limits.gap / 4) * Math.abs(solved.cost);
    if (near && master.isKept(solved.values)) break;
    if (left() < limits.seconds * (1 - PART_FOR_PRICES)) break;
  }
  return done();
}

/** One whole pattern a product, of those there are. */
async function choose(work: Work) {
  const master = planMaster(work.problem, work.ways, true);
  const seconds = Math.max(0.5, work.left() * PART_FOR_CHOICE);
  const solved = await work.solver.solve(master.program, { seconds, gap: work.limits.gap / 4 });
  work.solverSeconds += solved.seconds;
  if (solved.values.length === 0 || !master.isKept(solved.values)) return null;
  return { cost: solved.cost, bound: solved.bound, steps: master.steps(solved.values) };
}

/**
 * What is needed and nothing more, day by day: a plan from the first round on. Where needs may go
 * missing, the same for its first steps only, down to nothing.
 */
function asNeeded({ problem, ways, soft }: Work): void {
  problem.products.forEach((product, p) => {
    const last = product.needs.at(-1) ?? 0;
    for (let most = soft ? 0 : last; most <= last; most++) {
      const reached = product.needs.map((need) => Math.min(need, most));
      const steps = reached.map((need, day) => Math.max(0, need - (reached[day - 1] ?? 0)));
      add(ways[p] ?? [], patternOf(product, steps, soft));
    }
  });
}

/** Adds the cheapest pattern of each product that pays; `most` is the sum of what they save. */
function addPaying(
  { problem, ways, soft }: Work,
  prices: readonly Price[],
): { added: number; most: number } {
  let added = 0;
  let most = 0;
  problem.products.forEach((product, p) => {
    const { coupling, own } = prices[p] ?? { coupling: uncoupled, own: 0 };
    const pattern = cheapestPattern(product, coupling, soft);
    const saves = coupledCost(pattern, coupling) - own;
    if (saves > -WORTH) return;
    most += saves;
    if (add(ways[p] ?? [], pattern)) added++;
  });
  return { added, most };
}

/**
 * Adds every pattern that a plan better than the one found can hold: one that costs more than
 * `reach` above its product's price cannot. @returns whether all of them are there
 */
function widen({ problem, ways, soft }: Work, prices: readonly Price[], reach: number): boolean {
  let all = Number.isFinite(reach);
  problem.products.forEach((product, p) => {
    const { coupling, own } = prices[p] ?? { coupling: uncoupled, own: 0 };
    let within = reach;
    let found = patternsWithin(product, coupling, soft, own + within + WORTH, MOST_WAYS);
    if (!found.all) all = false;
    for (let tries = 0; !found.all && tries < 40; tries++) {
      within = Number.isFinite(within) ? within / 2 : Math.max(1, Math.abs(own));
      found = patternsWithin(product, coupling, soft, own + within + WORTH, MOST_WAYS);
    }
    for (const pattern of found.patterns) add(ways[p] ?? [], pattern);
  });
  return all;
}

function add(ways: Pattern[], pattern: Pattern): boolean {
  if (!Number.isFinite(pattern.cost)) return false;
  const name = pattern.steps.join(' ');
  if (ways.some(({ steps }) => steps.join(' ') === name)) return false;
  ways.push(pattern);
  return true;
}

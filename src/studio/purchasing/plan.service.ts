/** The order plan: what to buy on the next order days, bare and comfortable, line by line. */
import { Inject, Injectable } from '@nestjs/common';
import type { OrderPlanView, PlanColumnView } from '../../../shared/contract/purchasing.js';
import { minorDigits } from '../../../shared/currency.js';
import { decimal, fixed, type Decimal } from '../../../shared/decimal.js';
import { comfortableLevel } from '../../../shared/ordering/plan-lines.js';
import { planNeed } from '../../../shared/ordering/plan-needs.js';
import { reachableLevel } from '../../../shared/ordering/reorder-policy.js';
import { oneIn } from '../../../shared/ordering/words.js';
import { Problem } from '../../../shared/problems/problem.js';
import { PlanFactsService, type PlanItem, type PlanMaterial } from './plan-facts.service.js';
import { solvePlan, type SolvedPlan } from './plan-solver.js';
import { columnView, type PlanColumn } from './plan.views.js';
import { openSolver, type Solver } from './solver.js';

/** What the owner asks for. */
export interface PlanWish {
  readonly orderDays: number;
  readonly serviceLevel?: Decimal;
  readonly budget?: Decimal;
  /** Packs of the first order day that stay as they are. */
  readonly fixed?: readonly FixedPacks[];
}

export interface FixedPacks {
  readonly productId: string;
  readonly packLabel?: string;
  readonly packs: number;
}

/** Each column has so long; the two are worked out side by side. */
const limits = { seconds: 4.5, gap: 0.005 };
/** A machine that is busy with other things gets a second, longer try. */
const patient = { seconds: 15, gap: 0.01 };

@Injectable()
export class PlanService {
  constructor(@Inject(PlanFactsService) private readonly facts: PlanFactsService) {}

  /** @throws Problem `service_level_out_of_reach`, `packs_kept_of_unknown` */
  async plan(studioId: string, now: string, wish: PlanWish): Promise<OrderPlanView> {
    const level = wish.serviceLevel && reachableLevel(+wish.serviceLevel.toFixed());
    const material = await this.facts.material(studioId, now, wish.orderDays);
    const items = fixedInto(material.items, wish.fixed ?? []);
    const asked = items.map((item) => withLevel(item, level ?? item.facts.serviceLevel));
    const better = asked.map((item) => withLevel(item, comfortableLevel(item.facts.serviceLevel)));
    const [bare, comfortable] = await Promise.all([
      column(material, asked, wish),
      column(material, better, wish),
    ]);
    const bareView = columnView(material, asked, bare);
    const comfortableView = columnView(material, better, comfortable);
    return {
      ...{ today: material.today, orderDays: wish.orderDays, currency: material.currency },
      budget: wish.budget ? fixed(wish.budget, minorDigits(material.currency)) : null,
      ...{ bare: bareView, comfortable: comfortableView },
      difference: difference(bareView, comfortableView, material.currency, asked, level),
      remarks: remarks(material),
    };
  }
}

function withLevel(item: PlanItem, serviceLevel: number): PlanItem {
  return { ...item, facts: { ...item.facts, serviceLevel } };
}

function fixedInto(items: readonly PlanItem[], fixedPacks: readonly FixedPacks[]): PlanItem[] {
  fixedPacks.forEach(({ productId, packLabel }, index) => {
    const item = items.find(({ facts }) => facts.id === productId);
    const known = item?.facts.packs.map(({ label }) => label) ?? [];
    if (!item || (packLabel !== undefined && !known.includes(packLabel))) {
      const product = item?.name ?? productId;
      throw new Problem('packs_kept_of_unknown', { product }, `/keep/${index}/productId`);
    }
  });
  return items.map((item) => {
    const own = fixedPacks.filter(({ productId }) => productId === item.facts.id);
    if (own.length === 0) return item;
    const counts = item.facts.packs.map(({ label }, k) =>
      own
        .filter(({ packLabel }) => (packLabel === undefined ? k === 0 : packLabel === label))
        .reduce((total, { packs }) => total + packs, 0),
    );
    return { ...item, facts: { ...item.facts, fixedPacks: counts } };
  });
}

/** Meets all needs at the least money; where that cannot be, goes short where it hurts least. */
async function column(
  material: PlanMaterial,
  items: readonly PlanItem[],
  wish: PlanWish,
): Promise<PlanColumn> {
  const worth = usualWeek(items);
  const needs = items.map(({ facts }) => planNeed(facts, worth));
  const problem = {
    orderDays: wish.orderDays,
    products: needs.map(({ product }) => product),
    suppliers: material.suppliers,
    budget: wish.budget ? +wish.budget.toFixed() : null,
  };
  const solver = openSolver();
  try {
    const whole = await solvePlan(problem, false, solver, limits);
    if (whole) return { needs, solved: whole, short: false };
    return { needs, solved: await shortPlan(problem, solver), short: true };
  } finally {
    solver.close();
  }
}

async function shortPlan(
  problem: Parameters<typeof solvePlan>[0],
  solver: Solver,
): Promise<SolvedPlan> {
  const solved =
    (await solvePlan(problem, true, solver, limits)) ??
    (await solvePlan(problem, true, solver, patient));
  // Nothing at all always keeps every term, except packs that a person has fixed.
  const steps = problem.products.map(({ needs, fixed: packs }) => {
    return needs.map((_, day) => (day === 0 ? (packs ?? 0) : 0));
  });
  return solved ?? { steps, cost: 0, bound: 0, gap: 1, solverSeconds: 0, seconds: 0 };
}

/** Material of a usual week of a usual product, in money: the median over those that are used. */
function usualWeek(items: readonly PlanItem[]): number {
  const worths = items
    .map(({ facts }) => {
      const pack = facts.packs[0];
      return pack ? ((pack.tiers[0]?.price ?? 0) / pack.quantity) * facts.perWeek : 0;
    })
    .filter((worth) => worth > 0)
    .sort((a, b) => a - b);
  return worths[Math.floor(worths.length / 2)] ?? 1;
}

function difference(
  bare: PlanColumnView,
  comfortable: PlanColumnView,
  currency: string,
  asked: readonly PlanItem[],
  level: number | undefined,
): OrderPlanView['difference'] {
  const cost = decimal(comfortable.total).minus(decimal(bare.total));
  const text = fixed(cost, minorDigits(currency));
  const first = level ?? usualLevel(asked);
  const odds = (of: number) => `one order in ${oneIn(1 - of)}`;
  const money = cost.isZero()
    ? 'Comfortable costs the same'
    : `Comfortable costs ${fixed(cost.abs(), minorDigits(currency))} ${currency} ` +
      (cost.isNegative() ? 'less' : 'more');
  const words =
    `${money}: a product is short about ${odds(comfortableLevel(first))} ` +
    `instead of ${odds(first)}.`;
  return { cost: text, words };
}

/** The level that most products ask for. */
function usualLevel(items: readonly PlanItem[]): number {
  const levels = items.map(({ facts }) => facts.serviceLevel).sort((a, b) => a - b);
  return levels[Math.floor(levels.length / 2)] ?? 0.95;
}

function remarks({ items, leftOut }: PlanMaterial): OrderPlanView['remarks'] {
  const unpriced = items.filter(({ prices }) => {
    return [...prices.values()].some(({ listPrice }) => listPrice === null);
  });
  const open = unpriced.map(({ facts, name }) => ({
    productId: facts.id,
    words: `${name} has a pack without a price; it counts as costing nothing. Enter its price.`,
  }));
  return [...leftOut, ...open];
}

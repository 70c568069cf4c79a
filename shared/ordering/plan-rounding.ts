/** Turns a mixture of patterns into whole ones, one move at a time, until every term is kept. */
import type { Pattern } from './plan-patterns.js';
import { freightOf, type PlanProblem, type PlanSteps } from './plan-problem.js';

/** A plan of whole patterns and its cost. */
export interface RoundedPlan {
  readonly steps: PlanSteps;
  readonly cost: number;
}

/** One product changes to another of its patterns. */
interface Move {
  readonly product: number;
  readonly way: number;
  readonly cost: number;
  readonly money: number;
}

const TINY = 1e-9;
const MOST_MOVES = 2000;

/**
 * Begins with the largest part of every product's mixture; orders below the minimum are dropped,
 * then money is given back where that costs least (the greedy exchange by cost per money), then
 * every exchange that saves is made. Null where that does not end in a plan that keeps the terms.
 * @param chosen index of the pattern that each product begins with
 */
export function roundedPlan(
  problem: PlanProblem,
  ways: readonly (readonly Pattern[])[],
  chosen: readonly number[],
): RoundedPlan | null {
  const plan = new Rounding(problem, ways, [...chosen]);
  plan.dropSmallOrders();
  if (plan.isBroken() || !plan.fitBudget()) return null;
  plan.improve();
  return { steps: plan.chosen.map((way, p) => ways[p]?.[way]?.steps ?? []), cost: plan.cost() };
}

class Rounding {
  /** [supplier][day] */
  private readonly goods: number[][];
  private readonly orders: number[][];

  constructor(
    private readonly problem: PlanProblem,
    private readonly ways: readonly (readonly Pattern[])[],
    readonly chosen: number[],
  ) {
    const days = Array.from({ length: problem.orderDays }, () => 0);
    this.goods = problem.suppliers.map(() => [...days]);
    this.orders = problem.suppliers.map(() => [...days]);
    chosen.forEach((_, p) => this.count(p, 1));
  }

  cost(): number {
    const own = this.chosen.reduce((total, way, p) => total + (this.ways[p]?.[way]?.cost ?? 0), 0);
    return own + this.freight();
  }

  isBroken(): boolean {
    return this.problem.suppliers.some((_, s) => {
      return this.days().some((day) => this.isBelow(s, this.goodsAt(s, day), this.at(s, day)));
    });
  }

  /** Everything of an order that is too small waits, or is bought on another day. */
  dropSmallOrders(): void {
    for (let round = 0; round < 2 * this.problem.orderDays && this.isBroken(); round++) {
      this.problem.products.forEach(({ supplier: s }, p) => {
        for (const day of this.days()) {
          if (!this.isBelow(s, this.goodsAt(s, day), this.at(s, day))) continue;
          if ((this.pattern(p).steps[day] ?? 0) === 0) continue;
          const without = this.cheapest(p, (pattern) => (pattern.steps[day] ?? 0) === 0);
          if (without >= 0) this.take(p, without);
        }
      });
    }
  }

  /** Gives money back until the budget holds. @returns whether it does */
  fitBudget(): boolean {
    const { budget } = this.problem;
    if (budget === null) return true;
    for (let moves = 0; this.money() > budget + TINY; moves++) {
      const move = this.best(
        ({ money }) => money < -TINY,
        ({ cost, money }) => cost / -money,
      );
      if (!move || moves > MOST_MOVES) return false;
      this.take(move.product, move.way);
    }
    return true;
  }

  improve(): void {
    const budget = this.problem.budget ?? Infinity;
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      const left = budget - this.money();
      const move = this.best(
        ({ cost, money }) => cost < -1e-6 && money <= left,
        ({ cost }) => cost,
      );
      if (!move) return;
      this.take(move.product, move.way);
    }
  }

  private best(able: (move: Move) => boolean, rank: (move: Move) => number): Move | null {
    let found: Move | null = null;
    let least = Infinity;
    this.chosen.forEach((current, product) => {
      this.ways[product]?.forEach((pattern, way) => {
        if (way === current) return;
        const move = this.moved(product, way, pattern);
        if (!move || !able(move)) return;
        const value = rank(move);
        if (value < least) [found, least] = [move, value];
      });
    });
    return found;
  }

  /** What a move changes; null where it leaves an order below its minimum. */
  private moved(product: number, way: number, to: Pattern): Move | null {
    const s = this.problem.products[product]?.supplier ?? 0;
    const supplier = this.problem.suppliers[s];
    const from = this.pattern(product);
    let money = 0;
    let freight = 0;
    for (const day of this.days()) {
      const before = this.goodsAt(s, day);
      const change = (to.goods[day] ?? 0) - (from.goods[day] ?? 0);
      const orders =
        this.at(s, day) + ((to.steps[day] ?? 0) > 0 ? 1 : 0) - ((from.steps[day] ?? 0) > 0 ? 1 : 0);
      if (this.isBelow(s, before + change, orders)) return null;
      money += change;
      if (!supplier) continue;
      freight += freightOf(supplier, before + change, orders > 0);
      freight -= freightOf(supplier, before, this.at(s, day) > 0);
    }
    return { product, way, cost: to.cost - from.cost + freight, money: money + freight };
  }

  private isBelow(s: number, goods: number, orders: number): boolean {
    return orders > 0 && goods < (this.problem.suppliers[s]?.minimumOrder ?? 0) - 1e-6;
  }

  private cheapest(product: number, able: (pattern: Pattern) => boolean): number {
    let found = -1;
    let least = Infinity;
    this.ways[product]?.forEach((pattern, way) => {
      if (able(pattern) && pattern.cost < least) [found, least] = [way, pattern.cost];
    });
    return found;
  }

  private take(product: number, way: number): void {
    this.count(product, -1);
    this.chosen[product] = way;
    this.count(product, 1);
  }

  private count(product: number, sign: number): void {
    const s = this.problem.products[product]?.supplier ?? 0;
    const { goods, steps } = this.pattern(product);
    const ownGoods = this.goods[s] ?? [];
    const ownOrders = this.orders[s] ?? [];
    for (const day of this.days()) {
      ownGoods[day] = (ownGoods[day] ?? 0) + sign * (goods[day] ?? 0);
      ownOrders[day] = (ownOrders[day] ?? 0) + ((steps[day] ?? 0) > 0 ? sign : 0);
    }
  }

  private money(): number {
    return this.goods.flat().reduce((a, b) => a + b, 0) + this.freight();
  }

  private freight(): number {
    return this.problem.suppliers.reduce((total, supplier, s) => {
      return this.days().reduce((sum, day) => {
        return sum + freightOf(supplier, this.goodsAt(s, day), this.at(s, day) > 0);
      }, total);
    }, 0);
  }

  private pattern(product: number): Pattern {
    return this.ways[product]?.[this.chosen[product] ?? 0] ?? { steps: [], cost: 0, goods: [] };
  }

  private goodsAt(s: number, day: number): number {
    return this.goods[s]?.[day] ?? 0;
  }

  private at(s: number, day: number): number {
    return this.orders[s]?.[day] ?? 0;
  }

  private days(): readonly number[] {
    return DAYS.slice(0, this.problem.orderDays);
  }
}

const DAYS: readonly number[] = [0, 1, 2, 3, 4, 5, 6];

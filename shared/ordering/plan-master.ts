/** Chooses one pattern a product at the least cost: suppliers' terms and the budget hold. */
import { LinearProgram, type Entry } from './linear-program.js';
import type { Coupling, Pattern } from './plan-patterns.js';
import type { PlanProblem, PlanSteps } from './plan-problem.js';

/** A program over patterns, with the ways back to steps and to the prices of coupling. */
export interface PlanMaster {
  readonly program: LinearProgram;
  /** True when no term had to be broken. */
  isKept(values: ArrayLike<number>): boolean;
  steps(values: ArrayLike<number>): PlanSteps;
  /** The pattern with the largest part of every product. */
  largest(values: ArrayLike<number>): number[];
  /** Of a product, from the dual value of every row. */
  coupling(duals: ArrayLike<number>, product: number): Coupling;
  /** Price of the product itself: what its patterns have to be cheaper than. */
  own(duals: ArrayLike<number>, product: number): number;
}

/** Breaking a term by one unit of money; dearer than anything that keeps it. */
const BROKEN = 10_000;
/** Money that a solver’s tolerance may leave: below the smallest coin anywhere. */
const NEARLY_KEPT = 1e-3;

/** Rows by what they couple; -1 where there is none. */
interface CouplingRows {
  readonly convexity: number[];
  /** [supplier][day] */
  readonly minimum: number[][];
  readonly free: number[][];
  /** [product][day] */
  readonly ordering: number[][];
  budget: number;
}

class Writing {
  readonly program = new LinearProgram();
  readonly chosen: number[][] = [];
  readonly broken: number[] = [];
  readonly freight: Entry[] = [];
  readonly rows: CouplingRows = { convexity: [], minimum: [], free: [], ordering: [], budget: -1 };

  constructor(
    readonly problem: PlanProblem,
    readonly patterns: readonly (readonly Pattern[])[],
    readonly whole: boolean,
  ) {}

  row(lower: number, upper: number, entries: readonly Entry[]): number {
    const before = this.program.rows.length;
    this.program.row(lower, upper, entries);
    return this.program.rows.length > before ? before : -1;
  }

  /** A way to break a row, so that the first patterns need not keep every term. */
  breaking(): number {
    const column = this.program.column(BROKEN, Infinity, false);
    this.broken.push(column);
    return column;
  }

  goods(supplier: number, day: number): Entry[] {
    return this.problem.products.flatMap((product, p) =>
      product.supplier === supplier ? this.goodsOf(p, day) : [],
    );
  }

  goodsOf(product: number, day: number): Entry[] {
    return (this.patterns[product] ?? []).map((pattern, k): Entry => {
      return [this.chosen[product]?.[k] ?? 0, pattern.goods[day] ?? 0];
    });
  }
}

/** @param whole false: patterns may be mixed, which bounds the cost and prices the coupling */
export function planMaster(
  problem: PlanProblem,
  patterns: readonly (readonly Pattern[])[],
  whole: boolean,
): PlanMaster {
  const writing = new Writing(problem, patterns, whole);
  const { program, chosen, rows } = writing;
  patterns.forEach((own) => {
    // Their sum is 1 already: a bound of each would keep a part of its price to itself.
    const columns = own.map(({ cost }) => program.column(cost, whole ? 1 : Infinity, whole));
    chosen.push(columns);
    rows.convexity.push(
      writing.row(
        1,
        1,
        columns.map((column): Entry => [column, 1]),
      ),
    );
    rows.ordering.push([]);
  });
  problem.suppliers.forEach((_, s) => supplierRows(writing, s));
  if (problem.budget !== null) {
    const goods = problem.products.flatMap((_, p) => {
      return (patterns[p] ?? []).map((pattern, k): Entry => {
        const all = pattern.goods.reduce((a, b) => a + b, 0);
        return [chosen[p]?.[k] ?? 0, all];
      });
    });
    const over: Entry = [writing.breaking(), -1];
    rows.budget = writing.row(-Infinity, problem.budget, [...goods, ...writing.freight, over]);
  }
  return reading(writing);
}

/** Minimum order and freight of one supplier on every order day. */
function supplierRows(writing: Writing, s: number): void {
  const { problem, program, rows, patterns, chosen, whole, freight } = writing;
  const supplier = problem.suppliers[s];
  rows.minimum.push([]);
  rows.free.push([]);
  if (!supplier || (supplier.minimumOrder <= 0 && supplier.freight <= 0)) return;
  for (let day = 0; day < problem.orderDays; day++) {
    const ordered = program.column(supplier.freight, 1, whole);
    problem.products.forEach((product, p) => {
      if (product.supplier !== s) return;
      const ordering = (patterns[p] ?? []).flatMap((pattern, k): Entry[] =>
        (pattern.steps[day] ?? 0) > 0 ? [[chosen[p]?.[k] ?? 0, 1]] : [],
      );
      (rows.ordering[p] ?? [])[day] =
        ordering.length > 0 ? writing.row(-Infinity, 0, [...ordering, [ordered, -1]]) : -1;
    });
    if (supplier.minimumOrder > 0) {
      const terms: Entry[] = [...writing.goods(s, day), [ordered, -supplier.minimumOrder]];
      (rows.minimum[s] ?? [])[day] = writing.row(0, Infinity, [...terms, [writing.breaking(), 1]]);
    }
    if (supplier.freight > 0) freight.push([ordered, supplier.freight]);
    if (supplier.freight <= 0 || supplier.freeFreightFrom === null) continue;
    const free = program.column(-supplier.freight, 1, whole);
    freight.push([free, -supplier.freight]);
    writing.row(-Infinity, 0, [
      [free, 1],
      [ordered, -1],
    ]);
    const goods: Entry[] = [...writing.goods(s, day), [free, -supplier.freeFreightFrom]];
    (rows.free[s] ?? [])[day] = writing.row(0, Infinity, goods);
  }
}

function reading({ problem, patterns, chosen, broken, program, rows }: Writing): PlanMaster {
  const at = (duals: ArrayLike<number>, row: number | undefined) =>
    row === undefined || row < 0 ? 0 : (duals[row] ?? 0);
  return {
    program,
    isKept: (values) => broken.every((column) => (values[column] ?? 0) < NEARLY_KEPT),
    steps: (values) =>
      patterns.map((own, p) => {
        const k = own.findIndex((_, index) => (values[chosen[p]?.[index] ?? -1] ?? 0) > 0.5);
        return own[Math.max(0, k)]?.steps ?? [];
      }),
    largest: (values) =>
      chosen.map((columns) => {
        const parts = columns.map((column) => values[column] ?? 0);
        return parts.indexOf(Math.max(...parts));
      }),
    coupling: (duals, p) => {
      const s = problem.products[p]?.supplier ?? 0;
      const days = Array.from({ length: problem.orderDays }, (_, day) => day);
      return {
        perGoods: days.map((day) => {
          const terms = at(duals, rows.minimum[s]?.[day]) + at(duals, rows.free[s]?.[day]);
          return -terms - at(duals, rows.budget);
        }),
        ordering: days.map((day) => -at(duals, rows.ordering[p]?.[day])),
      };
    },
    own: (duals, p) => at(duals, rows.convexity[p]),
  };
}

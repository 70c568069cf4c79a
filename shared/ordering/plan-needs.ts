/** What one product needs of an order plan: levels to reach by order day, packs, prices, limits. */
import { demandLoss, demandQuantile, type Demand } from '../forecasting/demand-distribution.js';
import { cautiousQuantile } from '../forecasting/protection-demand.js';
import { outdatingOf } from '../forecasting/shelf-life.js';
import type { PlanProduct } from './plan-problem.js';

/** A pack that can be ordered; content in the stock unit, prices in the studio's currency. */
export interface OrderablePack {
  readonly label: string;
  readonly quantity: number;
  readonly tiers: readonly { readonly least: number; readonly price: number }[];
}

/** What is known of a product on the day of the plan; quantities in the stock unit. */
export interface PlanFacts {
  readonly id: string;
  readonly supplier: number;
  readonly packs: readonly OrderablePack[];
  readonly serviceLevel: number;
  /** These stand before the forecast. */
  readonly keepSealed: number | null;
  readonly typedPoint: number | null;
  /** On hand and usable, and on order. */
  readonly position: number;
  /** Use from today until what is ordered on the next order day is there, by order day. */
  readonly demands: readonly Demand[];
  /** Mean use from today to each order day. */
  readonly before: readonly number[];
  readonly perDay: number;
  /** What a week with any use uses. */
  readonly perWeek: number;
  /** Use while a new delivery lives; null: nothing is known of its life. */
  readonly lifeDemand: Demand | null;
  readonly mostPacks: number | null;
  readonly fixedPacks?: readonly number[];
}

/** A product in steps, with the way back to packs and what it aims at. */
export interface PlanNeed {
  readonly facts: PlanFacts;
  readonly product: PlanProduct;
  /** Content of a step in the stock unit. */
  readonly step: number;
  /** Position wanted after each order day. */
  readonly targets: readonly number[];
  /** Packs that make up 0, 1, 2, ... steps. */
  readonly packsOf: readonly (readonly number[])[];
  /** What stopped it from being ordered as needed. */
  readonly capped: 'life' | 'room' | null;
}

/** Money tied up costs so much a year. Common practice, no source. */
const CARRYING_A_YEAR = 0.25;
/** Chance of something being left at the end of its life, and the part expected to be. */
export const EXPIRY_RISK = 0.05;
export const EXPIRED_SHARE = 0.02;
/** Buying ahead may turn out wrong: a part of the price is counted for that. Common practice. */
const BUYING_AHEAD = 0.1;
/** Beyond the needs a plan may cover so many days, or reach the last price break in a year. */
const EXTRA_DAYS = 120;
const BREAK_DAYS = 365;
const MOST_STEPS = 240;
const MOST_EXTRA = 40;
/** A week that cannot be worked costs so many times the material of a usual one. */
const SHORT_WEEK = 500;

/** @param weekWorth material of a usual week of a usual product, in money: what shortage weighs */
export function planNeed(facts: PlanFacts, weekWorth: number): PlanNeed {
  const packs = usablePacks(facts.packs);
  const step = stepOf(packs);
  const targets = targetsOf(facts, packs[0]?.quantity ?? 0);
  const wanted = targets.map((target) => stepsTo(target - facts.position, step));
  for (let day = 1; day < wanted.length; day++) {
    wanted[day] = Math.max(wanted[day] ?? 0, wanted[day - 1] ?? 0);
  }
  const limit = limitOf(facts, step, packs[0]?.quantity ?? step);
  const needs = wanted.map((need) => Math.min(need, limit.steps));
  const last = needs.at(-1) ?? 0;
  const extra = Math.max(0, Math.min(extraSteps(facts, packs, step), limit.steps - last));
  const largest = Math.max(...packs.map(({ quantity }) => stepsTo(quantity, step)));
  const fixed = facts.fixedPacks?.reduce((total, count, k) => {
    return total + count * stepsTo(packs[k]?.quantity ?? 0, step);
  }, 0);
  const most = Math.max(last + extra + largest - 1, (fixed ?? 0) + largest - 1);
  const { prices, packsOf } = pricesOf(packs, step, Math.min(MOST_STEPS + largest, most));
  const worth = worthOf(packs, step, last + extra);
  return {
    facts,
    step,
    targets,
    packsOf,
    capped: last < (wanted.at(-1) ?? 0) ? limit.by : null,
    product: {
      id: facts.id,
      supplier: facts.supplier,
      prices,
      needs,
      missing: needs.map((need, day) => missingOf(facts, day, need, step, weekWorth)),
      keeping: Array.from({ length: extra }, (_, n) => {
        const days = ((n + 0.5) * step) / facts.perDay;
        return worth * (BUYING_AHEAD + (CARRYING_A_YEAR * days) / 365);
      }),
      keepingADay: (worth * CARRYING_A_YEAR * 7) / 365,
      worth,
      ...(fixed === undefined ? {} : { fixed }),
    },
  };
}

/** Whole steps that reach a quantity; a rounding of float64 is no step. */
function stepsTo(quantity: number, step: number): number {
  return Math.max(0, Math.ceil(quantity / step - 1e-9));
}

/**
 * What a step that is bought ahead saves later: its lowest price among those within reach, since
 * that can be had again. So nothing is bought ahead for its own sake, only to reach a price.
 */
function worthOf(packs: readonly OrderablePack[], step: number, within: number): number {
  const prices = packs.flatMap(({ tiers, quantity }) => {
    const size = stepsTo(quantity, step);
    const reached = tiers.filter(({ least }) => least === 1 || least * size <= within);
    return reached.map(({ price }) => price / size);
  });
  return Math.min(...prices);
}

/** Several sizes only where their contents share a step that is not too small. */
function usablePacks(packs: readonly OrderablePack[]): readonly OrderablePack[] {
  const step = stepOf(packs);
  const largest = Math.max(...packs.map(({ quantity }) => quantity));
  return largest / step > 24 ? packs.slice(0, 1) : packs;
}

/** Largest content that all packs are whole multiples of, to a thousandth. */
function stepOf(packs: readonly OrderablePack[]): number {
  const thousandths = packs.map(({ quantity }) => +(quantity * 1000).toFixed(0));
  return thousandths.reduce(greatestDivisor) / 1000;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** Typed points and sealed packs are held on the order day; else the quantile of demand. */
function targetsOf(facts: PlanFacts, pack: number): number[] {
  return facts.demands.map((demand, day) => {
    const before = facts.before[day] ?? 0;
    if (facts.typedPoint !== null) return facts.typedPoint + before;
    if (facts.keepSealed !== null) return facts.keepSealed * pack + before;
    return demand.mean > 0 ? cautiousQuantile(facts.serviceLevel, demand) : 0;
  });
}

/** Most steps that are used before they expire, and that there is room for. */
function limitOf(facts: PlanFacts, step: number, pack: number) {
  const { lifeDemand, position, mostPacks } = facts;
  let steps = MOST_STEPS;
  let by: PlanNeed['capped'] = null;
  if (lifeDemand) {
    const risk = demandQuantile(EXPIRY_RISK, lifeDemand);
    let alive = Math.min(MOST_STEPS, Math.max(0, Math.floor((risk - position) / step + 1e-9)));
    const outdated = (n: number) => outdatingOf(n, step, position, lifeDemand).shareOfOrder;
    while (alive > 0 && outdated(alive) > EXPIRED_SHARE) alive--;
    // Whoever needs it has to buy a pack, also where some of it may expire.
    const one = position < lifeDemand.mean ? stepsTo(pack, step) : 0;
    if (Math.max(alive, one) < steps) [steps, by] = [Math.max(alive, one), 'life'];
  }
  if (mostPacks !== null) {
    const room = mostPacks * pack - Math.max(0, position - (facts.before[0] ?? 0));
    const fitting = Math.max(0, Math.floor(room / step + 1e-9));
    if (fitting < steps) [steps, by] = [fitting, 'room'];
  }
  return { steps, by };
}

/** Steps beyond the needs that may pay: for a price break, a minimum order, free freight. */
function extraSteps(facts: PlanFacts, packs: readonly OrderablePack[], step: number): number {
  if (!(facts.perDay > 0)) return 0;
  const covered = Math.floor((facts.perDay * EXTRA_DAYS) / step);
  const breaks = packs.map(({ tiers, quantity }) => {
    return stepsTo((tiers.at(-1)?.least ?? 1) * quantity, step);
  });
  const inTime = breaks.filter((steps) => (steps * step) / facts.perDay <= BREAK_DAYS);
  return Math.min(MOST_EXTRA, Math.max(covered, ...inTime));
}

/** What the 1st, 2nd, ... step of a need is worth: weeks without it that it prevents. */
function missingOf(
  facts: PlanFacts,
  day: number,
  need: number,
  step: number,
  weekWorth: number,
): number[] {
  const demand = facts.demands[day];
  const perWeek = Math.max(facts.perWeek, step / 100);
  let before = demand ? demandLoss(facts.position, demand) : 0;
  return Array.from({ length: need }, (_, n) => {
    const after = demand ? demandLoss(facts.position + (n + 1) * step, demand) : 0;
    const saved = Math.max(0, before - after) / perWeek;
    before = after;
    // What a person has typed or wants sealed counts a little also where nothing is used.
    return weekWorth * (SHORT_WEEK * saved + 0.01 * (need - n));
  });
}

/** Cheapest packs that make up so many steps exactly, for every number of steps. */
function pricesOf(packs: readonly OrderablePack[], step: number, most: number) {
  let best = Array.from({ length: most + 1 }, (_, x) => ({
    price: x === 0 ? 0 : Infinity,
    packs: [] as readonly number[],
  }));
  for (const pack of packs) {
    const size = stepsTo(pack.quantity, step);
    best = best.map((_, x) => {
      let found = { price: Infinity, packs: [] as readonly number[] };
      for (let count = 0; count * size <= x; count++) {
        const rest = best[x - count * size];
        const tier = pack.tiers.findLast(({ least }) => least <= count);
        const price = (rest?.price ?? Infinity) + count * (tier?.price ?? 0);
        if (price < found.price) found = { price, packs: [...(rest?.packs ?? []), count] };
      }
      return found;
    });
  }
  return { prices: best.map(({ price }) => price), packsOf: best.map(({ packs: of }) => of) };
}

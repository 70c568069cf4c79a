/** Combines the members by how well each forecast the recent past. */
import { memberForecasts, type MemberForecasts } from './ensemble-members.js';
import { scaleOf } from './accuracy-scale.js';
import type { EtsSpecification } from './ets-model.js';

/** One rolling origin: what was forecast from `origin` observations, and what came. */
export interface Origin {
  origin: number;
  forecast: number[];
  naive: number[];
  actual: number[];
  /** Mean absolute change of the history up to the origin: errors are divided by it. */
  scale: number;
}

/** A combined forecast, how it was weighted and how it did in the backtest. */
export interface Ensemble {
  mean: number[];
  /** Standard deviation of each lead under the smoothing model. */
  sd: number[];
  weights: number[];
  members: MemberForecasts;
  origins: Origin[];
  memory: EnsembleMemory;
}

/** The smoothing models of one night, to start the next one from; [0] = full history. */
export interface EnsembleMemory {
  models: Map<number, EtsSpecification>;
}

/** Choices of a combined forecast. */
export interface EnsembleOptions {
  /** Seasonal indices of the product family by place in the season of y[0]. */
  family?: readonly number[] | null;
  /** Result of an earlier run over (nearly) the same history. */
  memory?: EnsembleMemory | null;
}

const ORIGINS = 6;
/** Origins are this part of the horizon apart. */
const APART = 4;
const SHORTEST_ORIGIN = 12;
/** A member that missed by half as much again as the best is left out. */
const LEFT_OUT = 1.5;

/** Rolling origins: up to 6, a quarter horizon apart, each with min(h, n/4) periods to come. */
export function rollingOrigins(n: number, h: number): { origins: number[]; reach: number } {
  const reach = Math.min(h, Math.floor(n / 4));
  const apart = Math.max(1, Math.floor(h / APART));
  const origins: number[] = [];
  for (let i = 0; i < ORIGINS; i++) {
    const origin = n - reach - i * apart;
    if (reach > 0 && origin >= SHORTEST_ORIGIN) origins.push(origin);
  }
  return { origins, reach };
}

/**
 * Weighted combination over rolling origins: weight of a member = (1/MASE^2) / sum of 1/MASE^2
 * (inverse squared errors, Bates & Granger 1969), 0 where MASE is over 1.5 of the best, equal
 * weights without a valid origin; means never below 0 when the history never was.
 * y: use per period, oldest first; m: periods in a season; h: periods ahead.
 */
export function forecastEnsemble(
  y: Float64Array,
  m: number,
  h: number,
  options: EnsembleOptions = {},
): Ensemble {
  const family = options.family ?? null;
  const memory: EnsembleMemory = { models: new Map() };
  const run = (history: Float64Array, ahead: number): MemberForecasts => {
    const found = recall(options.memory ?? null, history.length);
    const result = memberForecasts(history, m, ahead, family, found);
    if (result.ets) memory.models.set(history.length, specification(result.ets));
    return result;
  };
  const members = run(y, h);
  const { origins, reach } = rollingOrigins(y.length, h);
  const past = origins.map((origin) => ({
    origin,
    members: run(y.subarray(0, origin), reach),
    actual: Array.from(y.subarray(origin, origin + reach)),
    scale: scaleOf(y.subarray(0, origin), m),
  }));
  const weights = weigh(members.points.length, past);
  const floor = y.some((v) => v < 0) ? -Infinity : 0;
  return {
    mean: blend(members.points, weights, floor),
    sd: members.variance.map((v) => Math.sqrt(Math.max(0, v))),
    weights,
    members,
    memory,
    origins: past.map(({ origin, members: then, actual, scale }) => ({
      origin,
      forecast: blend(then.points, fitting(weights, then.points.length), floor),
      naive: naiveFrom(y.subarray(0, origin), m, reach),
      actual,
      scale,
    })),
  };
}

function specification(fit: EtsSpecification): EtsSpecification {
  return { model: fit.model, parameters: fit.parameters, initial: fit.initial };
}

function recall(memory: EnsembleMemory | null, n: number): EtsSpecification | null {
  if (!memory) return null;
  return memory.models.get(n) ?? memory.models.get(n - 1) ?? null;
}

interface Past {
  members: MemberForecasts;
  actual: number[];
  scale: number;
}

function weigh(count: number, past: Past[]): number[] {
  const errors = new Array<number>(count).fill(0);
  let used = 0;
  for (const { members, actual, scale } of past) {
    if (members.points.length !== count || !(scale > 0)) continue;
    used++;
    members.points.forEach((points, k) => {
      const miss = points.reduce((a, f, j) => a + Math.abs(f - actual[j]!), 0);
      errors[k]! += miss / points.length / scale;
    });
  }
  if (used === 0) return errors.map(() => 1 / count);
  const least = Math.min(...errors);
  const inverse = errors.map((e) =>
    e > LEFT_OUT * least + 1e-9 ? 0 : 1 / Math.max(e / used, 1e-3) ** 2,
  );
  const sum = inverse.reduce((a, b) => a + b, 0);
  return inverse.map((w) => w / sum);
}

/** A short origin has one member only: it carries the whole weight. */
function fitting(weights: number[], count: number): number[] {
  return count === weights.length ? weights : new Array<number>(count).fill(1 / count);
}

function blend(points: number[][], weights: number[], floor: number): number[] {
  return points[0]!.map((_, j) => {
    const mix = points.reduce((a, p, k) => a + weights[k]! * p[j]!, 0);
    return Math.max(floor, Number.isFinite(mix) ? mix : 0);
  });
}

/** The same period a season ago, or the last value when there is no full season. */
export function naiveFrom(y: ArrayLike<number>, m: number, h: number): number[] {
  const n = y.length;
  if (n === 0) return new Array<number>(h).fill(0);
  return Array.from({ length: h }, (_, j) => (m > 1 && n >= m ? y[n - m + (j % m)]! : y[n - 1]!));
}

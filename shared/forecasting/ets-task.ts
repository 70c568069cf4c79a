/** The fitting problem of one model on one series: unknowns, bounds and scratch space. */
import {
  type EtsModel,
  type EtsParameters,
  type EtsSpecification,
  freeStateCount,
  smoothingCount,
} from './ets-model.js';

/** Smallest smoothing parameter; alpha also stays below 1 - LEAST. */
export const LEAST = 1e-4;
/** Damping is kept where it can be told from a plain trend and still reaches a year ahead. */
export const PHI_LOW = 0.8;
export const PHI_HIGH = 0.98;

/**
 * Unknowns x = [a, u, v, phi, level, trend, season...] as far as the model has them, with
 * alpha = a, beta = LEAST + u (a - LEAST), gamma = LEAST + v (1 - a - LEAST), u and v in [0, 1]:
 * the usual region 0 < beta < alpha, 0 < gamma < 1 - alpha becomes a box. The last seasonal state
 * is implied by the sum of the season (0, or the period when multiplicative).
 */
export interface EtsTask {
  model: EtsModel;
  y: Float64Array;
  /** Seasonal slots kept (1 without season). */
  slots: number;
  /** Places of u, v, phi, trend and the first seasonal state in x; -1 when absent. */
  at: { beta: number; gamma: number; phi: number; level: number; trend: number; season: number };
  count: number;
  low: Float64Array;
  high: Float64Array;
  /** Scratch: sensitivities of level, trend, seasons; one Jacobian row; normal equations. */
  dLevel: Float64Array;
  dTrend: Float64Array;
  dSeason: Float64Array;
  season: Float64Array;
  seeds: Float64Array[];
  row: Float64Array;
  logRow: Float64Array;
  normal: Float64Array;
  gradient: Float64Array;
}

/** Lays out the unknowns of `model` and allocates the scratch space once. */
export function makeTask(model: EtsModel, y: Float64Array): EtsTask {
  const smoothing = smoothingCount(model);
  const count = smoothing + freeStateCount(model);
  const hasTrend = model.trend !== 'N';
  const hasSeason = model.season !== 'N';
  const beta = hasTrend ? 1 : -1;
  const gamma = hasSeason ? (hasTrend ? 2 : 1) : -1;
  const phi = model.trend === 'Ad' ? smoothing - 1 : -1;
  const level = smoothing;
  const at = {
    beta,
    gamma,
    phi,
    level,
    trend: hasTrend ? level + 1 : -1,
    season: hasSeason ? level + (hasTrend ? 2 : 1) : -1,
  };
  const slots = hasSeason ? model.period : 1;
  const low = new Float64Array(count).fill(-Infinity);
  const high = new Float64Array(count).fill(Infinity);
  low[0] = LEAST;
  high[0] = 1 - LEAST;
  for (const i of [beta, gamma]) if (i >= 0) [low[i], high[i]] = [0, 1];
  if (phi >= 0) [low[phi], high[phi]] = [PHI_LOW, PHI_HIGH];
  if (model.season === 'M') for (let i = at.season; i < count; i++) low[i] = 0;
  return {
    model,
    y,
    slots,
    at,
    count,
    low,
    high,
    dLevel: new Float64Array(count),
    dTrend: new Float64Array(count),
    dSeason: new Float64Array(count * slots),
    season: new Float64Array(slots),
    seeds: [0, 1, 2, 3].map(() => new Float64Array(count)),
    row: new Float64Array(count),
    logRow: new Float64Array(count),
    normal: new Float64Array(count * count),
    gradient: new Float64Array(count),
  };
}

/** Smoothing parameters that the unknowns stand for. */
export function taskParameters(task: EtsTask, x: Float64Array): EtsParameters {
  const { at } = task;
  const alpha = x[0]!;
  return {
    alpha,
    beta: at.beta < 0 ? 0 : LEAST + x[at.beta]! * (alpha - LEAST),
    gamma: at.gamma < 0 ? 0 : LEAST + x[at.gamma]! * (1 - alpha - LEAST),
    phi: at.phi < 0 ? 1 : x[at.phi]!,
  };
}

/** Writes the seasonal states before the first observation into `task.season`. */
export function loadSeason(task: EtsTask, x: Float64Array): void {
  const { season, slots, at } = task;
  if (at.season < 0) {
    season[0] = 0;
    return;
  }
  let rest = task.model.season === 'M' ? slots : 0;
  for (let j = 0; j < slots - 1; j++) {
    const s = x[at.season + j]!;
    season[j] = s;
    rest -= s;
  }
  season[slots - 1] = rest;
}

/** The specification that the unknowns stand for. */
export function taskSpecification(task: EtsTask, x: Float64Array): EtsSpecification {
  loadSeason(task, x);
  const { at } = task;
  return {
    model: task.model,
    parameters: taskParameters(task, x),
    initial: {
      level: x[at.level]!,
      trend: at.trend < 0 ? 0 : x[at.trend]!,
      season: at.season < 0 ? [] : [...task.season],
    },
  };
}

/** The unknowns of a specification (of the same period), moved inside the bounds. */
export function taskUnknowns(task: EtsTask, spec: EtsSpecification): Float64Array {
  const { at, low, high } = task;
  const x = new Float64Array(task.count);
  const { alpha, beta, gamma, phi } = spec.parameters;
  x[0] = alpha;
  if (at.beta >= 0) x[at.beta] = (beta - LEAST) / Math.max(alpha - LEAST, 1e-9);
  if (at.gamma >= 0) x[at.gamma] = (gamma - LEAST) / Math.max(1 - alpha - LEAST, 1e-9);
  if (at.phi >= 0) x[at.phi] = phi;
  x[at.level] = spec.initial.level;
  if (at.trend >= 0) x[at.trend] = spec.initial.trend;
  if (at.season >= 0) {
    for (let j = 0; j < task.slots - 1; j++) x[at.season + j] = spec.initial.season[j]!;
  }
  for (let i = 0; i < x.length; i++) x[i] = Math.min(Math.max(x[i]!, low[i]!), high[i]!);
  return x;
}

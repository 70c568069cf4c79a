/** Finds the parameters and first states of one exponential smoothing model on one series. */
import { filterEts, type EtsFiltered } from './ets-filter.js';
import type { EtsModel, EtsSpecification } from './ets-model.js';
import { objective } from './ets-objective.js';
import { climb, type Climb } from './ets-search.js';
import {
  heuristicState,
  QUICK_STARTS,
  type Start,
  startParameters,
  THOROUGH_STARTS,
} from './ets-starts.js';
import { makeTask, taskSpecification, taskUnknowns } from './ets-task.js';

/** A fitted model: what was found, and the filter's pass with it. */
export interface EtsFit extends EtsSpecification, EtsFiltered {}

/** How hard to look: quick for a nightly run, thorough for the highest likelihood. */
export interface FitEffort {
  starts: readonly Start[];
  steps: number;
  tolerance: number;
}

/** One start, stopped when a step gains less than a thousandth in likelihood. */
export const QUICK: FitEffort = { starts: QUICK_STARTS, steps: 40, tolerance: 1e-5 };
/** Eighteen starts, each followed to the end. */
export const THOROUGH: FitEffort = { starts: THOROUGH_STARTS, steps: 200, tolerance: 1e-10 };

/**
 * Maximum likelihood fit inside the usual region (0.0001 <= beta <= alpha <= 0.9999,
 * 0.0001 <= gamma <= 1 - alpha, 0.8 <= phi <= 0.98). `warm` is a specification to start from
 * first. Null when no start gives a finite likelihood (a value <= 0 under multiplicative errors).
 */
export function fitEts(
  model: EtsModel,
  y: Float64Array,
  effort: FitEffort = QUICK,
  warm: readonly EtsSpecification[] = [],
): EtsFit | null {
  const task = makeTask(model, y);
  let best: Climb | null = null;
  const tryFrom = (spec: EtsSpecification): void => {
    const start = taskUnknowns(task, spec);
    for (let i = 0; i < 8 && !Number.isFinite(objective(task, start)); i++) {
      const calmer = calmed(spec, y, 0.6 ** (i + 1));
      start.set(taskUnknowns(task, calmer));
    }
    const found = climb(task, start, effort.steps, effort.tolerance);
    if (Number.isFinite(found.value) && (!best || found.value < best.value)) best = found;
  };
  for (const spec of warm) tryFrom(spec);
  if (effort.starts.length > 0) {
    const initial = heuristicState(model, y);
    for (const start of effort.starts) {
      tryFrom({ model, parameters: startParameters(start), initial });
    }
  }
  const found = best as Climb | null;
  if (!found) return null;
  const spec = taskSpecification(task, found.x);
  return { ...spec, ...filterEts(spec, y) };
}

/** First states pulled towards a flat mean, for starts that make a fitted value negative. */
function calmed(spec: EtsSpecification, y: Float64Array, keep: number): EtsSpecification {
  const neutral = spec.model.season === 'M' ? 1 : 0;
  const mean = y.reduce((a, b) => a + b, 0) / y.length;
  return {
    ...spec,
    parameters: { ...spec.parameters, alpha: spec.parameters.alpha * keep },
    initial: {
      level: keep * spec.initial.level + (1 - keep) * mean,
      trend: keep * keep * spec.initial.trend,
      season: spec.initial.season.map((s) => neutral + keep * (s - neutral)),
    },
  };
}

/**
 * The highest likelihood that can be found: many starts, and the optima of the plain trend (for a
 * damped one) and of additive errors (for multiplicative ones) as further starts.
 */
export function fitEtsThoroughly(model: EtsModel, y: Float64Array): EtsFit | null {
  const warm: EtsSpecification[] = [];
  if (model.trend === 'Ad') {
    const plain = fitEts({ ...model, trend: 'A' }, y, THOROUGH);
    for (const phi of [0.98, 0.9, 0.8]) {
      if (plain) warm.push({ ...plain, model, parameters: { ...plain.parameters, phi } });
    }
  }
  if (model.error === 'M' && model.season !== 'M') {
    const additive = fitEts({ ...model, error: 'A' }, y, THOROUGH);
    if (additive) warm.push({ ...additive, model });
  }
  return fitEts(model, y, THOROUGH, warm);
}

/** Climbs to the highest likelihood of a model: Levenberg-Marquardt steps inside a box. */
import { normalEquations, objective } from './ets-objective.js';
import type { EtsTask } from './ets-task.js';

/** Where a climb ended. */
export interface Climb {
  x: Float64Array;
  value: number;
}

/**
 * Least squares climb from x (changed in place). Unknowns at a bound that want to leave it are
 * held; the others take a damped Gauss-Newton step, cut at the bounds. Stops when two steps in a
 * row gain less than `tolerance` in the objective, or after `steps` steps.
 */
export function climb(task: EtsTask, x: Float64Array, steps: number, tolerance: number): Climb {
  let value = objective(task, x);
  if (!Number.isFinite(value)) return { x, value };
  const trial = new Float64Array(x.length);
  const delta = new Float64Array(x.length);
  const factor = new Float64Array(x.length * x.length);
  const held = new Uint8Array(x.length);
  let damping = 1e-3;
  let growth = 2;
  let small = 0;
  for (let step = 0; step < steps && small < 2; step++) {
    const squares = normalEquations(task, x);
    if (!(squares > 1e-280)) break;
    holdBounds(task, x, held);
    let gained = -1;
    for (let attempt = 0; attempt < 12 && gained < 0; attempt++) {
      if (solveDamped(task, held, damping, factor, delta)) {
        move(task, x, delta, trial);
        const next = objective(task, trial);
        if (next < value) {
          gained = value - next;
          value = next;
          x.set(trial);
          damping = Math.max(damping / (attempt === 0 ? 5 : 2), 1e-12);
          growth = 2;
          break;
        }
      }
      damping = Math.min(damping * growth, 1e12);
      growth *= 2;
    }
    if (gained < 0) break;
    small = gained < tolerance ? small + 1 : 0;
  }
  return { x, value };
}

function holdBounds(task: EtsTask, x: Float64Array, held: Uint8Array): void {
  const { low, high, gradient, normal, count } = task;
  for (let i = 0; i < count; i++) {
    const g = gradient[i]!;
    const atLow = x[i]! <= low[i]! && g >= 0;
    const atHigh = x[i]! >= high[i]! && g <= 0;
    held[i] = atLow || atHigh || normal[i * count + i]! <= 0 ? 1 : 0;
  }
}

function move(task: EtsTask, x: Float64Array, delta: Float64Array, trial: Float64Array): void {
  const { low, high } = task;
  for (let i = 0; i < x.length; i++) {
    const to = x[i]! + delta[i]!;
    trial[i] = to < low[i]! ? low[i]! : to > high[i]! ? high[i]! : to;
  }
}

/** Solves (J'J + damping diag(J'J)) delta = -J'r over the free unknowns by Cholesky. */
function solveDamped(
  task: EtsTask,
  held: Uint8Array,
  damping: number,
  factor: Float64Array,
  delta: Float64Array,
): boolean {
  const { normal, gradient, count } = task;
  for (let i = 0; i < count; i++) {
    if (held[i]) continue;
    for (let j = 0; j <= i; j++) {
      if (held[j]) continue;
      let sum = normal[i * count + j]!;
      if (i === j) sum += damping * sum;
      for (let k = 0; k < j; k++) {
        if (!held[k]) sum -= factor[i * count + k]! * factor[j * count + k]!;
      }
      if (i !== j) factor[i * count + j] = sum / factor[j * count + j]!;
      else if (sum > 0) factor[i * count + i] = Math.sqrt(sum);
      else return false;
    }
  }
  for (let i = 0; i < count; i++) {
    if (held[i]) {
      delta[i] = 0;
      continue;
    }
    let sum = -gradient[i]!;
    for (let k = 0; k < i; k++) if (!held[k]) sum -= factor[i * count + k]! * delta[k]!;
    delta[i] = sum / factor[i * count + i]!;
  }
  for (let i = count - 1; i >= 0; i--) {
    if (held[i]) continue;
    let sum = delta[i]!;
    for (let k = i + 1; k < count; k++) if (!held[k]) sum -= factor[k * count + i]! * delta[k]!;
    delta[i] = sum / factor[i * count + i]!;
  }
  return true;
}

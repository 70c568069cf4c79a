/** The value and the exact derivatives of the likelihood of an exponential smoothing model. */
import { type EtsTask, LEAST, loadSeason, taskParameters } from './ets-task.js';

/**
 * log(sum e^2) + (2/n) sum log(fitted) for multiplicative errors: -2/n times the log-likelihood.
 * Infinity where a fitted value or a multiplicative season is not positive.
 */
export function objective(task: EtsTask, x: Float64Array): number {
  const { y, slots, season, at, model } = task;
  const { alpha, beta, gamma, phi: damping } = taskParameters(task, x);
  const phi = at.trend < 0 ? 0 : damping;
  const relative = model.error === 'M';
  const ratio = model.season === 'M';
  loadSeason(task, x);
  if (ratio && season[slots - 1]! < 0) return Infinity;
  let level = x[at.level]!;
  let trend = at.trend < 0 ? 0 : x[at.trend]!;
  let squares = 0;
  let product = 1;
  let logs = 0;
  let slot = 0;
  for (let t = 0; t < y.length; t++) {
    const base = level + phi * trend;
    const s = season[slot]!;
    const mean = ratio ? base * s : base + s;
    const error = y[t]! - mean;
    const push = ratio ? error / s : error;
    level = base + alpha * push;
    trend = phi * trend + beta * push;
    season[slot] = s + gamma * (ratio ? error / base : error);
    if (++slot === slots) slot = 0;
    if (relative) {
      if (!(mean > 0) || (ratio && !(s > 0))) return Infinity;
      const e = error / mean;
      squares += e * e;
      product *= mean;
      if (product > 1e200 || product < 1e-200) {
        logs += Math.log(product);
        product = 1;
      }
    } else squares += error * error;
  }
  const value = Math.log(squares) + (relative ? (2 * (logs + Math.log(product))) / y.length : 0);
  return value === value ? value : Infinity;
}

function plantSeeds(task: EtsTask, x: Float64Array): void {
  const { at, seeds, count, slots, dLevel, dTrend, dSeason } = task;
  const [sAlpha, sBeta, sGamma, sPhi] = seeds as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const alpha = x[0]!;
  sAlpha[0] = 1;
  if (at.beta >= 0) {
    sBeta[0] = x[at.beta]!;
    sBeta[at.beta] = alpha - LEAST;
  }
  if (at.gamma >= 0) {
    sGamma[0] = -x[at.gamma]!;
    sGamma[at.gamma] = 1 - alpha - LEAST;
  }
  if (at.phi >= 0) sPhi[at.phi] = 1;
  dLevel.fill(0);
  dTrend.fill(0);
  dSeason.fill(0);
  dLevel[at.level] = 1;
  if (at.trend >= 0) dTrend[at.trend] = 1;
  if (at.season >= 0) {
    for (let j = 0; j < slots - 1; j++) {
      dSeason[j * count + at.season + j] = 1;
      dSeason[(slots - 1) * count + at.season + j] = -1;
    }
  }
}

/**
 * Fills `task.normal` (J'J) and `task.gradient` (J'r) at x for the scaled residuals
 * r = e G, G the geometric mean of the fitted values (1 for additive errors), so that
 * log(sum r^2) is the objective; returns sum e^2. Derivatives by forward sensitivities.
 */
export function normalEquations(task: EtsTask, x: Float64Array): number {
  task.normal.fill(0);
  task.gradient.fill(0);
  task.logRow.fill(0);
  plantSeeds(task, x);
  loadSeason(task, x);
  const squares = task.model.season === 'M' ? ratioPass(task, x) : sumPass(task, x);
  const { normal, gradient, logRow, count } = task;
  if (task.model.error === 'M') {
    const n = task.y.length;
    for (let i = 0; i < count; i++) logRow[i]! /= n;
    for (let i = 0; i < count; i++) {
      const li = logRow[i]!;
      const gi = gradient[i]!;
      for (let j = 0; j <= i; j++) {
        const lj = logRow[j]!;
        normal[i * count + j]! += gi * lj + li * gradient[j]! + squares * li * lj;
      }
    }
    for (let i = 0; i < count; i++) gradient[i]! += squares * logRow[i]!;
  }
  return squares;
}

function addRow(task: EtsTask, e: number): void {
  const { row, normal, gradient, count } = task;
  for (let i = 0; i < count; i++) {
    const r = row[i]!;
    if (r === 0) continue;
    gradient[i]! += e * r;
    const line = i * count;
    for (let j = 0; j <= i; j++) normal[line + j]! += r * row[j]!;
  }
}

function sumPass(task: EtsTask, x: Float64Array): number {
  const { y, slots, season, at, count, dLevel, dTrend, dSeason, row, logRow } = task;
  const { alpha, beta, gamma, phi: damping } = taskParameters(task, x);
  const [sA, sB, sG, sP] = task.seeds as [Float64Array, Float64Array, Float64Array, Float64Array];
  const phi = at.trend < 0 ? 0 : damping;
  const relative = task.model.error === 'M';
  let level = x[at.level]!;
  let trend = at.trend < 0 ? 0 : x[at.trend]!;
  let squares = 0;
  for (let t = 0; t < y.length; t++) {
    const slot = t % slots;
    const offset = slot * count;
    const s = season[slot]!;
    const base = level + phi * trend;
    const mean = base + s;
    const error = y[t]! - mean;
    const stretch = relative ? y[t]! / (mean * mean) : 1;
    const logStretch = relative ? -1 / mean : 0;
    for (let i = 0; i < count; i++) {
      const carried = phi * dTrend[i]! + sP[i]! * trend;
      const dBase = dLevel[i]! + carried;
      const ds = dSeason[offset + i]!;
      const dError = -(dBase + ds);
      dLevel[i] = dBase + alpha * dError + sA[i]! * error;
      dTrend[i] = carried + beta * dError + sB[i]! * error;
      dSeason[offset + i] = ds + gamma * dError + sG[i]! * error;
      row[i] = dError * stretch;
      logRow[i]! += dError * logStretch;
    }
    level = base + alpha * error;
    trend = phi * trend + beta * error;
    season[slot] = s + gamma * error;
    const e = relative ? error / mean : error;
    squares += e * e;
    addRow(task, e);
  }
  return squares;
}

function ratioPass(task: EtsTask, x: Float64Array): number {
  const { y, slots, season, at, count, dLevel, dTrend, dSeason, row, logRow } = task;
  const { alpha, beta, gamma, phi: damping } = taskParameters(task, x);
  const [sA, sB, sG, sP] = task.seeds as [Float64Array, Float64Array, Float64Array, Float64Array];
  const phi = at.trend < 0 ? 0 : damping;
  let level = x[at.level]!;
  let trend = at.trend < 0 ? 0 : x[at.trend]!;
  let squares = 0;
  for (let t = 0; t < y.length; t++) {
    const slot = t % slots;
    const offset = slot * count;
    const s = season[slot]!;
    const base = level + phi * trend;
    const mean = base * s;
    const error = y[t]! - mean;
    const push = error / s;
    const turn = error / base;
    const stretch = -y[t]! / (mean * mean);
    const byS = y[t]! / (s * s);
    const byBase = y[t]! / (base * base);
    for (let i = 0; i < count; i++) {
      const carried = phi * dTrend[i]! + sP[i]! * trend;
      const dBase = dLevel[i]! + carried;
      const ds = dSeason[offset + i]!;
      const dMean = dBase * s + base * ds;
      const dPush = -byS * ds - dBase;
      dLevel[i] = dBase + alpha * dPush + sA[i]! * push;
      dTrend[i] = carried + beta * dPush + sB[i]! * push;
      dSeason[offset + i] = ds - gamma * (byBase * dBase + ds) + sG[i]! * turn;
      row[i] = dMean * stretch;
      logRow[i]! += dMean / mean;
    }
    level = base + alpha * push;
    trend = phi * trend + beta * push;
    season[slot] = s + gamma * turn;
    const e = error / mean;
    squares += e * e;
    addRow(task, e);
  }
  return squares;
}

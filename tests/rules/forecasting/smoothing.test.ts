/** Exponential smoothing: the filter by hand, fits, the choice of model, intervals. */
import { automaticEts } from '../../../shared/forecasting/ets-automatic.js';
import { filterEts } from '../../../shared/forecasting/ets-filter.js';
import { fitEts, fitEtsThoroughly } from '../../../shared/forecasting/ets-fit.js';
import { forecastEts, normalInterval } from '../../../shared/forecasting/ets-forecast.js';
import {
  candidateModels,
  etsName,
  etsParameterCount,
  type EtsModel,
} from '../../../shared/forecasting/ets-model.js';
import { objective, normalEquations } from '../../../shared/forecasting/ets-objective.js';
import { makeTask } from '../../../shared/forecasting/ets-task.js';
import { bestSmoothing, smoothLevel } from '../../../shared/forecasting/simple-smoothing.js';
import { dynamicTheta, thetaForecast } from '../../../shared/forecasting/theta.js';

const level: EtsModel = { error: 'A', trend: 'N', season: 'N', period: 1 };

test('simple smoothing by hand: 10, 12, 11 with alpha 1/2 from 10', () => {
  const filtered = filterEts(
    {
      model: level,
      parameters: { alpha: 0.5, beta: 0, gamma: 0, phi: 1 },
      initial: { level: 10, trend: 0, season: [] },
    },
    [10, 12, 11],
  );
  expect([...filtered.fitted]).toEqual([10, 10, 11]);
  expect([...filtered.residuals]).toEqual([0, 2, 0]);
  expect(filtered.last.level).toBe(11);
  expect(filtered.residualSquares).toBe(4);
  expect(filtered.logLikelihood).toBeCloseTo(-1.5 * Math.log(4), 12);
  expect(smoothLevel([10, 12, 11], 0.5, 10).level).toBe(11);
});

test('a multiplicative season by hand', () => {
  const filtered = filterEts(
    {
      model: { error: 'M', trend: 'N', season: 'M', period: 2 },
      parameters: { alpha: 0.5, beta: 0, gamma: 0.5, phi: 1 },
      initial: { level: 10, trend: 0, season: [1.5, 0.5] },
    },
    [18, 6],
  );
  // 15 expected, 18 came: e = 0.2, level 11, season 1.65; then 5.5, 6 came: e = 1/11.
  expect(filtered.fitted[1]).toBeCloseTo(5.5, 12);
  expect(filtered.residuals[1]).toBeCloseTo(0.5 / 5.5, 12);
  expect(filtered.last.level).toBeCloseTo(11.5, 12);
  expect(filtered.last.season[0]).toBeCloseTo(1.65, 12);
});

test('there are 15 models with a season, 6 without, 6 where values are not positive', () => {
  expect(candidateModels(12, true)).toHaveLength(15);
  expect(candidateModels(1, true)).toHaveLength(6);
  expect(candidateModels(12, false)).toHaveLength(6);
});

test('parameters are counted with the free states and the variance', () => {
  const holtWinters: EtsModel = { error: 'M', trend: 'Ad', season: 'M', period: 12 };
  expect(etsName(holtWinters)).toBe('ETS(M,Ad,M)');
  // alpha, beta, gamma, phi + level, trend, 11 seasons + variance
  expect(etsParameterCount(holtWinters)).toBe(18);
});

const months = Float64Array.from({ length: 48 }, (_, t) => {
  const season = 1 + 0.3 * Math.sin((2 * Math.PI * t) / 12);
  const wobble = 1 + 0.04 * Math.sin(t * t);
  return (200 + 2 * t) * season * wobble;
});

test('the exact derivatives agree with differences of the objective', () => {
  for (const model of candidateModels(12, true)) {
    const task = makeTask(model, months);
    const x = new Float64Array(task.count).fill(0.4);
    if (task.at.phi >= 0) x[task.at.phi] = 0.9;
    x[task.at.level] = 210;
    if (task.at.trend >= 0) x[task.at.trend] = 1.5;
    for (let j = 0; task.at.season >= 0 && j < 11; j++) {
      x[task.at.season + j] = model.season === 'M' ? 1 + 0.2 * Math.sin(j) : 30 * Math.sin(j);
    }
    const squares = normalEquations(task, x);
    const gradient = task.gradient.map((g) => (2 * g) / squares);
    for (let i = 0; i < task.count; i++) {
      const step = 1e-5 * Math.max(1, Math.abs(x[i]!));
      const up = x.slice();
      const down = x.slice();
      up[i]! += step;
      down[i]! -= step;
      const slope = (objective(task, up) - objective(task, down)) / (2 * step);
      expect(Math.abs(gradient[i]! - slope)).toBeLessThan(1e-5 * (1 + Math.abs(slope)));
    }
  }
});

test('a fit is at least as likely as each of many other parameters', () => {
  const fit = fitEtsThoroughly(level, months)!;
  for (let alpha = 0.05; alpha < 1; alpha += 0.05) {
    const other = filterEts(
      { ...fit, parameters: { ...fit.parameters, alpha }, model: level },
      months,
    );
    expect(fit.logLikelihood).toBeGreaterThanOrEqual(other.logLikelihood - 1e-9);
  }
});

test('multiplicative errors are refused where values are not positive', () => {
  const y = Float64Array.from([3, 0, -2, 4, 1, 2, 3, 1]);
  expect(fitEts({ ...level, error: 'M' }, y)?.fitted.every((f) => f > 0) ?? true).toBe(true);
  expect(automaticEts(y, 1)?.model.error).toBe('A');
});

test('a seasonal history gets a seasonal model', () => {
  expect(automaticEts(months, 12)?.model.season).not.toBe('N');
});

test('a constant or very short history gets no model', () => {
  expect(automaticEts(new Float64Array(30).fill(5), 12)).toBeNull();
  expect(automaticEts(Float64Array.from([1, 2, 3]), 12)).toBeNull();
});

test('variance of simple smoothing is s2 (1 + (h-1) alpha2), by hand', () => {
  const ahead = forecastEts(
    {
      model: level,
      parameters: { alpha: 0.5, beta: 0, gamma: 0, phi: 1 },
      sigma2: 4,
      last: { level: 20, trend: 0, season: [] },
    },
    3,
  );
  expect(ahead.mean).toEqual([20, 20, 20]);
  expect(ahead.variance).toEqual([4, 5, 6]);
  const { lower, upper } = normalInterval(ahead, 0.95);
  expect(upper[0]! - lower[0]!).toBeCloseTo(4 * 1.959964, 5);
});

test('smoothing follows a step and not the noise around a level', () => {
  const step = [5, 5, 5, 5, 5, 9, 9, 9, 9, 9];
  expect(bestSmoothing(step, 0.01, 0.99).alpha).toBeGreaterThan(0.9);
  const noise = [5, 6, 4, 6, 4, 5, 6, 4, 5, 5];
  expect(bestSmoothing(noise, 0.01, 0.99).alpha).toBeLessThan(0.1);
});

test('the theta method carries on half of a straight line', () => {
  const line = Float64Array.from({ length: 20 }, (_, t) => 10 + 4 * t);
  const ahead = thetaForecast(line, 2);
  expect(ahead.drift).toBeCloseTo(2, 10);
  expect(ahead.mean[1]! - ahead.mean[0]!).toBeCloseTo(2, 10);
});

test('dynamic theta follows a straight line and stays on a level', () => {
  const flat = dynamicTheta(new Float64Array(20).fill(7), 3);
  for (const f of flat.mean) expect(f).toBeCloseTo(7, 6);
  const line = Float64Array.from({ length: 30 }, (_, t) => 100 + 5 * t);
  const ahead = dynamicTheta(line, 1);
  expect(ahead.mean[0]!).toBeGreaterThan(240);
  expect(ahead.mean[0]!).toBeLessThan(252);
});

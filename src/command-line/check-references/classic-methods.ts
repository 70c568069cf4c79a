/** Checks the older methods found beside the models: naive, averages, Holt, Winters, theta. */
import { classicalSeason } from '../../../shared/forecasting/classical-decomposition.js';
import { fitEtsThoroughly } from '../../../shared/forecasting/ets-fit.js';
import {
  errorWeights,
  normalInterval,
  varianceFromWeights,
} from '../../../shared/forecasting/ets-forecast.js';
import type { Forecast } from '../../../shared/forecasting/ets-outlook.js';
import {
  holtWinters,
  holtWintersForecast,
  type HoltWintersConstants,
  type HoltWintersPass,
  type HoltWintersStart,
  seasonalStart,
} from '../../../shared/forecasting/holt-winters.js';
import { hasSeason } from '../../../shared/forecasting/season-test.js';
import { withoutSeason, withSeason } from '../../../shared/forecasting/seasonal-indices.js';
import {
  driftForecast,
  meanForecast,
  naiveForecast,
  seasonalNaiveForecast,
  studentQuantile,
} from '../../../shared/forecasting/simple-forecasts.js';
import { bestSmoothing, smoothLevel } from '../../../shared/forecasting/simple-smoothing.js';
import { thetaForecast } from '../../../shared/forecasting/theta.js';
import {
  compareAll,
  compareFitted,
  type Compare,
  entry,
  type JsonObject,
  list,
  meanSize,
  number,
  object,
  type Tally,
  verdict,
} from './tally.js';

const EXACT = 1e-9;
/** Where a one-dimensional optimum is found by both sides to their own tolerance. */
const SEARCHED = 5e-3;

/** Checks one entry of a known name; other names count as skipped. */
export function checkClassic(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
  h: number,
): void {
  if (of.error !== undefined) return;
  if (name.startsWith('stats_HW') || name === 'holt_simple_fixed') {
    checkHolt(tally, name, of, y, m, h);
  } else if (name.startsWith('ses_simple') || name === 'sm_ses_fixed') {
    checkSimple(tally, name, of, y, h);
  } else if (name.startsWith('decompose_')) {
    const figure = classicalSeason(y, m, name.endsWith('multiplicative'));
    entry(tally, name, EXACT, (c) =>
      compareAll(c, 'figure', figure, of.figure, 1e-3 * meanSize(y)),
    );
  } else if (name === 'thetaf') checkTheta(tally, name, of, y, m, h);
  else if (name === 'sf_AutoETS' && typeof of.loglik === 'number')
    checkLikelihood(tally, name, of, y, m);
  else checkPlain(tally, name, of, y, m, h);
}

function checkPlain(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
  h: number,
): void {
  const window = /^sf_WindowAverage(\d+)$/.exec(name);
  const student = (level: number): number => studentQuantile(0.5 + level / 2, y.length - 1);
  let ahead: Forecast;
  let reach = (f: Forecast, level: number): Interval => normalInterval(f, level);
  if (name === 'naive') ahead = naiveForecast(y, h);
  else if (name === 'rw_drift') ahead = driftForecast(y, h);
  else if (name === 'snaive' || name === 'sf_SeasonalNaive') ahead = seasonalNaiveForecast(y, m, h);
  else if (name === 'meanf' || name === 'sf_HistoricAverage') {
    ahead = meanForecast(y, h);
    reach = (f, level): Interval => ({
      lower: f.mean.map((x, j) => x - student(level) * Math.sqrt(f.variance[j]!)),
      upper: f.mean.map((x, j) => x + student(level) * Math.sqrt(f.variance[j]!)),
    });
  } else if (window) ahead = meanForecast(y.subarray(-+window[1]!), h);
  else {
    tally.skipped++;
    return;
  }
  const tolerance = name.startsWith('sf_') ? 1e-6 : EXACT;
  entry(tally, name, tolerance, (compare) => compareIntervals(compare, of, ahead, reach, y));
}

interface Interval {
  lower: number[];
  upper: number[];
}

function compareIntervals(
  compare: Compare,
  of: JsonObject,
  ahead: Forecast,
  reach: (f: Forecast, level: number) => Interval,
  y: Float64Array,
): void {
  const floor = 0.1 * meanSize(y);
  compareAll(compare, 'mean', ahead.mean, of.mean, floor);
  for (const level of [80, 95]) {
    const { lower, upper } = reach(ahead, level / 100);
    compareAll(compare, `lower${level}`, lower, of[`lower${level}`], floor);
    compareAll(compare, `upper${level}`, upper, of[`upper${level}`], floor);
  }
}

function checkSimple(tally: Tally, name: string, of: JsonObject, y: Float64Array, h: number): void {
  const given = number(object(of.par).alpha, number(object(of.params).smoothing_level));
  if (name === 'ses_simple_opt') {
    const best = bestSmoothing(y, 1e-4, 1, true);
    const reference = number(of.sse);
    verdict(
      tally,
      best.squares <= reference * (1 + 1e-6),
      `${name}: sum of squares ${best.squares} above ${reference}`,
    );
  }
  const pass = smoothLevel(y, given, y[0]!);
  const n = y.length;
  const weights = errorWeights(
    { error: 'A', trend: 'N', season: 'N', period: 1 },
    { alpha: given, beta: 0, gamma: 0, phi: 1 },
    h,
  );
  const mean = new Array<number>(h).fill(pass.level);
  const ahead = { mean, variance: varianceFromWeights('A', mean, pass.squares / n, weights) };
  entry(tally, name, EXACT, (compare) => {
    compare('sse', pass.squares, of.sse);
    compareIntervals(compare, of, ahead, normalInterval, y);
  });
}

function checkHolt(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
  h: number,
): void {
  const par = object(of.par);
  const ratio = name.includes('_mul_');
  const seasonal = ratio || name.includes('_add_');
  const ses = name.includes('_ses_');
  const fixed = { alpha: ses ? 0.2 : 0.3, beta: ses ? null : 0.1, gamma: seasonal ? 0.2 : null };
  const constants: HoltWintersConstants =
    par.alpha === undefined
      ? fixed
      : {
          alpha: number(par.alpha),
          beta: ses ? null : number(par.beta),
          gamma: seasonal ? number(par.gamma) : null,
        };
  const start: HoltWintersStart = seasonal
    ? seasonalStart(y, m, ratio)
    : ses
      ? { level: y[0]!, trend: 0, season: [], from: 1 }
      : name === 'holt_simple_fixed'
        ? { level: y[0]!, trend: y[1]! - y[0]!, season: [], from: 0 }
        : { level: y[1]!, trend: y[1]! - y[0]!, season: [], from: 2 };
  const pass = holtWinters(y, constants, start, ratio);
  entry(tally, name, EXACT, (compare) => compareHolt(compare, of, pass, y, h, ratio));
}

function compareHolt(
  compare: Compare,
  of: JsonObject,
  pass: HoltWintersPass,
  y: Float64Array,
  h: number,
  ratio: boolean,
): void {
  const size = 0.1 * meanSize(y);
  compare('SSE', pass.squares, of.SSE ?? of.sse);
  compareFitted(compare, pass.fitted, of.fitted, size);
  const last = object(of.coefficients);
  compare('a', pass.level, last.a, size);
  compare('b', pass.trend, last.b, size);
  pass.season.forEach((s, i) => compare(`s${i + 1}`, s, last[`s${i + 1}`], ratio ? 0.1 : size));
  compareAll(compare, 'mean', holtWintersForecast(pass, h, ratio), of.mean, size);
}

function checkTheta(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
  h: number,
): void {
  const season = {
    ratio: true,
    weight: 1,
    variance: 0,
    values: hasSeason(y, m) ? classicalSeason(y, m, true) : [1],
  };
  const ahead = thetaForecast(withoutSeason(y, season), h);
  entry(tally, name, SEARCHED, (compare) => {
    compare('drift', ahead.drift, object(of.par).drift, 1e-3 * meanSize(y));
    compareAll(compare, 'mean', withSeason(ahead.mean, y.length, season), of.mean, meanSize(y));
  });
}

/**
 * Another library's choice of model: ours of the same kind must be at least as likely, unless the
 * other's parameters lie outside the usual region (beta <= alpha, gamma <= 1 - alpha).
 */
function checkLikelihood(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
): void {
  const method = typeof of.method === 'string' ? of.method : '';
  const kinds = /^ETS\((A|M),(N|A|Ad),(N|A|M)\)$/.exec(method);
  const [alpha, beta, gamma] = list(of.par).map((v) => number(v, 0));
  const usual = (beta ?? 0) <= (alpha ?? 0) && (gamma ?? 0) <= 1 - (alpha ?? 0);
  if (!kinds || !usual) {
    tally.skipped++;
    return;
  }
  const season = kinds[3] as 'N' | 'A' | 'M';
  const error = kinds[1] as 'A' | 'M';
  const trend = kinds[2] as 'N' | 'A' | 'Ad';
  const fit = fitEtsThoroughly({ error, trend, season, period: season === 'N' ? 1 : m }, y);
  const gap = (fit ? fit.logLikelihood : -Infinity) - number(of.loglik);
  verdict(tally, gap >= -0.01, `${name}: likelihood ${gap.toFixed(3)} below the other library's`);
}

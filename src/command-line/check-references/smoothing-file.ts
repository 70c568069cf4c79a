/** Checks files of exponential smoothing fits: given parameters exactly, own fits by likelihood. */
import { automaticEts } from '../../../shared/forecasting/ets-automatic.js';
import { filterEts, type EtsFiltered } from '../../../shared/forecasting/ets-filter.js';
import { fitEtsThoroughly } from '../../../shared/forecasting/ets-fit.js';
import {
  errorWeights,
  forecastEts,
  normalInterval,
  varianceFromWeights,
} from '../../../shared/forecasting/ets-forecast.js';
import type { EtsOutlook, Forecast } from '../../../shared/forecasting/ets-outlook.js';
import type {
  EtsModel,
  EtsSpecification,
  EtsState,
} from '../../../shared/forecasting/ets-model.js';
import { checkClassic } from './classic-methods.js';
import {
  compareAll,
  compareFitted,
  type Compare,
  entry,
  type Json,
  type JsonObject,
  list,
  meanSize,
  number,
  numbers,
  object,
  type Tally,
  text,
} from './tally.js';

/** Deviation allowed where nothing was estimated. */
const EXACT = 1e-9;

/** Checks one file of a data set with its models. */
export function checkSmoothing(tally: Tally, file: JsonObject): void {
  const dataset = object(file.dataset);
  const y = Float64Array.from(numbers(dataset.values));
  const m = number(dataset.frequency, 1);
  const h = number(file.h, 12);
  for (const [name, value] of Object.entries(object(file.models))) {
    const of = object(value);
    if (of.components !== undefined) checkModel(tally, name, of, y, m, h);
    else checkClassic(tally, name, of, y, m, h);
  }
  const other = object(object(file.python).models);
  for (const [name, value] of Object.entries(other)) {
    checkClassic(tally, name, object(value), y, m, h);
  }
  const chosen = object(other.sf_AutoETS);
  const fit = automaticEts(y, m);
  if (fit && typeof chosen.aicc === 'number') {
    tally.notes.push(
      `automatic choice: AICc ${fit.aicc.toFixed(2)}, other library's ${chosen.aicc.toFixed(2)}`,
    );
  }
}

/** The model that a list of components names; null when it is not one of the 15. */
export function readModel(components: Json | undefined, m: number): EtsModel | null {
  const [error, trend, season, damped] = list(components).map(text);
  if (error !== 'A' && error !== 'M') return null;
  if (trend !== 'N' && trend !== 'A') return null;
  if (season !== 'N' && season !== 'A' && season !== 'M') return null;
  if (season === 'M' && error === 'A') return null;
  const kind = trend === 'N' ? 'N' : damped === 'TRUE' ? 'Ad' : 'A';
  return { error, trend: kind, season, period: season === 'N' ? 1 : m };
}

/** States from named entries l, b, s1 (latest) to sm (used first). */
function readState(of: JsonObject, model: EtsModel): EtsState {
  const m = model.season === 'N' ? 0 : model.period;
  return {
    level: number(of.l),
    trend: number(of.b, 0),
    season: Array.from({ length: m }, (_, i) => number(of[`s${m - i}`])),
  };
}

/** States from a plain list l, b, s1 to sm. */
function readStateList(values: number[], model: EtsModel): EtsState {
  const from = model.trend === 'N' ? 1 : 2;
  return {
    level: values[0] ?? NaN,
    trend: from === 2 ? (values[1] ?? NaN) : 0,
    season: model.season === 'N' ? [] : values.slice(from, from + model.period).reverse(),
  };
}

function readSpecification(model: EtsModel, par: JsonObject, initial: EtsState): EtsSpecification {
  const parameters = {
    alpha: number(par.alpha),
    beta: number(par.beta, 0),
    gamma: number(par.gamma, 0),
    phi: number(par.phi, 1),
  };
  return { model, parameters, initial };
}

function checkModel(
  tally: Tally,
  name: string,
  of: JsonObject,
  y: Float64Array,
  m: number,
  h: number,
): void {
  const model = readModel(of.components, m);
  if (!model || y.length === 0) {
    tally.skipped++;
    return;
  }
  const spec = readSpecification(model, object(of.par), readState(object(of.initstate), model));
  const filtered = filterEts(spec, y);
  const size = meanSize(y);
  entry(tally, name, EXACT, (compare) => {
    compareFilter(compare, of, filtered, y, size);
    const ahead = referenceForecast({ ...spec, ...filtered }, h);
    const [narrow, wide] = [normalInterval(ahead, 0.8), normalInterval(ahead, 0.95)];
    compareAll(compare, 'mean', ahead.mean, of.mean, size * 0.1);
    compareAll(compare, 'lower80', narrow.lower, of.lower80, size * 0.1);
    compareAll(compare, 'upper80', narrow.upper, of.upper80, size * 0.1);
    compareAll(compare, 'lower95', wide.lower, of.lower95, size * 0.1);
    compareAll(compare, 'upper95', wide.upper, of.upper95, size * 0.1);
  });
  checkOptimum(tally, name, of, model, y);
}

function checkOptimum(
  tally: Tally,
  name: string,
  of: JsonObject,
  model: EtsModel,
  y: Float64Array,
): void {
  const best = object(of.best_known);
  if (best.initstate !== undefined) {
    const initial = readStateList(numbers(best.initstate), model);
    const known = filterEts(readSpecification(model, object(best.par), initial), y);
    entry(tally, `${name}.best_known`, EXACT, (compare) => {
      compare('loglik', known.logLikelihood, best.loglik, 1);
      compare('aicc', known.aicc, best.aicc, 1);
    });
  }
  if (best.caution !== undefined) return;
  const reference = number(best.loglik, number(of.loglik));
  if (!Number.isFinite(reference)) return;
  const fit = fitEtsThoroughly(model, y);
  tally.fits.push({
    name: `${tally.file} ${name}`,
    gap: (fit ? fit.logLikelihood : -Infinity) - reference,
  });
}

function compareFilter(
  compare: Compare,
  of: JsonObject,
  got: EtsFiltered,
  y: Float64Array,
  size: number,
): void {
  compare('loglik', got.logLikelihood, of.loglik, 1);
  compare('aic', got.aic, of.aic, 1);
  compare('aicc', got.aicc, of.aicc, 1);
  compare('bic', got.bic, of.bic, 1);
  compare('sigma2', got.sigma2, of.sigma2);
  compare('mse', got.responseSquares / y.length, of.mse);
  compare('sse_residuals', got.residualSquares, of.sse_residuals);
  compare('sse_response', got.responseSquares, of.sse_response);
  compareFitted(compare, got.fitted, of.fitted, size * 0.1);
  const last = object(of.last_state);
  compare('last_state.l', got.last.level, last.l, size * 0.1);
  compare('last_state.b', got.last.trend, last.b, size * 0.1);
  const m = got.last.season.length;
  got.last.season.forEach((s, i) => {
    compare(`last_state.s${m - i}`, s, last[`s${m - i}`], Math.min(1, size) * 0.1);
  });
}

/**
 * Forecast in the form the reference library (forecast 8.20 for R) prints it. It differs from the
 * published formulas in two places: without a trend an additive season's error returns one period
 * early, and with a multiplicative season a damped trend is taken undamped in its first step.
 */
function referenceForecast(of: EtsOutlook & EtsSpecification, h: number): Forecast {
  const { model, parameters, last } = of;
  if (model.season === 'M' && model.trend === 'Ad') {
    return forecastEts(
      {
        ...of,
        parameters: { ...parameters, beta: parameters.beta / parameters.phi },
        last: { ...last, trend: last.trend / parameters.phi },
      },
      h,
    );
  }
  const ahead = forecastEts(of, h);
  if (model.season !== 'A' || model.trend !== 'N') return ahead;
  const plain = errorWeights({ ...model, season: 'N' }, parameters, h);
  const early = plain.map((c, i) => ((i + 2) % model.period === 0 ? c + parameters.gamma : c));
  return {
    mean: ahead.mean,
    variance: varianceFromWeights(model.error, ahead.mean, of.sigma2, early),
  };
}

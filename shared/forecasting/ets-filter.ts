/** Runs a series through an exponential smoothing model with known parameters. */
import {
  type EtsSpecification,
  type EtsState,
  type InformationCriteria,
  etsParameterCount,
  informationCriteria,
} from './ets-model.js';

/** What the filter leaves behind; fitted and residuals have one value per observation. */
export interface EtsFiltered extends InformationCriteria {
  fitted: Float64Array;
  /** y - fitted for additive errors, (y - fitted)/fitted for multiplicative ones. */
  residuals: Float64Array;
  logLikelihood: number;
  /** Sum of squared residuals of the model. */
  residualSquares: number;
  /** Sum of (y - fitted)^2 in squared units of the series. */
  responseSquares: number;
  /** Error variance: sum e^2 / (n - k), k = smoothing parameters and free states. */
  sigma2: number;
  /** States after the last observation. */
  last: EtsState;
}

/**
 * One pass over `y`. Log-likelihood = -(n log sum e^2 + 2 sum log|fitted| for multiplicative
 * errors)/2, constants dropped (Hyndman et al. 2008, section 5.1).
 */
export function filterEts(spec: EtsSpecification, y: ArrayLike<number>): EtsFiltered {
  const { model, parameters: p } = spec;
  const n = y.length;
  const m = model.season === 'N' ? 1 : model.period;
  const ratio = model.season === 'M';
  const season = model.season === 'N' ? [0] : spec.initial.season.slice();
  const fitted = new Float64Array(n);
  const residuals = new Float64Array(n);
  const phi = model.trend === 'N' ? 0 : p.phi;
  let { level, trend } = spec.initial;
  let residualSquares = 0;
  let responseSquares = 0;
  let logScale = 0;
  for (let t = 0; t < n; t++) {
    const slot = t % m;
    const base = level + phi * trend;
    const s = season[slot]!;
    const mean = ratio ? base * s : base + s;
    const error = y[t]! - mean;
    const forLevel = ratio ? error / s : error;
    level = base + p.alpha * forLevel;
    trend = phi * trend + p.beta * forLevel;
    season[slot] = s + p.gamma * (ratio ? error / base : error);
    const e = model.error === 'M' ? error / mean : error;
    fitted[t] = mean;
    residuals[t] = e;
    residualSquares += e * e;
    responseSquares += error * error;
    if (model.error === 'M') logScale += Math.log(Math.abs(mean));
  }
  const k = etsParameterCount(model);
  const logLikelihood = -(n * Math.log(residualSquares) + 2 * logScale) / 2;
  return {
    fitted,
    residuals,
    logLikelihood,
    residualSquares,
    responseSquares,
    sigma2: residualSquares / Math.max(1, n - k + 1),
    last: { level, trend, season: rotate(season, n % m, model.season === 'N') },
    ...informationCriteria(logLikelihood, k, n),
  };
}

function rotate(season: number[], by: number, none: boolean): number[] {
  if (none) return [];
  return [...season.slice(by), ...season.slice(0, by)];
}

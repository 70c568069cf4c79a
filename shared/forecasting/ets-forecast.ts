/** Means and variances of the coming periods under an exponential smoothing model. */
import type { EtsOutlook, Forecast } from './ets-outlook.js';
import { productVariance } from './ets-product-variance.js';
import type { ErrorKind, EtsModel, EtsParameters } from './ets-model.js';
import { normalQuantile } from './normal-distribution.js';

/** Point forecasts of periods 1 to h: (level + damped trend) plus, or times, the season. */
export function etsPoints(of: EtsOutlook, h: number): number[] {
  const { model, parameters, last } = of;
  const out: number[] = [];
  let reach = 0;
  let power = 1;
  for (let j = 0; j < h; j++) {
    if (model.trend !== 'N') {
      power *= parameters.phi;
      reach += power;
    }
    const base = last.level + reach * last.trend;
    const s = model.season === 'N' ? 0 : last.season[j % model.period]!;
    out.push(model.season === 'M' ? base * s : base + s);
  }
  return out;
}

/**
 * Weights c_j of an error j periods later (j = 1 to h-1): alpha + beta (phi + ... + phi^j), plus
 * gamma where j is a whole number of seasons (Hyndman et al. 2008, table 6.2).
 */
export function errorWeights(model: EtsModel, of: EtsParameters, h: number): number[] {
  const out: number[] = [];
  let reach = 0;
  let power = 1;
  for (let j = 1; j < h; j++) {
    power *= of.phi;
    reach += power;
    const season = model.season !== 'N' && j % model.period === 0 ? of.gamma : 0;
    out.push(of.alpha + of.beta * reach + season);
  }
  return out;
}

/**
 * Means and variances of periods 1 to h. Additive errors: sigma^2 (1 + sum c_j^2);
 * multiplicative errors by the recursions of Hyndman et al. (2008), section 6.3 (class 2)
 * and section 6.4 (class 3, multiplicative season, where the mean moves a little as well).
 */
export function forecastEts(of: EtsOutlook, h: number): Forecast {
  const { model, parameters, sigma2 } = of;
  if (model.season === 'M') return productVariance(of, h);
  const mean = etsPoints(of, h);
  const weights = errorWeights(model, parameters, h);
  return { mean, variance: varianceFromWeights(model.error, mean, sigma2, weights) };
}

/** Variances of periods 1 to h from the weights of earlier errors (class 1 and class 2). */
export function varianceFromWeights(
  error: ErrorKind,
  mean: readonly number[],
  sigma2: number,
  weights: readonly number[],
): number[] {
  if (error === 'A') {
    let sum = 1;
    return mean.map((_, j) => {
      if (j > 0) sum += weights[j - 1]! ** 2;
      return sigma2 * sum;
    });
  }
  const theta: number[] = [];
  return mean.map((mu, j) => {
    let carried = 0;
    for (let i = 1; i <= j; i++) carried += weights[i - 1]! ** 2 * theta[j - i]!;
    theta.push(mu * mu + sigma2 * carried);
    return (1 + sigma2) * theta[j]! - mu * mu;
  });
}

/** Central interval of `level` (0.8 for 80 %) under normal errors: mean -+ z sqrt(variance). */
export function normalInterval(
  forecast: Forecast,
  level: number,
): { lower: number[]; upper: number[] } {
  const z = normalQuantile(0.5 + level / 2);
  const reach = forecast.variance.map((v) => z * Math.sqrt(Math.max(0, v)));
  return {
    lower: forecast.mean.map((m, j) => m - reach[j]!),
    upper: forecast.mean.map((m, j) => m + reach[j]!),
  };
}

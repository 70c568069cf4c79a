/** What an exponential smoothing model is: its components, its parameters and its states. */

/** Additive or multiplicative error. */
export type ErrorKind = 'A' | 'M';
/** No trend, additive trend, damped additive trend. */
export type TrendKind = 'N' | 'A' | 'Ad';
/** No season, additive season, multiplicative season. */
export type SeasonKind = 'N' | 'A' | 'M';

/**
 * A state-space model of exponential smoothing (Hyndman, Koehler, Ord & Snyder 2008).
 * `period` is the number of observations in a season (1 when there is none).
 */
export interface EtsModel {
  error: ErrorKind;
  trend: TrendKind;
  season: SeasonKind;
  period: number;
}

/**
 * Smoothing parameters of the innovations form: l = l + phi b + alpha e, b = phi b + beta e,
 * s = s + gamma e. beta is 0 without trend, gamma 0 without season, phi 1 unless damped.
 */
export interface EtsParameters {
  alpha: number;
  beta: number;
  gamma: number;
  phi: number;
}

/** States before an observation; season[0] belongs to that observation, season[1] to the next. */
export interface EtsState {
  level: number;
  trend: number;
  season: number[];
}

/** Model, parameters and the states before the first observation: all a filter needs. */
export interface EtsSpecification {
  model: EtsModel;
  parameters: EtsParameters;
  initial: EtsState;
}

/** Name in the usual notation. Example: ETS(M,Ad,A). */
export function etsName(model: EtsModel): string {
  return `ETS(${model.error},${model.trend},${model.season})`;
}

/** Number of smoothing parameters: alpha, beta, gamma, phi as far as the model has them. */
export function smoothingCount(model: EtsModel): number {
  const trend = model.trend === 'N' ? 0 : model.trend === 'A' ? 1 : 2;
  return 1 + trend + (model.season === 'N' ? 0 : 1);
}

/** Number of free initial states: level, trend and all seasonal states but one. */
export function freeStateCount(model: EtsModel): number {
  return 1 + (model.trend === 'N' ? 0 : 1) + (model.season === 'N' ? 0 : model.period - 1);
}

/** Estimated values counted by the information criteria, the error variance included. */
export function etsParameterCount(model: EtsModel): number {
  return smoothingCount(model) + freeStateCount(model) + 1;
}

/** The information criteria of a fit; a lower value is a better balance of fit and size. */
export interface InformationCriteria {
  aic: number;
  aicc: number;
  bic: number;
}

/** AIC = -2 L + 2k, AICc adds 2k(k+1)/(n-k-1), BIC = -2 L + k log n. */
export function informationCriteria(
  logLikelihood: number,
  k: number,
  n: number,
): InformationCriteria {
  const aic = -2 * logLikelihood + 2 * k;
  const spare = n - k - 1;
  return {
    aic,
    aicc: spare > 0 ? aic + (2 * k * (k + 1)) / spare : Infinity,
    bic: -2 * logLikelihood + k * Math.log(n),
  };
}

/**
 * The models of the automatic choice: 15 with a season (additive errors never with a
 * multiplicative season, which is unstable), 6 without.
 */
export function candidateModels(period: number, positive: boolean): EtsModel[] {
  const models: EtsModel[] = [];
  const seasons: SeasonKind[] = period > 1 ? ['N', 'A', 'M'] : ['N'];
  for (const season of seasons) {
    for (const error of ['A', 'M'] as const) {
      if (error === 'M' && !positive) continue;
      if (season === 'M' && (error === 'A' || !positive)) continue;
      for (const trend of ['N', 'A', 'Ad'] as const) {
        models.push({ error, trend, season, period: season === 'N' ? 1 : period });
      }
    }
  }
  return models;
}

/** Chooses the exponential smoothing model with the lowest AICc. */
import { type EtsFit, fitEts, type FitEffort, QUICK } from './ets-fit.js';
import { candidateModels, type EtsModel, etsParameterCount } from './ets-model.js';

/**
 * Best of the 15 models (6 without a season) by AICc. Seasons are tried from two full seasons
 * and one observation on and up to 24 observations a season; multiplicative models need positive
 * values. A multiplicative-error model starts from the additive one, a damped trend from the
 * plain one. Null when the series is too short (under 4 values) or constant.
 */
export function automaticEts(
  y: Float64Array,
  period: number,
  effort: FitEffort = QUICK,
): EtsFit | null {
  const n = y.length;
  if (n < 4 || y.every((v) => v === y[0])) return null;
  const seasonal = period > 1 && period <= 24 && n > 2 * period;
  const positive = y.every((v) => v > 0);
  const fits = new Map<string, EtsFit>();
  let best: EtsFit | null = null;
  for (const model of candidateModels(seasonal ? period : 1, positive)) {
    if (etsParameterCount(model) >= n - 1) continue;
    const fit = fitEts(model, y, effort, relatives(model, fits));
    if (!fit) continue;
    fits.set(key(model), fit);
    if (fit.aicc < (best?.aicc ?? Infinity)) best = fit;
  }
  return best;
}

function key(model: EtsModel): string {
  return model.error + model.trend + model.season;
}

function relatives(model: EtsModel, fits: Map<string, EtsFit>): EtsFit[] {
  const { error, trend, season } = model;
  const found: EtsFit[] = [];
  const plain = trend === 'Ad' ? fits.get(error + 'A' + season) : undefined;
  const additive = error === 'M' && season !== 'M' ? fits.get('A' + trend + season) : undefined;
  for (const fit of [plain, additive]) {
    if (fit) found.push({ ...fit, model, parameters: { ...fit.parameters } });
  }
  if (plain && found[0]) found[0].parameters.phi = 0.97;
  return found;
}

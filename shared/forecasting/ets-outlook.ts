/** What a forecast is, and what a smoothing model needs to know to make one. */
import type { EtsModel, EtsParameters, EtsState } from './ets-model.js';

/** Forecast means and error variances of periods 1 to h. */
export interface Forecast {
  mean: number[];
  variance: number[];
}

/** What a forecast needs of a fit: model, parameters, error variance and the last states. */
export interface EtsOutlook {
  model: EtsModel;
  parameters: EtsParameters;
  sigma2: number;
  last: EtsState;
}

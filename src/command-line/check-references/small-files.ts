/** Checks the files of accuracy measures, conformal widths and reconciled hierarchies. */
import * as accuracy from '../../../shared/forecasting/accuracy.js';
import { meanAbsoluteChange } from '../../../shared/forecasting/accuracy-scale.js';
import {
  conformalHalfWidth,
  interpolatedHalfWidth,
} from '../../../shared/forecasting/conformal.js';
import { normalQuantile } from '../../../shared/forecasting/normal-distribution.js';
import {
  bottomUp,
  reconcile,
  shrunkWeights,
  structuralWeights,
  topDown,
  varianceWeights,
} from '../../../shared/forecasting/reconciliation.js';
import {
  compareAll,
  entry,
  type JsonObject,
  list,
  number,
  numbers,
  object,
  type Tally,
} from './tally.js';

const EXACT = 1e-9;

/** Checks every accuracy measure of every case. */
export function checkAccuracy(tally: Tally, file: JsonObject): void {
  list(file.cases).forEach((value, i) => {
    const of = object(value);
    const want = object(of.values);
    const got = accuracyValues(of, want);
    for (const [name, wanted] of Object.entries(want)) {
      const ours = got[name];
      if (ours === undefined) {
        tally.skipped++;
        continue;
      }
      entry(tally, `case${i}.${name}`, EXACT, (compare) => {
        if (typeof ours === 'number') compare(name, ours, wanted, 1e-6);
        else {
          for (const [p, q] of Object.entries(object(wanted))) {
            if (typeof q === 'number') compare(p, ours[p]?.[0] ?? NaN, q, 1e-6);
            else compareAll(compare, p, ours[p] ?? [], q, 1e-6);
          }
        }
      });
    }
  });
}

type Measures = Record<string, number | Record<string, number[]>>;

function accuracyValues(of: JsonObject, want: JsonObject): Measures {
  const train = numbers(of.train);
  const a = numbers(of.actual);
  const f = numbers(of.forecast);
  const sd = numbers(of.sd);
  const m = number(of.m, 1);
  const sample = numbers(of.samples_first_point);
  const probabilities = Object.keys(object(want.pinball));
  const quantile = (p: number): number[] => f.map((x, i) => x + normalQuantile(p) * sd[i]!);
  const scale = meanAbsoluteChange(train, m);
  const [l80, u80, l95, u95] = [0.1, 0.9, 0.025, 0.975].map(quantile) as [
    number[],
    number[],
    number[],
    number[],
  ];
  const levels = probabilities.map((p) => +p);
  const byLevel = (g: (p: number) => number[]): Record<string, number[]> =>
    Object.fromEntries(probabilities.map((p, i) => [p, g(levels[i]!)]));
  const pinball = (p: number): number => accuracy.pinballLoss(p, a, quantile(p));
  return {
    MAE: accuracy.meanAbsoluteError(a, f),
    MSE: accuracy.meanSquaredError(a, f),
    RMSE: Math.sqrt(accuracy.meanSquaredError(a, f)),
    ME_bias: accuracy.meanError(a, f),
    MAPE_pct: accuracy.meanPercentageError(a, f),
    sMAPE_pct_0_200: accuracy.symmetricPercentageError(a, f),
    WAPE_pct: accuracy.weightedPercentageError(a, f),
    mase_scale_lag_m: scale,
    MASE: accuracy.scaledError(train, m, a, f),
    mase_scale_lag_1: meanAbsoluteChange(train, 1),
    MASE_lag1: accuracy.scaledError(train, 1, a, f),
    RMSSE_lag1: accuracy.scaledSquaredError(train, a, f),
    pinball: byLevel((p) => [pinball(p)]),
    scaled_pinball: byLevel((p) => [pinball(p) / scale]),
    quantile_values: byLevel(quantile),
    mean_weighted_quantile_loss: accuracy.weightedQuantileLoss(levels, a, levels.map(quantile)),
    coverage80: accuracy.coverage(a, l80, u80),
    coverage95: accuracy.coverage(a, l95, u95),
    interval_score80: accuracy.intervalScore(0.2, a, l80, u80),
    interval_score95: accuracy.intervalScore(0.05, a, l95, u95),
    MSIS95: accuracy.intervalScore(0.05, a, l95, u95) / scale,
    CRPS_normal: accuracy.crpsNormal(a, f, sd),
    CRPS_sample_first_point: accuracy.crpsSample(a[0]!, sample),
    CRPS_sample_fair_first_point: accuracy.crpsSample(a[0]!, sample, true),
    tracking_signal: accuracy.trackingSignal(a, f),
  };
}

/** Checks the half widths of every case. */
export function checkConformal(tally: Tally, file: JsonObject): void {
  list(file.cases).forEach((value, i) => {
    const of = object(value);
    const errors = numbers(of.scores_abs_residuals);
    for (const item of list(of.rows)) {
      const row = object(item);
      const alpha = number(row.alpha);
      entry(tally, `case${i}.alpha${alpha}`, EXACT, (compare) => {
        compare('split', conformalHalfWidth(errors, alpha), row.q_split_conformal);
        compare('linear', interpolatedHalfWidth(errors, alpha), row.q_numpy_linear);
      });
    }
  });
}

/** Checks every way of reconciling every hierarchy. */
export function checkReconciliation(tally: Tally, file: JsonObject): void {
  list(file.cases).forEach((value, i) => {
    const of = object(value);
    const summing = list(of.S).map(numbers);
    const base = numbers(of.base_forecasts);
    const residuals = list(of.residuals_T_by_n).map(numbers);
    const totals = numbers(of.history_bottom_totals);
    const whole = totals.reduce((a, b) => a + b, 0);
    const shares = totals.map((t) => t / whole);
    const identity = base.map((_, r) => base.map((__, c) => (r === c ? 1 : 0)));
    const shrunk = shrunkWeights(residuals);
    const ways: Record<string, number[] | null> = {
      bottom_up: bottomUp(summing, base),
      OLS: reconcile(summing, identity, base),
      WLS_struct: reconcile(summing, structuralWeights(summing), base),
      WLS_var: reconcile(summing, varianceWeights(residuals), base),
      MinT_shrink: reconcile(summing, shrunk.weights, base),
      top_down_proportions: topDown(summing, base[0]!, shares),
    };
    for (const [name, result] of Object.entries(object(of.results))) {
      const want = object(result);
      const got = ways[name];
      if (got === undefined) {
        tally.skipped++;
        continue;
      }
      entry(tally, `case${i}.${name}`, EXACT, (compare) => {
        compareAll(compare, 'reconciled', got ?? [], want.reconciled);
        compareAll(compare, 'p', shares, want.p);
        if (name === 'MinT_shrink') {
          compare('lambda', shrunk.lambda, want.lambda);
          list(want.W).forEach((row, r) => {
            compareAll(compare, `W[${r}]`, shrunk.weights[r] ?? [], row, 1e-3);
          });
        }
      });
    }
  });
}

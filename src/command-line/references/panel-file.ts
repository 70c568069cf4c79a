/** Forecasts a panel of series through the public functions and sets the errors beside others'. */
import { meanSquaredChange, scaleOf } from '../../../shared/forecasting/accuracy-scale.js';
import { poolErrors, poolTable } from '../../../shared/forecasting/error-pool.js';
import {
  meanOver,
  ownCumulative,
  project,
  projectionDemand,
  projectionQuantiles,
} from '../../../shared/forecasting/projection.js';
import { cautiousQuantile } from '../../../shared/forecasting/protection-demand.js';
import { gatherProtection } from '../../../shared/forecasting/protection-history.js';
import { type JsonObject, list, number, numbers, object, type Tally, text } from './tally.js';

/** Probabilities that are scored: both intervals, then the upper quantiles. */
const PROBABILITIES = [0.025, 0.1, 0.8, 0.9, 0.95, 0.975] as const;

/** Errors of our own forecasts over a panel. */
export interface PanelScore {
  panel: string;
  series: number;
  /** 'mase' for smooth panels, 'rmsse' where most series are intermittent or lumpy. */
  metric: 'mase' | 'rmsse';
  mase: number;
  rmsse: number;
  pin90: number;
  pin95: number;
  cov80: number;
  cov95: number;
  /** Length of the lead time and the share of sums under the 98 % quantile. */
  leadPeriods: number;
  lead98: number;
  perSeries: number[];
}

/** Forecasts every series of a panel and scores it. */
export function scorePanel(file: JsonObject): PanelScore {
  const m = number(file.frequency, 1);
  const h = number(file.h, 12);
  const items = list(file.series).map((value) => {
    const of = object(value);
    const y = Float64Array.from(numbers(of.train));
    return { test: numbers(of.test), y, projection: project(y, m, h) };
  });
  const errors = poolErrors(items.map((i) => i.projection.origins));
  const table = poolTable(errors, h, PROBABILITIES);
  const sporadic = items.filter((i) => i.projection.method === 'intermittent').length;
  const mostly = sporadic * 2 > items.length;
  const leadPeriods = mostly ? (m >= 52 ? 4 : 3) : 2;
  const pool = gatherProtection(
    items.map(({ projection }) => ({
      mean: meanOver(projection.mean, leadPeriods),
      periods: leadPeriods,
      wholeUnits: projection.wholeUnits,
      own: ownCumulative(projection, leadPeriods),
      origins: projection.origins,
    })),
  );
  const sum = { mase: 0, rmsse: 0, pin90: 0, pin95: 0, in80: 0, in95: 0, points: 0, lead: 0 };
  const perSeries: number[] = [];
  for (const { y, test, projection } of items) {
    const scale = scaleOf(y, m);
    const square = meanSquaredChange(y);
    const rows = projectionQuantiles(projection, PROBABILITIES, errors, table, pool);
    let absolute = 0;
    let squares = 0;
    test.forEach((a, j) => {
      const q = rows[j]!;
      absolute += Math.abs(a - projection.mean[j]!) / test.length;
      squares += (a - projection.mean[j]!) ** 2 / test.length;
      sum.in80 += a >= q[1]! && a <= q[3]! ? 1 : 0;
      sum.in95 += a >= q[0]! && a <= q[5]! ? 1 : 0;
      sum.points++;
      if (scale > 0) {
        sum.pin90 += pinball(0.9, a, q[3]!) / scale / test.length;
        sum.pin95 += pinball(0.95, a, q[4]!) / scale / test.length;
      }
    });
    const mase = scale > 0 ? absolute / scale : 0;
    const rmsse = square > 0 ? Math.sqrt(squares / square) : 0;
    sum.mase += mase;
    sum.rmsse += rmsse;
    perSeries.push(mostly ? rmsse : mase);
    const used = test.slice(0, leadPeriods).reduce((a, b) => a + b, 0);
    const demand = projectionDemand(projection, leadPeriods, pool);
    if (used <= cautiousQuantile(0.98, demand) + 1e-9) sum.lead++;
  }
  const n = items.length;
  return {
    panel: text(file.panel),
    series: n,
    metric: mostly ? 'rmsse' : 'mase',
    mase: sum.mase / n,
    rmsse: sum.rmsse / n,
    pin90: sum.pin90 / n,
    pin95: sum.pin95 / n,
    cov80: sum.in80 / sum.points,
    cov95: sum.in95 / sum.points,
    leadPeriods,
    lead98: sum.lead / n,
    perSeries,
  };
}

function pinball(p: number, actual: number, quantile: number): number {
  return actual >= quantile ? p * (actual - quantile) : (1 - p) * (quantile - actual);
}

/** One method of the file's reference with the panel's metric. */
export interface ReferenceScore {
  name: string;
  error: number;
  perSeries: number[];
}

/** Methods that count as exponential smoothing, theta, SES and TSB. */
const YARDSTICKS = new Set([
  'ets',
  'thetaf',
  'ses',
  'tsb',
  'sf_AutoETS',
  'sf_AutoTheta',
  'sf_DOTM',
  'sf_SESOpt',
  'sf_TSB',
]);

/** Every method of the file's references, best first. A zero forecast is no forecast. */
export function referenceScores(file: JsonObject, metric: 'mase' | 'rmsse'): ReferenceScore[] {
  const found: ReferenceScore[] = [];
  for (const library of Object.values(object(file.reference)).map(object)) {
    for (const [name, value] of Object.entries(object(library.aggregate))) {
      const error = number(object(value)[metric]);
      const perSeries = numbers(object(library[`per_series_${metric}`])[name]);
      if (Number.isFinite(error) && name !== 'zero') found.push({ name, error, perSeries });
    }
  }
  return found.sort((a, b) => a.error - b.error);
}

/** At most 3 % above the best yardstick. */
const ALLOWED = 1.03;

/**
 * Scores a panel. It fails when our error is more than 3 % above the best of ETS, theta, SES and
 * TSB of the file by more than two standard errors of the paired differences per series (a panel
 * of a few series cannot tell less), or when coverage is out of range by the same measure.
 */
export function checkPanel(tally: Tally, file: JsonObject): void {
  const score = scorePanel(file);
  const scores = referenceScores(file, score.metric);
  const best = scores.find((s) => YARDSTICKS.has(s.name));
  const first = scores[0];
  const ours = score[score.metric];
  const points = list(file.series).reduce<number>((a, s) => a + list(object(s).test).length, 0);
  tally.entries += score.series;
  tally.coverage.leads += score.series;
  tally.coverage.lead98 += score.lead98 * score.series;
  if (score.metric === 'mase') {
    tally.coverage.trials += points;
    tally.coverage.hits80 += score.cov80 * points;
    tally.coverage.hits95 += score.cov95 * points;
  }
  const name = score.metric.toUpperCase();
  const beside = best ? `${best.name} ${best.error.toFixed(3)}` : 'none';
  const overall = first ? `${first.name} ${first.error.toFixed(3)}` : 'none';
  const parts = [
    `${name} ${ours.toFixed(4)} (best of ETS, theta, SES, TSB: ${beside}; best of all: ${overall})`,
    `pinball .90 ${score.pin90.toFixed(3)} .95 ${score.pin95.toFixed(3)}`,
    `inside 80 % ${percent(score.cov80)} 95 % ${percent(score.cov95)}`,
    `sum of ${score.leadPeriods} under its 98 % quantile ${percent(score.lead98)}`,
  ];
  tally.notes.push(parts.join(', '));
  const excess = best ? ours - ALLOWED * best.error : 0;
  const noise = best ? pairedError(score, best) : 0;
  if (excess > 0 && best) {
    const ratio = (100 * (ours / best.error - 1)).toFixed(1);
    const within = excess <= 2 * noise;
    const judged = within ? 'within two standard errors of 3 %' : 'too much';
    tally.notes.push(`${name} is ${ratio} % above ${best.name}: ${judged}`);
    if (!within) tally.failures.push(`${score.panel}: ${name} ${ratio} % above ${best.name}`);
  }
  const low = score.lead98 + 2 * Math.sqrt((0.95 * 0.05) / Math.max(1, score.series));
  if (low < 0.95) {
    tally.failures.push(`${score.panel}: lead-time demand covered ${percent(score.lead98)}`);
  }
  if (tally.failures.length === 0) tally.passed += score.series;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

/** Standard error of the mean difference per series; without their figures, of our own errors. */
function pairedError(score: PanelScore, best: ReferenceScore): number {
  const n = score.perSeries.length;
  const paired = best.perSeries.length === n;
  const gaps = score.perSeries.map((e, i) => (paired ? e - best.perSeries[i]! : e));
  if (!paired || n < 2) return 0;
  const mean = gaps.reduce((a, b) => a + b, 0) / n;
  const variance = gaps.reduce((a, b) => a + (b - mean) ** 2, 0) / (n - 1);
  return Math.sqrt(variance / n);
}

/** Forecasts a panel of series through the public functions and sets the errors beside others'. */
import { meanSquaredChange, scaleOf } from '../../../shared/forecasting/accuracy-scale.js';
import { poolErrors, poolTable } from '../../../shared/forecasting/error-pool.js';
import {
  meanOver,
  ownCumulative,
  project,
  type Projection,
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
  const scored = items.map((item) =>
    scoreSeries(item, m, leadPeriods, {
      rows: projectionQuantiles(item.projection, PROBABILITIES, errors, table, pool),
      lead98: cautiousQuantile(0.98, projectionDemand(item.projection, leadPeriods, pool)),
    }),
  );
  const mean = (of: (s: SeriesScore) => number): number =>
    scored.reduce((a, s) => a + of(s), 0) / Math.max(1, scored.length);
  return {
    panel: text(file.panel),
    series: items.length,
    metric: mostly ? 'rmsse' : 'mase',
    mase: mean((s) => s.mase),
    rmsse: mean((s) => s.rmsse),
    pin90: mean((s) => s.pin90),
    pin95: mean((s) => s.pin95),
    cov80: mean((s) => s.inside80),
    cov95: mean((s) => s.inside95),
    leadPeriods,
    lead98: mean((s) => s.lead),
    perSeries: scored.map((s) => (mostly ? s.rmsse : s.mase)),
  };
}

interface SeriesScore {
  mase: number;
  rmsse: number;
  pin90: number;
  pin95: number;
  inside80: number;
  inside95: number;
  lead: number;
}

/** Errors of one series; every measure is a mean over its test periods. */
function scoreSeries(
  item: { y: Float64Array; test: number[]; projection: Projection },
  m: number,
  leadPeriods: number,
  forecast: { rows: number[][]; lead98: number },
): SeriesScore {
  const { y, test, projection } = item;
  const scale = scaleOf(y, m);
  const square = meanSquaredChange(y);
  const of = (f: (a: number, j: number) => number): number =>
    test.reduce((sum, a, j) => sum + f(a, j), 0) / Math.max(1, test.length);
  const q = (j: number, k: number): number => forecast.rows[j]![k]!;
  const scaled = (x: number): number => (scale > 0 ? x / scale : 0);
  const squares = of((a, j) => (a - projection.mean[j]!) ** 2);
  const used = test.slice(0, leadPeriods).reduce((a, b) => a + b, 0);
  return {
    mase: scaled(of((a, j) => Math.abs(a - projection.mean[j]!))),
    rmsse: square > 0 ? Math.sqrt(squares / square) : 0,
    pin90: scaled(of((a, j) => pinball(0.9, a, q(j, 3)))),
    pin95: scaled(of((a, j) => pinball(0.95, a, q(j, 4)))),
    inside80: of((a, j) => (a >= q(j, 1) && a <= q(j, 3) ? 1 : 0)),
    inside95: of((a, j) => (a >= q(j, 0) && a <= q(j, 5) ? 1 : 0)),
    lead: used <= forecast.lead98 + 1e-9 ? 1 : 0,
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

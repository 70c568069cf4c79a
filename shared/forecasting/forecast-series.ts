/** The one entry for a product's history: clean, choose, forecast, test, and say how. */
import {
  type CleanHistory,
  cleanHistory,
  type CleaningNote,
  type RawHistory,
} from './clean-history.js';
import { coldStart, type ColdStart, type FamilyPrior } from './cold-start.js';
import { classifyDemand, type DemandClass } from './demand-class.js';
import { type Demand, demandFamily, demandQuantile } from './demand-distribution.js';
import type { EnsembleMemory } from './ensemble.js';
import { backtestOf, type Backtest, explainForecast } from './explain-forecast.js';
import {
  project,
  projectionDemand,
  projectionQuantiles,
  type Projection,
  meanOver,
} from './projection.js';
import { cautiousQuantile } from './protection-demand.js';
import { PROBABILITIES, type StudioPool } from './studio-pool.js';

/** A product's history and what is known around it. */
export interface SeriesRequest extends RawHistory {
  /** Periods in a season: 12 for months, 13 for four weeks, 52 for weeks, 1 for none. */
  season: number;
  /** Periods to forecast. */
  horizon: number;
  /** Words for the sentence, e.g. 'month' and 'g'. */
  periodName: string;
  unit: string;
  /** Use is counted in whole units; found from the history when left out. */
  wholeUnits?: boolean;
  /** Seasonal indices of the product family (ratios), index 0 = the first period given. */
  familyIndices?: readonly number[];
  /** What products of the family are used like, for a short history. */
  prior?: FamilyPrior;
  /** The product this one replaced: its use in the periods before, times the factor. */
  predecessor?: { use: readonly (number | null)[]; factor: number };
  studio?: StudioPool;
  /** Smoothing models of an earlier night. */
  memory?: EnsembleMemory;
}

/** How the forecast was made; 'no use' when nothing was ever used and nothing is known. */
export type SeriesMethod = 'combination' | 'intermittent' | 'cold start' | 'no use';

/** A forecast with its quantiles, its test beside the naive one, and its explanation. */
export interface SeriesForecast {
  method: SeriesMethod;
  demandClass: DemandClass;
  periodsUsed: number;
  mean: number[];
  /** Probabilities of `quantiles`. */
  probabilities: readonly number[];
  /** [period ahead][probability], never falling with the probability. */
  quantiles: number[][];
  backtest: Backtest | null;
  notes: CleaningNote[];
  /** For an owner: method, data and the error beside the naive one. */
  sentence: string;
  /** Distribution of use over any number of periods; lead time variance in periods^2. */
  demandOver(periods: number, leadVariance?: number): Demand;
  /** Null for a cold start; goes into gatherStudio. */
  projection: Projection | null;
  memory: EnsembleMemory | null;
}

/** Below this many periods, or positive ones, a history does not speak for itself. */
const SHORTEST = 6;
const FEWEST_POSITIVE = 3;

/** Forecasts one product. Every figure is finite and none is negative. */
export function forecastSeries(request: SeriesRequest): SeriesForecast {
  const { season, horizon } = request;
  const clean = chained(request);
  const { y, notes } = clean;
  const pattern = classifyDemand(y);
  if (y.length < SHORTEST || pattern.positives < FEWEST_POSITIVE) {
    return fromLittle(request, clean);
  }
  const projection = project(y, season, horizon, {
    family: rotated(request.familyIndices, clean.dropped),
    memory: request.memory ?? null,
    ...(request.wholeUnits === undefined ? {} : { wholeUnits: request.wholeUnits }),
  });
  const studio = request.studio ?? null;
  const quantiles = projectionQuantiles(
    projection,
    PROBABILITIES,
    studio?.errors ?? null,
    studio?.table ?? [],
    studio?.protection ?? null,
  );
  const backtest = backtestOf(projection.origins, projection.method === 'intermittent');
  const method = projection.method;
  return {
    method,
    demandClass: pattern.demandClass,
    periodsUsed: y.length,
    mean: projection.mean,
    probabilities: PROBABILITIES,
    quantiles,
    backtest,
    notes,
    sentence: explainForecast({
      request,
      clean,
      method,
      pattern,
      projection,
      backtest,
      cold: null,
    }),
    demandOver: (periods, leadVariance = 0) =>
      projectionDemand(projection, periods, studio?.protection ?? null, leadVariance),
    projection,
    memory: projection.ensemble?.memory ?? null,
  };
}

/** Own history after that of the product it replaced. */
function chained(request: SeriesRequest): CleanHistory {
  const own = cleanHistory(request, request.season);
  const before = request.predecessor;
  if (!before || !(before.factor > 0)) return own;
  const old = cleanHistory({ use: before.use }, request.season);
  const y = new Float64Array(old.y.length + own.y.length);
  y.set(old.y.map((v) => v * before.factor));
  y.set(own.y, old.y.length);
  return { y, dropped: own.dropped - old.y.length, notes: own.notes };
}

function rotated(indices: readonly number[] | undefined, by: number): readonly number[] | null {
  if (!indices || indices.length === 0) return null;
  const m = indices.length;
  return indices.map((_, j) => indices[(((j + by) % m) + m) % m]!);
}

function fromLittle(request: SeriesRequest, clean: CleanHistory): SeriesForecast {
  const { y, notes } = clean;
  const wholeUnits = request.wholeUnits ?? false;
  const cold = coldStart(y, request.prior ?? null, wholeUnits);
  const pattern = classifyDemand(y);
  const method: SeriesMethod = cold.rate > 0 ? 'cold start' : 'no use';
  const indices = rotated(request.familyIndices, clean.dropped);
  const mean = Array.from({ length: request.horizon }, (_, j) => {
    const index = indices ? indices[(y.length + j) % indices.length]! : 1;
    return cold.rate * Math.max(0, Number.isFinite(index) ? index : 1);
  });
  return {
    method,
    demandClass: pattern.demandClass,
    periodsUsed: y.length,
    mean,
    probabilities: PROBABILITIES,
    quantiles: mean.map((mu) => coldRow(mu, cold, wholeUnits)),
    backtest: null,
    notes,
    sentence: explainForecast({
      request,
      clean,
      method,
      pattern,
      projection: null,
      backtest: null,
      cold,
    }),
    demandOver: (periods, leadVariance = 0) =>
      coldDemand(meanOver(mean, periods), periods, cold, wholeUnits, leadVariance),
    projection: null,
    memory: null,
  };
}

function coldDemand(
  mean: number,
  periods: number,
  cold: ColdStart,
  wholeUnits: boolean,
  leadVariance: number,
): Demand {
  const perPeriod = cold.rate > 0 ? cold.variance / cold.rate : 0;
  // What is not known about the rate is the same in every period and adds up in full.
  const open = perPeriod * mean * Math.max(0, periods - 1) * 0.5;
  const lead = periods > 0 ? (mean / periods) ** 2 * leadVariance : 0;
  return {
    family: demandFamily(mean, wholeUnits),
    mean,
    variance: mean * perPeriod + (cold.priorPeriods > 0 ? 0 : open) + lead,
  };
}

function coldRow(mean: number, cold: ColdStart, wholeUnits: boolean): number[] {
  const demand = coldDemand(mean, 1, cold, wholeUnits, 0);
  let previous = 0;
  return PROBABILITIES.map((p) => {
    const q = p > 0.5 ? cautiousQuantile(p, demand) : demandQuantile(p, demand);
    previous = Math.max(previous, q);
    return previous;
  });
}

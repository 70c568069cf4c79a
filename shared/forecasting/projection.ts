/** Chooses the method for one clean history and forecasts it, with a backtest beside the naive. */
import { classifyDemand, type DemandPattern } from './demand-class.js';
import {
  type Ensemble,
  type EnsembleMemory,
  forecastEnsemble,
  naiveFrom,
  type Origin,
  rollingOrigins,
} from './ensemble.js';
import { type ErrorPool, ensembleQuantiles } from './error-pool.js';
import { type IntermittentForecast, intermittentMix } from './intermittent-mix.js';
import { scaleOf } from './accuracy-scale.js';
import { demandQuantile } from './demand-distribution.js';
import {
  cautiousQuantile,
  type CumulativeErrors,
  protectionDemand,
  type ProtectionDemand,
  type ProtectionPool,
} from './protection-demand.js';
import { intermittentCumulative, smoothCumulative } from './protection-history.js';

/** How the forecast was made. */
export type Method = 'combination' | 'intermittent';

/** A forecast of the coming periods; all figures in the units of the history. */
export interface Projection {
  method: Method;
  pattern: DemandPattern;
  y: Float64Array;
  period: number;
  mean: number[];
  ensemble: Ensemble | null;
  mix: IntermittentForecast | null;
  origins: Origin[];
  wholeUnits: boolean;
}

/** Share of the long-run mean in the distribution of a product that comes and goes. */
const RETURN_SHARE = 0.1;

/** What may be given beside the history. */
export interface ProjectionOptions {
  family?: readonly number[] | null;
  memory?: EnsembleMemory | null;
  /** True when use is counted in whole units; found from the history when left out. */
  wholeUnits?: boolean;
}

/**
 * Forecasts h periods: the combination for smooth and erratic products, the intermittent mix for
 * the others (Syntetos, Boylan & Croston 2005). m: periods in a season.
 */
export function project(
  y: Float64Array,
  m: number,
  h: number,
  options: ProjectionOptions = {},
): Projection {
  const pattern = classifyDemand(y);
  const wholeUnits = options.wholeUnits ?? y.every((v) => v === Math.floor(v));
  const shared = { pattern, y, period: m, wholeUnits };
  const often = pattern.demandClass === 'smooth' || pattern.demandClass === 'erratic';
  if (often || y.some((v) => v < 0)) {
    const ensemble = forecastEnsemble(y, m, h, options);
    const { mean, origins } = ensemble;
    return { ...shared, method: 'combination', mean, ensemble, mix: null, origins };
  }
  const mix = intermittentMix(y);
  const { origins, reach } = rollingOrigins(y.length, h);
  return {
    ...shared,
    method: 'intermittent',
    mean: new Array<number>(h).fill(mix.rate),
    ensemble: null,
    mix,
    origins: origins.map((origin) => {
      const before = y.subarray(0, origin);
      return {
        origin,
        forecast: new Array<number>(reach).fill(intermittentMix(before).rate),
        naive: naiveFrom(before, m, reach),
        actual: Array.from(y.subarray(origin, origin + reach)),
        scale: scaleOf(before, m),
      };
    }),
  };
}

/** Mean use over the first `periods` periods (a fraction of a period in proportion). */
export function meanOver(mean: readonly number[], periods: number): number {
  let sum = 0;
  for (let j = 0; j < periods; j++) {
    sum += Math.min(1, periods - j) * (mean[Math.min(j, mean.length - 1)] ?? 0);
  }
  return sum;
}

/** Past errors of sums over `periods` of this product. */
export function ownCumulative(of: Projection, periods: number): CumulativeErrors {
  return of.ensemble
    ? smoothCumulative(of.y, of.ensemble, periods)
    : intermittentCumulative(of.y, periods);
}

/**
 * Mean of the distribution: an intermittent product keeps a tenth of its long-run rate, and one
 * that seems to be dying all three of its forecasts: what is shown as gone may come back.
 */
function distributionMean(of: Projection, periods: number): number {
  if (!of.mix || of.y.length === 0) return meanOver(of.mean, periods);
  const mean = ((of.mix.tsb + of.mix.imapa + of.mix.ses) / 3) * periods;
  const longRun = of.y.reduce((a, b) => a + b, 0) / of.y.length;
  return (1 - RETURN_SHARE) * mean + RETURN_SHARE * longRun * periods;
}

/** Distribution of use over `periods` periods; `leadVariance` in periods^2. */
export function projectionDemand(
  of: Projection,
  periods: number,
  pool: ProtectionPool | null,
  leadVariance = 0,
): ProtectionDemand {
  return protectionDemand({
    mean: distributionMean(of, periods),
    periods,
    wholeUnits: of.wholeUnits,
    own: ownCumulative(of, periods),
    pool,
    leadVariance,
  });
}

/**
 * Quantiles of every coming period, [lead][probability], never falling with the probability.
 * `errors` and its `table` are the studio's pooled backtest errors for these probabilities.
 */
export function projectionQuantiles(
  of: Projection,
  probabilities: readonly number[],
  errors: ErrorPool | null,
  table: readonly (readonly number[])[] = [],
  pool: ProtectionPool | null = null,
): number[][] {
  if (of.ensemble) {
    return ensembleQuantiles(of.y, of.period, of.ensemble, probabilities, errors, table);
  }
  const demand = projectionDemand(of, 1, pool);
  let previous = 0;
  const row = probabilities.map((p) => {
    const q = p > 0.5 ? cautiousQuantile(p, demand) : demandQuantile(p, demand);
    previous = Math.max(previous, q);
    return previous;
  });
  return of.mean.map(() => row.slice());
}

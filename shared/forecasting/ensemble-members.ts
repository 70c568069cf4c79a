/** The forecasts that are combined for products used every period or nearly so. */
import { automaticEts } from './ets-automatic.js';
import { type EtsFit, fitEts, QUICK } from './ets-fit.js';
import { forecastEts } from './ets-forecast.js';
import type { EtsSpecification } from './ets-model.js';
import { classicalSeason } from './classical-decomposition.js';
import { hasSeason } from './season-test.js';
import {
  type SeasonalIndices,
  shrunkIndices,
  withoutSeason,
  withSeason,
} from './seasonal-indices.js';
import { bestSmoothing } from './simple-smoothing.js';
import { dynamicTheta } from './theta.js';

/** Names of the members, in the order of their forecasts. */
export const MEMBERS = [
  'exponential smoothing',
  'theta',
  'level on deseasonalised use',
  'theta on deseasonalised use',
] as const;

/** Longest season that exponential smoothing carries in its states. */
const LONGEST_ETS_SEASON = 24;
/** With fewer full seasons than this, free seasonal states are overfitted: shrunk indices win. */
const SEASONS_FOR_ETS = 4;
/** Below this many periods a season cannot be seen and one model alone is best. */
const SHORTEST_FOR_MEMBERS = 13;

/** Forecasts of all members from one origin; one for a short history. */
export interface MemberForecasts {
  points: number[][];
  /** Variance of each lead under the smoothing model. */
  variance: number[];
  ets: EtsFit | null;
  indices: SeasonalIndices;
}

/**
 * Forecasts the next h periods by every member. `family` are seasonal indices of the product
 * family by place in the season (index 0 = place of y[0]), `warm` the smoothing model of an
 * earlier night: it is refitted alone, without a new choice.
 */
export function memberForecasts(
  y: Float64Array,
  m: number,
  h: number,
  family: readonly number[] | null = null,
  warm: EtsSpecification | null = null,
): MemberForecasts {
  const n = y.length;
  const indices = shrunkIndices(y, m, family);
  const plain = withoutSeason(y, indices);
  const short = n < SHORTEST_FOR_MEMBERS;
  const few = m > 1 && n >= 2 * m && n < SEASONS_FOR_ETS * m;
  const outside = few || m > LONGEST_ETS_SEASON || (short && family !== null);
  const history = outside ? plain : y;
  const ets = warm
    ? fitEts(warm.model, history, { ...QUICK, starts: [] }, [warm])
    : automaticEts(history, outside || short ? 1 : m);
  const ahead = ets ? forecastEts(ets, h) : flat(history, h);
  const scale = Math.max(1e-300, y.reduce((a, b) => a + b, 0) / Math.max(1, n));
  const first = outside ? withSeason(ahead.mean, n, indices) : ahead.mean;
  const stretch = first.map((f, j) => {
    const base = ahead.mean[j]!;
    return outside && indices.ratio && base > 0.01 * scale ? (f / base) ** 2 : 1;
  });
  const variance = ahead.variance.map((v, j) => {
    if (!outside) return v;
    const open = indices.ratio ? first[j]! ** 2 * indices.variance : indices.variance;
    return v * stretch[j]! + open;
  });
  if (short) return { points: [first], variance, ets, indices };
  const level = bestSmoothing(plain, 1e-4, 0.9999).level;
  return {
    points: [
      first,
      thetaMember(y, m, h),
      withSeason(new Array<number>(h).fill(level), n, indices),
      withSeason(dynamicTheta(plain, h).mean, n, indices),
    ],
    variance,
    ets,
    indices,
  };
}

function flat(y: Float64Array, h: number): { mean: number[]; variance: number[] } {
  const mean = y.length === 0 ? 0 : y.reduce((a, b) => a + b, 0) / y.length;
  const spread = y.length < 2 ? 0 : y.reduce((a, b) => a + (b - mean) ** 2, 0) / (y.length - 1);
  return {
    mean: new Array<number>(h).fill(mean),
    variance: new Array<number>(h).fill(spread),
  };
}

/** Dynamic theta on the series divided by its classical season where the 90 % test sees one. */
function thetaMember(y: Float64Array, m: number, h: number): number[] {
  if (!hasSeason(y, m)) return dynamicTheta(y, h).mean;
  const low = y.reduce((a, b) => Math.min(a, b), Infinity);
  let ratio = low > 0;
  let values = classicalSeason(y, m, ratio);
  if (ratio && values.some((s) => s < 0.01)) {
    ratio = false;
    values = classicalSeason(y, m, false);
  }
  const season: SeasonalIndices = { ratio, weight: 1, variance: 0, values };
  return withSeason(dynamicTheta(withoutSeason(y, season), h).mean, y.length, season);
}

/** Seasonal indices that are only as strong as the history can support. */
import { centredAverage, seasonAverages, straightLine } from './classical-decomposition.js';

/**
 * Indices by place in the season, index 0 = place of the first observation. `ratio` indices
 * multiply (geometric mean 1), the others are added (sum 0). `weight` is the share of the
 * product's own pattern, the rest is the family's.
 */
export interface SeasonalIndices {
  ratio: boolean;
  weight: number;
  /** Variance of one index (of its logarithm for ratios): what a short history leaves open. */
  variance: number;
  values: number[];
}

const HARMONICS = 2;
const LONGEST_FREE_SEASON = 24;

/**
 * Classical indices shrunk to those of the product family (or to none): weight
 * w = max(0, 1 - (within variance m/n) / variance of the indices), an empirical-Bayes weight
 * (after Ouwehand et al. 2007; Boylan et al. 2014). Trend by a straight line below three seasons,
 * from three on by centred moving average, carried on at both ends. Ratios or differences,
 * whichever leaves the smaller squared rest; ratios only when every value is positive. A season
 * over 24 observations is shrunk to its own two harmonics, and these to the family. Below two
 * full seasons the family's indices (ratios when the values are positive).
 */
export function shrunkIndices(
  y: Float64Array,
  m: number,
  family: readonly number[] | null = null,
): SeasonalIndices {
  const positive = y.length > 0 && y.every((v) => v > 0);
  const group = family && family.length === m ? family : null;
  if (m < 2 || y.length < 2 * m) {
    // Family indices are ratios; a zero divided by one stays a zero.
    const ratio = positive || group !== null;
    const neutral = new Array<number>(Math.max(1, m)).fill(ratio ? 1 : 0);
    return { ratio, weight: 0, variance: 0, values: group ? [...group] : neutral };
  }
  const added = indicesOf(y, y, m, false, group);
  if (!positive) return added;
  const times = indicesOf(
    y,
    y.map((v) => Math.log(v)),
    m,
    true,
    group,
  );
  return times.rest <= added.rest ? times : added;
}

interface Candidate extends SeasonalIndices {
  rest: number;
}

function indicesOf(
  y: Float64Array,
  values: Float64Array,
  m: number,
  ratio: boolean,
  family: readonly number[] | null,
): Candidate {
  const n = y.length;
  const trend = trendOf(values, m);
  const raw = seasonAverages(values, trend, m, false);
  let squares = 0;
  let rest = 0;
  for (let t = 0; t < n; t++) {
    const model = trend[t]! + raw[t % m]!;
    squares += (values[t]! - model) ** 2;
    rest += (y[t]! - (ratio ? Math.exp(model) : model)) ** 2;
  }
  const noise = squares / Math.max(1, n - m) / n;
  const group = raw.map((_, j) => familyIndex(family, j, ratio));
  let target = group;
  if (m > LONGEST_FREE_SEASON) {
    const smooth = harmonics(raw);
    const share = credibility(smooth, group, noise * 2 * HARMONICS);
    target = smooth.map((s, j) => share * s + (1 - share) * group[j]!);
  }
  const weight = credibility(raw, target, noise * m);
  const shrunk = raw.map((s, j) => weight * s + (1 - weight) * target[j]!);
  const logs = ratio ? shrunk.map((s) => Math.exp(s)) : shrunk;
  return { ratio, weight, variance: weight * noise * m, rest, values: logs };
}

function familyIndex(family: readonly number[] | null, j: number, ratio: boolean): number {
  if (!family) return 0;
  return ratio ? Math.log(Math.max(family[j]!, 1e-6)) : 0;
}

/** Share of a pattern that is not explained by noise of the given variance. */
function credibility(pattern: number[], target: number[], noise: number): number {
  const variance =
    pattern.reduce((a, s, j) => a + (s - target[j]!) ** 2, 0) / Math.max(1, pattern.length);
  return variance > 0 ? Math.max(0, 1 - noise / variance) : 0;
}

function trendOf(values: Float64Array, m: number): Float64Array {
  const n = values.length;
  if (n < 3 * m) {
    const line = straightLine(values);
    return values.map((_, t) => line.intercept + line.slope * t);
  }
  const trend = centredAverage(values, m);
  const half = Math.floor(m / 2);
  const span = Math.max(1, Math.min(half, n - 2 * half - 1));
  const first = half;
  const last = n - half - 1;
  const slopeLast = (trend[last]! - trend[last - span]!) / span;
  const slopeFirst = (trend[first + span]! - trend[first]!) / span;
  for (let t = last + 1; t < n; t++) trend[t] = trend[last]! + slopeLast * (t - last);
  for (let t = 0; t < first; t++) trend[t] = trend[first]! - slopeFirst * (first - t);
  return trend;
}

function harmonics(raw: number[]): number[] {
  const m = raw.length;
  const out = new Array<number>(m).fill(0);
  for (let k = 1; k <= HARMONICS; k++) {
    let c = 0;
    let s = 0;
    raw.forEach((x, j) => {
      c += (2 * x * Math.cos((2 * Math.PI * k * j) / m)) / m;
      s += (2 * x * Math.sin((2 * Math.PI * k * j) / m)) / m;
    });
    for (let j = 0; j < m; j++) {
      const angle = (2 * Math.PI * k * j) / m;
      out[j]! += c * Math.cos(angle) + s * Math.sin(angle);
    }
  }
  return out;
}

/** The series without its season. */
export function withoutSeason(y: Float64Array, of: SeasonalIndices): Float64Array {
  const m = of.values.length;
  return y.map((v, t) => (of.ratio ? v / of.values[t % m]! : v - of.values[t % m]!));
}

/** Puts the season back on values that follow observation number `n` (0-based place n). */
export function withSeason(values: readonly number[], n: number, of: SeasonalIndices): number[] {
  const m = of.values.length;
  return values.map((v, j) => {
    const s = of.values[(n + j) % m]!;
    return of.ratio ? v * s : v + s;
  });
}

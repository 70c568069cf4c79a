/** Classical decomposition: trend by centred moving average, season by averages of what is left. */

/**
 * Centred moving average over one season of `m` observations; NaN at both ends. An even season
 * takes half of each end value, so it stays centred.
 */
export function centredAverage(y: ArrayLike<number>, m: number): Float64Array {
  const n = y.length;
  const out = new Float64Array(n).fill(NaN);
  const half = Math.floor(m / 2);
  for (let t = half; t < n - half; t++) {
    let sum = 0;
    for (let j = -half; j <= half; j++) {
      const weight = m % 2 === 0 && (j === -half || j === half) ? 0.5 : 1;
      sum += weight * y[t + j]!;
    }
    out[t] = sum / m;
  }
  return out;
}

/** Intercept and slope of the least squares line through (0, y0), (1, y1), ... */
export function straightLine(y: ArrayLike<number>): { intercept: number; slope: number } {
  const n = y.length;
  const middle = (n - 1) / 2;
  let sum = 0;
  let cross = 0;
  let spread = 0;
  for (let t = 0; t < n; t++) {
    sum += y[t]!;
    cross += (t - middle) * y[t]!;
    spread += (t - middle) * (t - middle);
  }
  const slope = spread > 0 ? cross / spread : 0;
  return { intercept: sum / n - slope * middle, slope };
}

/**
 * Averages by place in the season (index 0 = place of the first observation) of the differences
 * from, or the ratios to, `trend`; places where the trend is NaN are left out. Normalised to sum 0
 * (differences) or mean 1 (ratios). A place never seen gets the neutral value.
 */
export function seasonAverages(
  y: ArrayLike<number>,
  trend: ArrayLike<number>,
  m: number,
  ratio: boolean,
): number[] {
  const sums = new Float64Array(m);
  const counts = new Float64Array(m);
  for (let t = 0; t < y.length; t++) {
    const value = ratio ? y[t]! / trend[t]! : y[t]! - trend[t]!;
    if (!Number.isFinite(value)) continue;
    sums[t % m]! += value;
    counts[t % m]!++;
  }
  const figure = Array.from(sums, (s, j) => (counts[j]! > 0 ? s / counts[j]! : ratio ? 1 : 0));
  const mean = figure.reduce((a, b) => a + b, 0) / m;
  if (ratio) return figure.map((f) => (mean === 0 ? 1 : f / mean));
  return figure.map((f) => f - mean);
}

/** Seasonal figure of a series of at least two seasons, by centred moving average. */
export function classicalSeason(y: ArrayLike<number>, m: number, ratio: boolean): number[] {
  return seasonAverages(y, centredAverage(y, m), m, ratio);
}

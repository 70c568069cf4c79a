/** Forecasts for products that are not used every period. */

/** Croston's two levels and the rate they give, units per period. */
export interface CrostonForecast {
  rate: number;
  size: number;
  interval: number;
}

/**
 * Croston (1972): size and interval of demands smoothed with the same alpha; the first demand and
 * the periods up to it are the starting values, or the mean interval when `fromMeanInterval`.
 * No demand gives rate 0; one demand its size over the periods up to it.
 */
export function croston(
  y: ArrayLike<number>,
  alpha: number,
  fromMeanInterval = false,
): CrostonForecast {
  let size = 0;
  let interval = 0;
  let seen = 0;
  let previous = -1;
  for (let t = 0; t < y.length; t++) {
    if (!(y[t]! > 0)) continue;
    const gap = t - previous;
    previous = t;
    if (seen === 0) [size, interval] = [y[t]!, gap];
    else {
      size += alpha * (y[t]! - size);
      interval += alpha * (gap - interval);
    }
    if (++seen === 1 && fromMeanInterval) interval = meanInterval(y);
  }
  return { rate: seen > 0 ? size / interval : 0, size, interval };
}

/** Mean number of periods per demand, the ones before the first included; Infinity without any. */
export function meanInterval(y: ArrayLike<number>): number {
  let last = -1;
  let count = 0;
  for (let t = 0; t < y.length; t++) {
    if (y[t]! > 0) {
      last = t;
      count++;
    }
  }
  return count > 0 ? (last + 1) / count : Infinity;
}

/** Syntetos & Boylan (2005): Croston's rate times 1 - alpha/2. */
export function syntetosBoylan(y: ArrayLike<number>, alpha: number): number {
  return (1 - alpha / 2) * croston(y, alpha).rate;
}

/** Shale, Boylan & Johnston (2006): Croston's rate times 1 - alpha/(2 - alpha). */
export function shaleBoylanJohnston(y: ArrayLike<number>, alpha: number): number {
  return (1 - alpha / (2 - alpha)) * croston(y, alpha).rate;
}

/** Probability of a demand, its size, the rate they give, and one-step forecasts if asked. */
export interface TsbForecast {
  rate: number;
  probability: number;
  size: number;
}

/**
 * Teunter, Syntetos & Babai (2011): p = p + beta (1{y > 0} - p) every period,
 * z = z + alpha (y - z) when y > 0, rate p z; starts at p = 1{y_1 > 0} and the first positive
 * demand. `fitted`, when given, receives the one-step forecast of every period from the second on.
 */
export function tsb(
  y: ArrayLike<number>,
  alpha: number,
  beta: number,
  fitted: Float64Array | null = null,
): TsbForecast {
  let size = 0;
  let probability = y.length > 0 && y[0]! > 0 ? 1 : 0;
  for (let t = 0; t < y.length; t++) {
    if (fitted && t > 0) fitted[t] = probability * size;
    const on = y[t]! > 0;
    if (t > 0) probability += beta * ((on ? 1 : 0) - probability);
    if (on) size = size === 0 ? y[t]! : size + alpha * (y[t]! - size);
  }
  return { rate: probability * size, probability, size };
}

/** The yardsticks that make errors of different products comparable. */

/** Mean |y_t - y_{t-lag}| over the history; 0 when there are no such pairs. */
export function meanAbsoluteChange(y: ArrayLike<number>, lag: number): number {
  let sum = 0;
  for (let t = lag; t < y.length; t++) sum += Math.abs(y[t]! - y[t - lag]!);
  return y.length > lag ? sum / (y.length - lag) : 0;
}

/** Mean (y_t - y_{t-1})^2 over the history; 0 with fewer than two values. */
export function meanSquaredChange(y: ArrayLike<number>): number {
  let sum = 0;
  for (let t = 1; t < y.length; t++) sum += (y[t]! - y[t - 1]!) ** 2;
  return y.length > 1 ? sum / (y.length - 1) : 0;
}

/**
 * Scale of MASE (Hyndman & Koehler 2006): mean absolute change from season to season, from
 * period to period when there is no full season or that is 0.
 */
export function scaleOf(y: ArrayLike<number>, m: number): number {
  const seasonal = y.length > m ? meanAbsoluteChange(y, m) : 0;
  return seasonal > 0 ? seasonal : meanAbsoluteChange(y, 1);
}

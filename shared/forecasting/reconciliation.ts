/** Forecasts of products, groups and totals that add up. */
import { diagonal, type Matrix, multiply, solve, timesVector, transpose } from './matrix.js';

/**
 * Reconciled forecasts S (S' W^-1 S)^-1 S' W^-1 y (Wickramasuriya, Athanasopoulos & Hyndman 2019).
 * `summing` has a row per series and a column per bottom series; `weights` is W. Null when W or
 * S' W^-1 S cannot be inverted.
 */
export function reconcile(
  summing: Matrix,
  weights: Matrix,
  base: readonly number[],
): number[] | null {
  const scaled = solve(weights, summing);
  if (!scaled) return null;
  const across = transpose(scaled);
  const bottom = solve(
    multiply(across, summing),
    timesVector(across, base).map((x) => [x]),
  );
  return (
    bottom &&
    timesVector(
      summing,
      bottom.map((row) => row[0]!),
    )
  );
}

/** Bottom forecasts (the last rows of `base`) summed up. */
export function bottomUp(summing: Matrix, base: readonly number[]): number[] {
  return timesVector(summing, base.slice(base.length - summing[0]!.length));
}

/** The total forecast shared out by proportions of the past. */
export function topDown(summing: Matrix, total: number, proportions: readonly number[]): number[] {
  return timesVector(
    summing,
    proportions.map((p) => p * total),
  );
}

/** W of structural weights: how many bottom series each series adds up. */
export function structuralWeights(summing: Matrix): Matrix {
  return diagonal(summing.map((row) => row.reduce((a, b) => a + b, 0)));
}

/** W of variances: mean squared residual of each series; residuals are rows of one period. */
export function varianceWeights(residuals: Matrix): Matrix {
  const n = residuals.length;
  return diagonal(residuals[0]!.map((_, i) => residuals.reduce((s, r) => s + r[i]! ** 2, 0) / n));
}

/** W shrunk towards its diagonal, and the share of the diagonal. */
export interface ShrunkWeights {
  lambda: number;
  weights: Matrix;
}

/**
 * MinT-shrink: W = lambda diag(Sigma) + (1-lambda) Sigma with Sigma = R'R/T and
 * lambda = sum Var(r_ij)/sum r_ij^2 over i != j, within [0, 1] (Schaefer & Strimmer 2005).
 */
export function shrunkWeights(residuals: Matrix): ShrunkWeights {
  const t = residuals.length;
  const n = residuals[0]!.length;
  const sigma = multiply(transpose(residuals), residuals).map((row) => row.map((x) => x / t));
  const sd = sigma.map((row, i) => Math.sqrt(row[i]!));
  let variances = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      if (i === j || !(sd[i]! > 0) || !(sd[j]! > 0)) continue;
      let sum = 0;
      let sum2 = 0;
      for (const row of residuals) {
        const x = (row[i]! / sd[i]!) * (row[j]! / sd[j]!);
        sum += x;
        sum2 += x * x;
      }
      variances += (sum2 - (sum * sum) / t) / (t * (t - 1));
      squares += (sum / t) ** 2;
    }
  }
  const lambda = squares > 0 ? Math.min(1, Math.max(0, variances / squares)) : 1;
  const weights = sigma.map((row, i) => row.map((x, j) => (i === j ? x : (1 - lambda) * x)));
  return { lambda, weights };
}

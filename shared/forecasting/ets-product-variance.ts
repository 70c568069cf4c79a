/** Forecast variance of models with multiplicative errors and a multiplicative season. */
import type { EtsOutlook, Forecast } from './ets-outlook.js';

/** Square matrix of blocks, row by row; `size` numbers a side. */
interface Square {
  size: number;
  values: Float64Array;
}

/** What happens to the block rows in one period: the oldest season's row becomes the first. */
interface BlockMap {
  width: number;
  first: number[];
  rest: number[];
}

/**
 * Means and variances of periods 1 to h by the recursion of Hyndman et al. (2008), section 6.4:
 * M = E[level states x season states'] and V = Var of its entries move forward together.
 */
export function productVariance(of: EtsOutlook, h: number): Forecast {
  const { model, parameters: p, sigma2, last } = of;
  const m = model.period;
  const k = model.trend === 'N' ? 1 : 2;
  const f1 = k === 1 ? [1] : [1, p.phi, 0, p.phi];
  const g1 = k === 1 ? [p.alpha] : [p.alpha, p.alpha * p.phi, p.beta, p.beta * p.phi];
  const move: BlockMap = { width: k, first: f1, rest: f1 };
  const scaled = g1.map((g) => p.gamma * g);
  const both: BlockMap = { width: k, first: scaled, rest: g1.map(() => 0) };
  const cross: BlockMap = { width: k, first: g1.map((g, i) => g + p.gamma * f1[i]!), rest: g1 };
  const levels = k === 1 ? [last.level] : [last.level, last.trend];
  let vec = new Float64Array(k * m);
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < k; i++) vec[j * k + i] = levels[i]! * last.season[m - 1 - j]!;
  }
  const size = k * m;
  let spread: Square = { size, values: new Float64Array(size * size) };
  const pick = k === 1 ? [1] : [1, p.phi];
  const mean: number[] = [];
  const variance: number[] = [];
  for (let step = 0; step < h; step++) {
    const { mu, v } = readOut(vec, spread, pick);
    mean.push(mu);
    variance.push((1 + sigma2) * v + sigma2 * mu * mu);
    const outer = product(vec);
    const next = sandwich(spread, move, move);
    addTo(next, sandwich(spread, move, both), sigma2);
    addTo(next, sandwich(spread, both, move), sigma2);
    addTo(next, sandwich(mixed(spread, 1, outer, 1), cross, cross), sigma2);
    addTo(next, sandwich(mixed(spread, 3, outer, 2), both, both), sigma2 * sigma2);
    spread = next;
    const moved = mapVector(vec, move);
    const pushed = mapVector(vec, both);
    vec = moved.map((x, i) => x + sigma2 * pushed[i]!);
  }
  return { mean, variance };
}

function readOut(vec: Float64Array, spread: Square, pick: number[]): { mu: number; v: number } {
  const base = vec.length - pick.length;
  let mu = 0;
  let v = 0;
  pick.forEach((a, i) => {
    mu += a * vec[base + i]!;
    pick.forEach((b, j) => {
      v += a * b * spread.values[(base + i) * spread.size + base + j]!;
    });
  });
  return { mu, v };
}

function mapVector(vec: Float64Array, map: BlockMap): Float64Array {
  const { width } = map;
  const out = new Float64Array(vec.length);
  for (let block = 0; block * width < vec.length; block++) {
    const from = (block === 0 ? vec.length / width - 1 : block - 1) * width;
    const matrix = block === 0 ? map.first : map.rest;
    for (let i = 0; i < width; i++) {
      for (let j = 0; j < width; j++) {
        out[block * width + i]! += matrix[i * width + j]! * vec[from + j]!;
      }
    }
  }
  return out;
}

function sandwich(of: Square, left: BlockMap, right: BlockMap): Square {
  return transposed(mapRows(transposed(mapRows(of, left)), right));
}

function mapRows(of: Square, map: BlockMap): Square {
  const { size, values } = of;
  const { width } = map;
  const out = new Float64Array(size * size);
  for (let block = 0; block * width < size; block++) {
    const from = (block === 0 ? size / width - 1 : block - 1) * width;
    const matrix = block === 0 ? map.first : map.rest;
    for (let i = 0; i < width; i++) {
      for (let j = 0; j < width; j++) {
        const a = matrix[i * width + j]!;
        if (a === 0) continue;
        const to = (block * width + i) * size;
        const source = (from + j) * size;
        for (let c = 0; c < size; c++) out[to + c]! += a * values[source + c]!;
      }
    }
  }
  return { size, values: out };
}

function transposed(of: Square): Square {
  const { size, values } = of;
  const out = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) out[j * size + i] = values[i * size + j]!;
  }
  return { size, values: out };
}

function product(vec: Float64Array): Square {
  const size = vec.length;
  const values = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) values[i * size + j] = vec[i]! * vec[j]!;
  }
  return { size, values };
}

function mixed(a: Square, byA: number, b: Square, byB: number): Square {
  return { size: a.size, values: a.values.map((x, i) => byA * x + byB * b.values[i]!) };
}

function addTo(sum: Square, more: Square, factor: number): void {
  for (let i = 0; i < sum.values.length; i++) sum.values[i]! += factor * more.values[i]!;
}

/** Searches the one smoothing parameter that is left when the others have closed answers. */

const GOLDEN = (3 - Math.sqrt(5)) / 2;

/**
 * The x in [low, high] with the lowest f(x): an even grid first, so that a second valley is not
 * missed, then parabolas and golden sections around the best grid point (Brent 1973) until the
 * bracket is below `width`.
 */
export function lowestOver(
  f: (x: number) => number,
  low: number,
  high: number,
  grid = 8,
  width = 1e-4,
): number {
  let best = low;
  let value = f(low);
  for (let i = 1; i <= grid; i++) {
    const x = low + ((high - low) * i) / grid;
    const fx = f(x);
    if (fx < value) [best, value] = [x, fx];
  }
  const a = Math.max(low, best - (high - low) / grid);
  const b = Math.min(high, best + (high - low) / grid);
  return descend(f, a, b, best, value, width);
}

/** Brent's minimiser on [a, b] from a known inner point. */
function descend(
  f: (x: number) => number,
  from: number,
  to: number,
  start: number,
  value: number,
  width: number,
): number {
  let [a, b] = [from, to];
  let [x, w, v] = [start, start, start];
  let [fx, fw, fv] = [value, value, value];
  let before = 0;
  let step = 0;
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (Math.abs(x - middle) <= width - (b - a) / 2 || b - a <= width) break;
    let p = 0;
    let q = 0;
    if (Math.abs(before) > width) {
      const r = (x - w) * (fx - fv);
      const s = (x - v) * (fx - fw);
      p = (x - v) * s - (x - w) * r;
      q = 2 * (s - r);
      if (q > 0) p = -p;
      else q = -q;
    }
    if (q !== 0 && Math.abs(p) < Math.abs(0.5 * q * before) && p > q * (a - x) && p < q * (b - x)) {
      before = step;
      step = p / q;
    } else {
      before = x < middle ? b - x : a - x;
      step = GOLDEN * before;
    }
    if (Math.abs(step) < width / 3) step = step < 0 ? -width / 3 : width / 3;
    const u = Math.min(to, Math.max(from, x + step));
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, fv, w, fw, x, fx] = [w, fw, x, fx, u, fu];
      continue;
    }
    if (u < x) a = u;
    else b = u;
    if (fu <= fw || w === x) [v, fv, w, fw] = [w, fw, u, fu];
    else if (fu <= fv || v === x || v === w) [v, fv] = [u, fu];
  }
  return x;
}

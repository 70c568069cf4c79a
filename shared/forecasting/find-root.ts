/** Where a continuous function crosses zero inside a bracket. */

/**
 * Root of `f` between `low` and `high` by bisection steps with inverse quadratic interpolation
 * (Brent 1973, Algorithms for Minimization without Derivatives). When both ends have the same
 * sign the end nearer to zero is returned, so the answer is always a number of the bracket.
 */
export function findRoot(f: (x: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa * fb > 0) return Math.abs(fa) < Math.abs(fb) ? a : b;
  let c = a;
  let fc = fa;
  let step = b - a;
  let previous = step;
  for (let i = 0; i < 300 && fb !== 0; i++) {
    if (fb * fc > 0) {
      c = a;
      fc = fa;
      step = previous = b - a;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + 1e-16;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= tolerance) break;
    const taken = interpolate({ a, b, c, fa, fb, fc }, half, previous, tolerance);
    previous = taken === half ? half : step;
    step = taken;
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    fb = f(b);
  }
  return b;
}

interface Bracket {
  a: number;
  b: number;
  c: number;
  fa: number;
  fb: number;
  fc: number;
}

function interpolate(at: Bracket, half: number, previous: number, tolerance: number): number {
  if (Math.abs(previous) < tolerance || Math.abs(at.fa) <= Math.abs(at.fb)) return half;
  const s = at.fb / at.fa;
  let p: number;
  let q: number;
  if (at.a === at.c) {
    p = 2 * half * s;
    q = 1 - s;
  } else {
    const t = at.fa / at.fc;
    const r = at.fb / at.fc;
    p = s * (2 * half * t * (t - r) - (at.b - at.a) * (r - 1));
    q = (t - 1) * (r - 1) * (s - 1);
  }
  if (p > 0) q = -q;
  p = Math.abs(p);
  const limit = Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(previous * q));
  return 2 * p < limit ? p / q : half;
}

/** The gamma and beta functions that every demand distribution is made of. */

const LANCZOS_G = 607 / 128;
const LANCZOS = [
  0.99999999999999709182, 57.156235665862923517, -59.597960355475491248, 14.136097974741747174,
  -0.49191381609762019978, 0.33994649984811888699e-4, 0.46523628927048575665e-4,
  -0.98374475304879564677e-4, 0.15808870322491248884e-3, -0.21026444172410488319e-3,
  0.2174396181152126432e-3, -0.16431810653676389022e-3, 0.84418223983852743293e-4,
  -0.2619083840158140867e-4, 0.36899182659531622704e-5,
];
const TINY = 1e-300;
const EPS = 1e-16;
const MAX_TERMS = 10_000;

/**
 * Natural logarithm of the gamma function for x > 0 (Lanczos approximation, g = 607/128, 15 terms).
 */
export function logGamma(x: number): number {
  let sum = LANCZOS[0]!;
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i]! / (x + i - 1);
  const t = x + LANCZOS_G - 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}

/** exp(-x) x^a / Gamma(a): the factor before the series and before the continued fraction. */
function gammaPrefactor(a: number, x: number): number {
  if (a < 20) return Math.exp(-x + a * Math.log(x) - logGamma(a));
  // Near x = a the three large terms cancel; Stirling's series keeps the digits.
  const d = (x - a) / a;
  const stirling = 1 / (12 * a) - 1 / (360 * a ** 3) + 1 / (1260 * a ** 5) - 1 / (1680 * a ** 7);
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(a * (Math.log1p(d) - d) - stirling);
}

function gammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MAX_TERMS; n++) {
    term *= x / (a + n);
    sum += term;
    if (Math.abs(term) < Math.abs(sum) * EPS) break;
  }
  return sum * gammaPrefactor(a, x);
}

function gammaFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < MAX_TERMS; i++) {
    const an = -i * (i - a);
    b += 2;
    d = an * d + b;
    if (Math.abs(d) < TINY) d = TINY;
    c = b + an / c;
    if (Math.abs(c) < TINY) c = TINY;
    d = 1 / d;
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < EPS * 4) break;
  }
  return h * gammaPrefactor(a, x);
}

/** Lower regularised incomplete gamma function P(a, x), a > 0, x >= 0; a probability. */
export function gammaLower(a: number, x: number): number {
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  return x < a + 1 ? gammaSeries(a, x) : 1 - gammaFraction(a, x);
}

/** Upper regularised incomplete gamma function Q(a, x) = 1 - P(a, x), precise in the far tail. */
export function gammaUpper(a: number, x: number): number {
  if (x <= 0) return 1;
  if (x === Infinity) return 0;
  return x < a + 1 ? 1 - gammaSeries(a, x) : gammaFraction(a, x);
}

function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  if (Math.abs(d) < TINY) d = TINY;
  d = 1 / d;
  let h = d;
  for (let m = 1; m < MAX_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    if (Math.abs(d) < TINY) d = TINY;
    c = 1 + even / c;
    if (Math.abs(c) < TINY) c = TINY;
    d = 1 / d;
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    if (Math.abs(d) < TINY) d = TINY;
    c = 1 + odd / c;
    if (Math.abs(c) < TINY) c = TINY;
    d = 1 / d;
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < EPS * 4) break;
  }
  return h;
}

/**
 * Regularised incomplete beta function I_x(a, b) for a, b > 0 and 0 <= x <= 1; a probability.
 * `upper` asks for 1 - I_x(a, b) without cancellation.
 */
export function betaRegularised(a: number, b: number, x: number, upper = false): number {
  if (x <= 0) return upper ? 1 : 0;
  if (x >= 1) return upper ? 0 : 1;
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  const left = x < (a + 1) / (a + b + 2);
  const part = left ? (front * betaFraction(a, b, x)) / a : (front * betaFraction(b, a, 1 - x)) / b;
  return left !== upper ? part : 1 - part;
}

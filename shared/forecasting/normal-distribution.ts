/** The normal distribution: probabilities, quantiles and the loss functions of stock control. */
import { gammaUpper } from './special-functions.js';
import { findRoot } from './find-root.js';

/** Wichura (1988), algorithm AS 241, Applied Statistics 37: three rational approximations. */
const CENTRE = {
  top: [
    3.3871328727963666, 133.14166789178438, 1971.5909503065514, 13731.693765509461,
    45921.953931549871, 67265.770927008701, 33430.575583588128, 2509.0809287301227,
  ],
  bottom: [
    1, 42.313330701600911, 687.1870074920579, 5394.1960214247511, 21213.794301586596,
    39307.895800092711, 28729.085735721943, 5226.4952788528546,
  ],
};
const MIDDLE = {
  top: [
    1.4234371107496836, 4.6303378461565453, 5.7694972214606914, 3.6478483247632046,
    1.2704582524523684, 0.24178072517745061, 0.022723844989269185, 7.7454501427834141e-4,
  ],
  bottom: [
    1, 2.0531916266377588, 1.6763848301838038, 0.689767334985100005, 0.14810397642748007,
    0.015198666563616457, 5.4759380849953449e-4, 1.0507500716444168e-9,
  ],
};
const TAIL = {
  top: [
    6.6579046435011038, 5.4637849111641144, 1.7848265399172913, 0.29656057182850489,
    0.026532189526576123, 0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  bottom: [
    1, 0.59983220655588794, 0.13692988092273581, 0.014875361290850615, 7.8686913114561326e-4,
    1.8463183175100547e-5, 1.4215117583164459e-7, 2.0442631033899398e-15,
  ],
};

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

function ratio(of: { top: number[]; bottom: number[] }, x: number): number {
  return polynomial(of.top, x) / polynomial(of.bottom, x);
}

/** Density of the standard normal distribution at z. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** P(Z > z) for a standard normal Z, precise in the far tail. */
export function normalSurvival(z: number): number {
  const tail = 0.5 * gammaUpper(0.5, 0.5 * z * z);
  return z >= 0 ? tail : 1 - tail;
}

/** P(Z <= z) for a standard normal Z. */
export function normalCdf(z: number): number {
  return normalSurvival(-z);
}

/**
 * Standard normal quantile: the z with P(Z <= z) = p (Wichura 1988, AS 241).
 * p <= 0 gives -Infinity and p >= 1 gives Infinity. Example: 0.95 -> 1.644853626951473.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0)) return -Infinity;
  if (p >= 1) return Infinity;
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(CENTRE, 0.180625 - q * q);
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const z = r <= 5 ? ratio(MIDDLE, r - 1.6) : ratio(TAIL, r - 5);
  return q < 0 ? -z : z;
}

/** Standard loss G(z) = E[(Z - z)+] = phi(z) - z P(Z > z) (Silver, Pyke & Thomas 2017). */
export function normalLoss(z: number): number {
  return normalDensity(z) - z * normalSurvival(z);
}

/** Second-order standard loss ((z^2 + 1) P(Z > z) - z phi(z)) / 2. */
export function normalSecondLoss(z: number): number {
  return ((z * z + 1) * normalSurvival(z) - z * normalDensity(z)) / 2;
}

/** The z at which the standard loss G(z) equals `loss` (> 0). Example: 0.08 -> 1.021238. */
export function inverseNormalLoss(loss: number): number {
  if (!(loss > 0)) return Infinity;
  return findRoot((z) => normalLoss(z) - loss, -loss - 1, 38);
}

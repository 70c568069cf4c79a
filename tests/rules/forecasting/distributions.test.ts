/** Distributions of demand: quantiles, probabilities and expected shortages. */
import {
  countCdf,
  countLoss,
  countProbability,
  countQuantile,
} from '../../../shared/forecasting/count-distributions.js';
import {
  demandLeftOver,
  demandLoss,
  demandQuantile,
} from '../../../shared/forecasting/demand-distribution.js';
import {
  gammaCdf,
  gammaFromMoments,
  gammaLoss,
  gammaQuantile,
} from '../../../shared/forecasting/gamma-distribution.js';
import {
  inverseNormalLoss,
  normalCdf,
  normalLoss,
  normalQuantile,
  normalSurvival,
} from '../../../shared/forecasting/normal-distribution.js';
import { logGamma } from '../../../shared/forecasting/special-functions.js';

const tables = 'OpenStax, Introductory Business Statistics, module m47002';
const snyder = 'Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed.';

test.each([
  { p: 0.95, z: 1.645, source: tables },
  { p: 0.975, z: 1.96, source: tables },
  { p: 0.5, z: 0, source: 'by symmetry' },
])('the normal quantile of $p is $z ($source)', ({ p, z }) => {
  expect(normalQuantile(p)).toBeCloseTo(z, 3);
});

test.each([
  { z: 0.05, p: 0.5199 },
  { z: 0.1, p: 0.5398 },
  { z: 0.25, p: 0.5987 },
])('the normal table gives $p at $z (OpenStax, module m47002)', ({ z, p }) => {
  expect(normalCdf(z)).toBeCloseTo(p, 4);
});

test('no probability below 0 or above 1 has a finite normal quantile', () => {
  expect(normalQuantile(0)).toBe(-Infinity);
  expect(normalQuantile(1)).toBe(Infinity);
  expect(normalQuantile(NaN)).toBe(-Infinity);
});

test('the far tail keeps its digits: P(Z > 10) is 7.619853024160526e-24 (tables of erfc)', () => {
  expect(normalSurvival(10) / 7.619853024160526e-24).toBeCloseTo(1, 12);
});

test.each([
  { z: -1.4, loss: 1.436668142708465 },
  { z: 0.3, loss: 0.26676124211721 },
])(`the normal loss at $z is $loss (${snyder})`, ({ z, loss }) => {
  expect(normalLoss(z)).toBeCloseTo(loss, 11);
  expect(inverseNormalLoss(loss)).toBeCloseTo(z, 9);
});

test.each([
  { n: 1, factorial: 1 },
  { n: 5, factorial: 120 },
  { n: 10, factorial: 3628800 },
])('log gamma of $n + 1 is the logarithm of $factorial', ({ n, factorial }) => {
  expect(logGamma(n + 1)).toBeCloseTo(Math.log(factorial), 12);
});

test('a gamma of shape 1 is the exponential distribution (by hand)', () => {
  const waiting = { shape: 1, scale: 40 };
  expect(gammaCdf(40, waiting)).toBeCloseTo(1 - Math.exp(-1), 12);
  expect(gammaQuantile(0.5, waiting)).toBeCloseTo(40 * Math.LN2, 10);
  expect(gammaLoss(40, waiting)).toBeCloseTo(40 * Math.exp(-1), 10);
});

test('moments go in and come out (by hand)', () => {
  expect(gammaFromMoments(100, 4000)).toEqual({ shape: 2.5, scale: 40 });
});

test('the ends of a gamma are 0 and Infinity', () => {
  expect(gammaQuantile(0, { shape: 2, scale: 3 })).toBe(0);
  expect(gammaQuantile(1, { shape: 2, scale: 3 })).toBe(Infinity);
  expect(gammaLoss(-5, { shape: 2, scale: 3 })).toBe(11);
});

test('Poisson with mean 2, by hand', () => {
  const of = { mean: 2, variance: 2 };
  expect(countProbability(0, of)).toBeCloseTo(Math.exp(-2), 14);
  expect(countProbability(3, of)).toBeCloseTo((8 / 6) * Math.exp(-2), 14);
  expect(countCdf(1, of)).toBeCloseTo(3 * Math.exp(-2), 14);
  expect(countQuantile(0.5, of)).toBe(2);
  expect(countLoss(1, of)).toBeCloseTo(1 + Math.exp(-2), 13);
});

test('a geometric distribution is the negative binomial with one success (by hand)', () => {
  // p = 1/4: mean 3, variance 12, P(k) = (1/4)(3/4)^k, E[(X - r)+] = 3 (3/4)^r.
  const of = { mean: 3, variance: 12 };
  expect(countProbability(2, of)).toBeCloseTo(9 / 64, 13);
  expect(countCdf(2, of)).toBeCloseTo(1 - 27 / 64, 13);
  expect(countQuantile(0.57, of)).toBe(2);
  expect(countQuantile(0.58, of)).toBe(3);
  expect(countLoss(2, of)).toBeCloseTo((3 * 9) / 16, 12);
  expect(countLoss(2.5, of)).toBeCloseTo((3 * 9) / 16 - 0.5 * (27 / 64), 12);
});

test('a tiny mean never asks for a unit that is used less than once in so many intervals', () => {
  expect(countQuantile(0.98, { mean: 0.01, variance: 5 })).toBe(0);
});

test('demand that is certain is its own quantile and cannot fall short', () => {
  const fixed = { family: 'gamma' as const, mean: 30, variance: 0 };
  expect(demandQuantile(0.9, fixed)).toBe(30);
  expect(demandLoss(20, fixed)).toBe(10);
  expect(demandLeftOver(50, fixed)).toBe(20);
});

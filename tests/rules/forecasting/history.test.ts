/** What is done to a history before it is forecast, and that it is said. */
import { cleanHistory } from '../../../shared/forecasting/clean-history.js';
import {
  shrunkIndices,
  withoutSeason,
  withSeason,
} from '../../../shared/forecasting/seasonal-indices.js';

test('a negative correction comes off the use before it', () => {
  const clean = cleanHistory({ use: [10, 20, -5, 8] }, 1);
  expect([...clean.y]).toEqual([10, 15, 0, 8]);
  expect(clean.notes).toEqual([{ kind: 'correction', periods: [2] }]);
});

test('a correction larger than all use before it comes off what follows', () => {
  expect([...cleanHistory({ use: [3, -10, 9] }, 1).y]).toEqual([0, 0, 2]);
});

test('a typing error of a thousand is cut to the largest other value, and said', () => {
  const clean = cleanHistory({ use: [50, 60, 55, 58000, 52, 61] }, 1);
  expect([...clean.y]).toEqual([50, 60, 55, 61, 52, 61]);
  expect(clean.notes).toEqual([{ kind: 'typing error', periods: [3], found: 58000, used: 61 }]);
});

test('a large but possible value is left alone', () => {
  expect(cleanHistory({ use: [50, 60, 55, 480, 52, 61] }, 1).notes).toEqual([]);
});

test('a gap gets the same month of the years around it', () => {
  const use: (number | null)[] = Array.from({ length: 36 }, (_, t) => t);
  use[17] = null;
  // months 5 and 29 hold 5 and 29
  expect(cleanHistory({ use }, 12).y[17]).toBe(17);
  expect(cleanHistory({ use: [4, null, null, 10] }, 1).y).toEqual(Float64Array.from([4, 6, 8, 10]));
});

test('unknown periods before the first known one are dropped', () => {
  const clean = cleanHistory({ use: [null, null, 7, 8] }, 1);
  expect([...clean.y]).toEqual([7, 8]);
  expect(clean.dropped).toBe(2);
});

test('a period out of stock for a quarter is raised; for most of it, unknown', () => {
  const clean = cleanHistory({ use: [30, 30, 30], outOfStockShare: [0, 0.25, 0.8] }, 1);
  expect(clean.y[1]).toBe(40);
  expect(clean.y[2]).toBe(40);
});

test('a closed month is unknown, a half open one counts double', () => {
  const clean = cleanHistory({ use: [20, 0, 10], openShare: [1, 0, 0.5] }, 1);
  expect([...clean.y]).toEqual([20, 20, 20]);
});

test('values that are no numbers are unknown, and said', () => {
  const clean = cleanHistory({ use: [5, NaN, 7, Infinity] }, 1);
  expect([...clean.y]).toEqual([5, 6, 7, 7]);
  expect(clean.notes[0]).toEqual({ kind: 'unreadable', periods: [1, 3] });
});

test('a clear season keeps nearly all of its own indices, noise nearly none', () => {
  const clear = Float64Array.from(
    { length: 48 },
    (_, t) => 100 * (1 + 0.4 * Math.sin((2 * Math.PI * t) / 12)) + (t % 5),
  );
  expect(shrunkIndices(clear, 12).weight).toBeGreaterThan(0.95);
  const noise = Float64Array.from({ length: 48 }, (_, t) => 100 + ((t * 7919) % 31));
  expect(shrunkIndices(noise, 12).weight).toBeLessThan(0.6);
});

test('under two years the indices are those of the family', () => {
  const family = [1.2, 0.8, 1.1, 0.9];
  const indices = shrunkIndices(Float64Array.from([5, 6, 7, 8, 9, 4]), 4, family);
  expect(indices).toMatchObject({ ratio: true, weight: 0, values: family });
});

test('taking a season out and putting it back changes nothing', () => {
  const y = Float64Array.from({ length: 40 }, (_, t) => 50 + 20 * Math.cos(t) + t);
  const indices = shrunkIndices(y, 4);
  const plain = withoutSeason(y, indices);
  const back = withSeason([...plain.subarray(36)], 36, indices);
  back.forEach((v, j) => expect(v).toBeCloseTo(y[36 + j]!, 10));
});

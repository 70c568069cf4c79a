/** Use that comes and goes: classes, rates, aggregation, dying products. */
import { adida, blockSums, imapa } from '../../../shared/forecasting/aggregation.js';
import { classifyDemand } from '../../../shared/forecasting/demand-class.js';
import { intermittentMix, isDying } from '../../../shared/forecasting/intermittent-mix.js';
import {
  croston,
  meanInterval,
  shaleBoylanJohnston,
  syntetosBoylan,
  tsb,
} from '../../../shared/forecasting/intermittent.js';

test('Croston by hand: demands 6 after 3 periods and 2 after 2 more', () => {
  // size 6 -> 6 - 0.1 * 4 = 5.6; interval 3 -> 3 - 0.1 * 1 = 2.9
  const got = croston([0, 0, 6, 0, 2, 0], 0.1);
  expect(got.size).toBeCloseTo(5.6, 14);
  expect(got.interval).toBeCloseTo(2.9, 14);
  expect(got.rate).toBeCloseTo(5.6 / 2.9, 14);
  expect(syntetosBoylan([0, 0, 6, 0, 2, 0], 0.1)).toBeCloseTo((0.95 * 5.6) / 2.9, 14);
  expect(shaleBoylanJohnston([0, 0, 6, 0, 2, 0], 0.1)).toBeCloseTo(
    ((1 - 0.1 / 1.9) * 5.6) / 2.9,
    14,
  );
});

test('TSB by hand', () => {
  // p: 0, 0.1, 0.09; z: 5
  const got = tsb([0, 5, 0], 0.2, 0.1);
  expect(got.probability).toBeCloseTo(0.09, 14);
  expect(got.size).toBe(5);
  expect(got.rate).toBeCloseTo(0.45, 14);
});

test('no use gives no rate', () => {
  const none = new Float64Array(12);
  expect(croston(none, 0.1).rate).toBe(0);
  expect(tsb(none, 0.1, 0.1).rate).toBe(0);
  expect(intermittentMix(none).rate).toBe(0);
  expect(meanInterval(none)).toBe(Infinity);
});

test.each([
  { y: [5, 6, 5, 6, 5, 6], demandClass: 'smooth' },
  { y: [1, 9, 1, 20, 1, 2], demandClass: 'erratic' },
  { y: [0, 5, 0, 6, 0, 5], demandClass: 'intermittent' },
  { y: [0, 1, 0, 20, 0, 2], demandClass: 'lumpy' },
  { y: [0, 0, 0], demandClass: 'none' },
])('$y is $demandClass (Syntetos, Boylan & Croston 2005)', ({ y, demandClass }) => {
  expect(classifyDemand(y).demandClass).toBe(demandClass);
});

test('blocks are summed from the end, the oldest rest is dropped', () => {
  expect([...blockSums([9, 1, 2, 3, 4], 2)]).toEqual([3, 7]);
});

test('a demand of 6 every third period is a rate of 2 a period', () => {
  const y = Float64Array.from({ length: 30 }, (_, t) => (t % 3 === 2 ? 6 : 0));
  expect(adida(y)).toBeCloseTo(2, 10);
  expect(imapa(y)).toBeGreaterThan(1.6);
  expect(imapa(y)).toBeLessThan(2.6);
});

test('a product last used long ago is dying and its forecast falls', () => {
  const y = Float64Array.from([5, 0, 3, 0, 4, ...new Array<number>(20).fill(0)]);
  expect(isDying(y)).toBe(true);
  expect(isDying(y.subarray(0, 8))).toBe(false);
  expect(intermittentMix(y).rate).toBeLessThan(0.3);
  expect(intermittentMix(y).rate).toBeLessThan(intermittentMix(y.subarray(0, 10)).rate);
});

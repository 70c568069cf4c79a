/** Booked visits, holidays, the border to decimals, and forecasts that have gone wrong. */
import { decimal } from '../../../shared/decimal.js';
import { figureAsDecimal, figureAsText, useAsNumbers } from '../../../shared/forecasting/border.js';
import {
  combineWithVisits,
  expectedVisits,
  keepShare,
  pickUp,
  shrunkUse,
  useFromVisits,
} from '../../../shared/forecasting/bookings.js';
import { holidayFactors, periodFactor } from '../../../shared/forecasting/holidays.js';
import { alarms } from '../../../shared/forecasting/monitoring.js';

test('bookings kept: 8 of 11 with 90 % usual count as (8 + 8.1)/20', () => {
  expect(keepShare(8, 11, 0.9)).toBeCloseTo(16.1 / 20, 12);
  expect(keepShare(0, 0, 0.9)).toBeCloseTo(0.9, 12);
});

test('pick-up is what came beyond the kept bookings', () => {
  const week = { bookedThen: 10, done: 12 };
  expect(pickUp([week, week, week, week, week], 0.9)).toEqual({ mean: 3, variance: 0 });
  expect(pickUp([], 0.9)).toEqual({ mean: 0, variance: 0 });
});

test('10 booked, nine in ten kept, 3 more to come: 12 visits', () => {
  const visits = expectedVisits(10, 0.9, { mean: 3, variance: 1 });
  expect(visits.mean).toBeCloseTo(12, 12);
  expect(visits.variance).toBeCloseTo(1.9, 12);
});

test('use per visit leans on the family: 10 visits of 40 g, family 60 g worth 10 visits', () => {
  const use = shrunkUse({ visits: 10, mean: 40, variance: 90 }, { mean: 60, variance: 10 }, 100);
  expect(use.mean).toBe(50);
  expect(use.weight).toBe(20);
  expect(use.variance).toBe(90);
});

test('use from visits, by hand: 12 visits of 50 g', () => {
  const got = useFromVisits([
    { visits: { mean: 12, variance: 1.9 }, use: { mean: 50, variance: 90, weight: 20 } },
  ]);
  expect(got.mean).toBe(600);
  // 12 * 90 + 1.9 * 2500 + 144 * 90 / 20
  expect(got.variance).toBeCloseTo(1080 + 4750 + 648, 9);
});

test('equally good, unrelated forecasts get half each where half is booked', () => {
  const got = combineWithVisits({
    statistical: { mean: 500, variance: 10_000 },
    visits: { mean: 600, variance: 10_000 },
    bookedUse: 450,
    bookedShare: 0.5,
    record: { statistical: 100, visits: 100, correlation: 0 },
  });
  expect(got.weight).toBe(0.5);
  expect(got.mean).toBe(550);
  expect(got.variance).toBe(5000);
});

test('without a record the diary counts for what is booked, at most 0.8', () => {
  const of = { statistical: { mean: 500, variance: 1 }, visits: { mean: 600, variance: 1 } };
  const nearly = combineWithVisits({ ...of, bookedUse: 0, bookedShare: 1, record: null });
  expect(nearly.weight).toBe(0.8);
  expect(nearly.mean).toBeCloseTo(580, 10);
});

test('the forecast is never below what is booked', () => {
  const got = combineWithVisits({
    statistical: { mean: 100, variance: 1 },
    visits: { mean: 450, variance: 1 },
    bookedUse: 400,
    bookedShare: 0.1,
    record: null,
  });
  expect(got.mean).toBe(400);
});

test('a holiday week seen twice at double use counts as the square root of two', () => {
  const factors = holidayFactors([
    { weeksFrom: -1, ratio: 2 },
    { weeksFrom: -1, ratio: 2 },
    { weeksFrom: 0, ratio: 0 },
  ]);
  expect(factors.get(-1)).toBeCloseTo(Math.SQRT2, 12);
  expect(factors.has(0)).toBe(false);
  expect(periodFactor(factors, -7, 7)).toBeCloseTo(Math.SQRT2, 12);
  expect(periodFactor(factors, -14, 14)).toBeCloseTo((1 + Math.SQRT2) / 2, 12);
  expect(periodFactor(factors, 0, 0)).toBe(1);
});

test('decimals go in as numbers and come out rounded once', () => {
  expect(useAsNumbers([decimal('12.5'), null])).toEqual([12.5, null]);
  expect(figureAsText(0.1 + 0.2, 3, 'half_up')).toBe('0.3');
  expect(figureAsText(2.5, 0, 'half_even')).toBe('2');
  expect(figureAsText(-0.0001, 2, 'half_up')).toBe('0');
  expect(figureAsText(1e-9, 3, 'half_up')).toBe('0');
  expect(figureAsDecimal(Infinity, 3, 'half_up')).toBeNull();
});

test('forecasts that are always too low are noticed, good ones are not', () => {
  const stored = (miss: (t: number) => number) =>
    Array.from({ length: 13 }, (_, t) => ({
      forecast: 100,
      lower: 80,
      upper: 120,
      actual: 100 + miss(t),
    }));
  expect(alarms(stored(() => 10))).toEqual(['too low']);
  expect(alarms(stored(() => -30))).toEqual(['too high', 'band too narrow']);
  expect(alarms(stored((t) => (t % 2 === 0 ? 10 : -10)))).toEqual([]);
  expect(alarms(stored(() => 10).slice(0, 5))).toEqual([]);
});

/** Laws of forecasts and stock levels: always figures, in order, and fair to every unit. */
import fc from 'fast-check';
import { cleanHistory } from '../../shared/forecasting/clean-history.js';
import {
  type Demand,
  demandCdf,
  demandLoss,
  demandQuantile,
} from '../../shared/forecasting/demand-distribution.js';
import { forecastSeries } from '../../shared/forecasting/forecast-series.js';
import { wagnerWhitin } from '../../shared/forecasting/lot-sizing.js';
import { project, projectionQuantiles } from '../../shared/forecasting/projection.js';
import { cautiousQuantile } from '../../shared/forecasting/protection-demand.js';
import { reconcile, structuralWeights } from '../../shared/forecasting/reconciliation.js';

const aUse = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 4000 }).map((x) => x / 10) },
  { weight: 3, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.integer({ min: -500, max: -1 }) },
  { weight: 1, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, 1e9) },
);
const aHistory = fc.array(aUse, { maxLength: 60 });

const aDemand: fc.Arbitrary<Demand> = fc.record({
  family: fc.constantFrom('count' as const, 'gamma' as const, 'normal' as const),
  mean: fc.double({ min: 0.01, max: 500, noNaN: true }),
  variance: fc.double({ min: 0.01, max: 5000, noNaN: true }),
});
const aProbability = fc.double({ min: 0.01, max: 0.995, noNaN: true });

test('whatever was recorded, the forecast is made of figures in order, none below 0', () => {
  fc.assert(
    fc.property(
      aHistory,
      fc.constantFrom(1, 4, 12),
      fc.integer({ min: 1, max: 12 }),
      (use, m, h) => {
        const got = forecastSeries({
          use,
          season: m,
          horizon: h,
          periodName: 'month',
          unit: 'g',
        });
        const figures = [...got.mean, ...got.quantiles.flat(), got.demandOver(1.5).variance];
        expect(figures.every((x) => Number.isFinite(x) && x >= 0)).toBe(true);
        for (const row of got.quantiles) {
          expect(row.every((q, i) => i === 0 || q >= row[i - 1]!)).toBe(true);
        }
        expect(got.sentence).not.toMatch(/NaN|Infinity|undefined/);
      },
    ),
    { numRuns: 150 },
  );
});

test('a clean history holds nothing below 0 and keeps the total after corrections', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -50, max: 100 }), { maxLength: 40 }), (use) => {
      const { y } = cleanHistory({ use }, 12);
      expect(y.every((v) => v >= 0)).toBe(true);
      const net = use.reduce((a, b) => a + b, 0);
      const kept = y.reduce((a, b) => a + b, 0);
      if (net >= 0) expect(kept).toBeCloseTo(net, 8);
      else expect(kept).toBe(0);
    }),
  );
});

test('forecasts in kilograms are those in grams divided by a thousand', () => {
  const aLong = fc.array(fc.integer({ min: 200, max: 4000 }), { minLength: 14, maxLength: 50 });
  fc.assert(
    fc.property(aLong, (use) => {
      const grams = project(Float64Array.from(use), 12, 6, { wholeUnits: false });
      const kilos = project(
        Float64Array.from(use, (x) => x / 1000),
        12,
        6,
        { wholeUnits: false },
      );
      const wide = projectionQuantiles(grams, [0.1, 0.9], null);
      const narrow = projectionQuantiles(kilos, [0.1, 0.9], null);
      grams.mean.forEach((g, j) => {
        expect(Math.abs(kilos.mean[j]! * 1000 - g)).toBeLessThan(0.02 * (g + 1));
        expect(Math.abs(narrow[j]![1]! * 1000 - wide[j]![1]!)).toBeLessThan(
          0.05 * (wide[j]![1]! + 1),
        );
      });
    }),
    { numRuns: 30 },
  );
});

test('a quantile is reached with at least its probability, and not much below it', () => {
  fc.assert(
    fc.property(aDemand, aProbability, (demand, p) => {
      const q = demandQuantile(p, demand);
      expect(demandCdf(q, demand)).toBeGreaterThanOrEqual(p - 1e-9);
      const below = demand.family === 'count' ? q - 1 : q - 1e-6 * (1 + Math.abs(q));
      expect(demandCdf(below, demand)).toBeLessThanOrEqual(p + 1e-9);
    }),
  );
});

test('more stock falls short by less, and each unit more helps less', () => {
  fc.assert(
    fc.property(aDemand, fc.integer({ min: 0, max: 400 }), (demand, r) => {
      const [a, b, c] = [r, r + 1, r + 2].map((x) => demandLoss(x, demand)) as [
        number,
        number,
        number,
      ];
      expect(b).toBeLessThanOrEqual(a + 1e-9);
      expect(a - b).toBeLessThanOrEqual(1 + 1e-9);
      expect(b - c).toBeLessThanOrEqual(a - b + 1e-7);
    }),
  );
});

test('less certainty never asks for less stock', () => {
  fc.assert(
    fc.property(aDemand, fc.double({ min: 1.01, max: 50, noNaN: true }), (demand, times) => {
      const wider = { ...demand, variance: demand.variance * times };
      const calm = cautiousQuantile(0.95, demand);
      expect(cautiousQuantile(0.95, wider)).toBeGreaterThanOrEqual(0.85 * calm - 1);
    }),
  );
});

test('exact lot sizes meet all demand and cost no more than ordering every period or once', () => {
  const someDemand = fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(someDemand, fc.integer({ min: 1, max: 900 }), (demand, fixed) => {
      const plan = wagnerWhitin(demand, fixed, 0.5);
      const sum = (list: number[]): number => list.reduce((a, b) => a + b, 0);
      expect(sum(plan.orders)).toBe(sum(demand));
      const once = fixed + sum(demand.map((d, t) => 0.5 * d * t));
      expect(plan.cost).toBeLessThanOrEqual(Math.min(fixed * demand.length, once) + 1e-9);
    }),
  );
});

test('reconciled forecasts add up', () => {
  const summing = [
    [1, 1, 1],
    [1, 1, 0],
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const aForecast = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), {
    minLength: 5,
    maxLength: 5,
  });
  fc.assert(
    fc.property(aForecast, (base) => {
      const [total, pair, a, b, c] = reconcile(summing, structuralWeights(summing), base)!;
      expect(total!).toBeCloseTo(a! + b! + c!, 8);
      expect(pair!).toBeCloseTo(a! + b!, 8);
    }),
  );
});

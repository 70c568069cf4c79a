/** One product's series through the whole forecast: short, odd and long histories. */
import { forecastSeries, type SeriesRequest } from '../../../shared/forecasting/forecast-series.js';
import { gatherStudio } from '../../../shared/forecasting/studio-pool.js';

const asked = { season: 12, horizon: 6, periodName: 'month', unit: 'g' };
const forecast = (use: readonly (number | null)[], more: Partial<SeriesRequest> = {}) =>
  forecastSeries({ use, ...asked, ...more });

/** Lightener at Saltmarsh Row: a summer peak, a slow rise, months that differ a little. */
const lightener = Array.from({ length: 48 }, (_, t) => {
  const season = 1 + 0.25 * Math.sin((2 * Math.PI * (t - 2)) / 12);
  return Math.floor((900 + 3 * t) * season * (1 + 0.05 * Math.sin(7 * t * t)));
});

const odd: [name: string, use: (number | null)[]][] = [
  ['no history', []],
  ['nothing but unknown months', [null, null]],
  ['one month', [50]],
  ['two months', [50, 60]],
  ['five months', [50, 60, 40, 55, 70]],
  ['six months', [50, 60, 40, 55, 70, 66]],
  ['thirteen months', lightener.slice(0, 13)],
  ['all zeros', new Array<number>(20).fill(0)],
  ['all the same', new Array<number>(30).fill(5)],
  ['only corrections', [-4, -5, -6]],
  ['more taken back than used', [10, 10, -500, 3, 2, 1, 8]],
  ['not numbers', [NaN, Infinity, 3, 4, 5, 3, 4, 5]],
  ['tiny amounts', [1e-9, 2e-9, 1e-9, 3e-9, 1e-9, 2e-9, 1e-9]],
  ['huge amounts', [1e12, 2e12, 1e12, 3e12, 1e12, 2e12, 1e12, 1e12]],
  ['one use among many months', [...new Array<number>(15).fill(0), 3, 0, 0, 0, 0]],
];

test.each(odd)('%s: figures everywhere, none below 0, and a sentence', (_name, use) => {
  const got = forecast(use);
  expect(got.mean).toHaveLength(6);
  expect(got.quantiles).toHaveLength(6);
  for (const x of [...got.mean, ...got.quantiles.flat()]) {
    expect(Number.isFinite(x)).toBe(true);
    expect(x).toBeGreaterThanOrEqual(0);
  }
  for (const row of got.quantiles) expect([...row].sort((a, b) => a - b)).toEqual(row);
  for (const periods of [0, 0.5, 2, 3]) {
    const demand = got.demandOver(periods, 0.2);
    expect(Number.isFinite(demand.mean) && Number.isFinite(demand.variance)).toBe(true);
    expect(demand.variance).toBeGreaterThanOrEqual(0);
  }
  expect(got.sentence.length).toBeGreaterThan(20);
  expect(got.sentence).not.toMatch(/NaN|Infinity|undefined|null/);
});

test('a steady product is forecast by the mix, with its error beside the naive one', () => {
  const got = forecast(lightener);
  expect(got.method).toBe('combination');
  expect(got.backtest!.error).toBeLessThan(got.backtest!.naive);
  expect(got.sentence).toMatch(
    /^Used steadily \(used in 48 of 48 months\): the forecast is a mix of .* %, weighted by/,
  );
  expect(got.sentence).toMatch(
    / it missed by [\d.]+ g a month, guessing the same period a season before by [\d.]+ g\.$/,
  );
});

test('the season is in the forecast: month 49 is a spring month, below the July to come', () => {
  const [first, , , , , sixth] = forecast(lightener).mean;
  expect(sixth!).toBeGreaterThan(first! * 1.2);
});

test('the same history gives the same figures, and last night’s models nearly the same', () => {
  const first = forecast(lightener);
  expect(forecast(lightener).mean).toEqual(first.mean);
  const warm = forecast(lightener, { memory: first.memory! });
  warm.mean.forEach((m, j) => expect(m / first.mean[j]!).toBeCloseTo(1, 2));
});

test('a typing error is cut, flagged and said', () => {
  const use = lightener.slice();
  use[30]! *= 1000;
  const got = forecast(use);
  expect(got.notes).toContainEqual(
    expect.objectContaining({ kind: 'typing error', periods: [30] }),
  );
  expect(got.sentence).toMatch(/in month 31 looks like a typing error; .* please check it\./);
  const right = forecast(lightener).mean[0]!;
  expect(got.mean[0]! / right).toBeGreaterThan(0.8);
  expect(got.mean[0]! / right).toBeLessThan(1.25);
});

test('a new product leans on its family, and less with every month of its own', () => {
  const prior = { mean: 100, variance: 1600 };
  const none = forecast([], { prior });
  expect(none.method).toBe('cold start');
  expect(none.mean[0]).toBe(100);
  const one = forecast([20], { prior }).mean[0]!;
  const four = forecast([20, 20, 20, 20], { prior }).mean[0]!;
  expect(one).toBeLessThan(100);
  expect(four).toBeLessThan(one);
  expect(four).toBeGreaterThan(20);
});

test('a family season shapes a cold start', () => {
  const familyIndices = [2, ...new Array<number>(11).fill(10 / 11)];
  const got = forecast([], { prior: { mean: 110, variance: 100 }, familyIndices });
  expect(got.mean[0]).toBe(220);
  expect(got.mean[1]).toBeCloseTo(100, 10);
});

test('a product that replaced another carries on its history, times the factor', () => {
  const got = forecast(lightener.slice(46), {
    predecessor: { use: lightener.slice(0, 46), factor: 1 },
  });
  expect(got.mean).toEqual(forecast(lightener).mean);
  expect(got.sentence).toContain('The product it replaced counts with factor 1.');
});

test('without any history or family the forecast is 0 and says so', () => {
  const got = forecast([]);
  expect(got.method).toBe('no use');
  expect(got.sentence).toBe(
    'No history yet, and nothing is known of similar products: the forecast is 0.',
  );
});

test('a pool of other products changes the bands, never the mean', () => {
  const alone = forecast(lightener);
  const others = Array.from({ length: 10 }, (_, i) =>
    forecast(lightener.map((v, t) => v * (1 + 0.3 * Math.sin(i + t * t)))),
  );
  const studio = gatherStudio(
    others.flatMap((o) => (o.projection ? [o.projection] : [])),
    6,
    2,
  );
  const pooled = forecast(lightener, { studio });
  expect(pooled.mean).toEqual(alone.mean);
  expect(pooled.quantiles[0]).not.toEqual(alone.quantiles[0]);
});

test('use over two months has the mean of two months and more variance than over one', () => {
  const got = forecast(lightener);
  expect(got.demandOver(2).mean).toBeCloseTo(got.mean[0]! + got.mean[1]!, 9);
  expect(got.demandOver(1.5).mean).toBeCloseTo(got.mean[0]! + got.mean[1]! / 2, 9);
  expect(got.demandOver(2).variance).toBeGreaterThan(got.demandOver(1).variance);
  const late = got.demandOver(2, 0.25).variance - got.demandOver(2).variance;
  expect(late).toBeCloseTo((got.demandOver(2).mean / 2) ** 2 * 0.25, 6);
});

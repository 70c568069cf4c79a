/** Checks short, constant, empty and negative histories: figures everywhere, never NaN. */
import { normalInterval } from '../../../shared/forecasting/ets-forecast.js';
import { fitEtsThoroughly } from '../../../shared/forecasting/ets-fit.js';
import { croston } from '../../../shared/forecasting/intermittent.js';
import { project, projectionQuantiles } from '../../../shared/forecasting/projection.js';
import {
  naiveForecast,
  seasonalNaiveForecast,
} from '../../../shared/forecasting/simple-forecasts.js';
import { readModel } from './smoothing-file.js';
import {
  compareAll,
  entry,
  type JsonObject,
  list,
  meanSize,
  number,
  numbers,
  object,
  type Tally,
  text,
  verdict,
} from './tally.js';

const EXACT = 1e-9;

/** Checks every case: the plain forecasts exactly, our own for sanity, fits by likelihood. */
export function checkEdgeCases(tally: Tally, file: JsonObject): void {
  for (const of of list(file.cases).map(object)) {
    const name = text(of.name);
    const values = numbers(of.values);
    const m = number(of.frequency, 1);
    checkSane(tally, name, values, m);
    if (values.some((v) => Number.isNaN(v))) continue;
    checkReference(tally, name, Float64Array.from(values), m, object(of.results));
  }
}

function checkSane(tally: Tally, name: string, values: number[], m: number): void {
  const y = Float64Array.from(values.filter((v) => !Number.isNaN(v)));
  const projection = project(y, m, 3);
  const quantiles = projectionQuantiles(projection, [0.025, 0.1, 0.5, 0.9, 0.975], null);
  const figures = [...projection.mean, ...quantiles.flat()];
  const finite = figures.every((x) => Number.isFinite(x));
  const ordered = quantiles.every((row) => row.every((q, i) => i === 0 || q >= row[i - 1]!));
  const negative = y.some((v) => v < 0);
  const floor = negative || figures.every((x) => x >= 0);
  verdict(tally, finite && ordered && floor, `${name}: a forecast is not a usable number`);
}

function checkReference(
  tally: Tally,
  name: string,
  y: Float64Array,
  m: number,
  results: JsonObject,
): void {
  const floor = 0.1 * meanSize(y);
  const naive = object(results.naive);
  if (naive.mean !== undefined) {
    const ahead = naiveForecast(y, 3);
    const upper = normalInterval(ahead, 0.95).upper;
    entry(tally, `${name}.naive`, EXACT, (c) => {
      compareAll(c, 'mean', ahead.mean, naive.mean, floor);
      if (y.length > 1) compareAll(c, 'upper95', upper, naive.upper95, floor);
    });
  }
  const seasonal = object(results.snaive);
  if (seasonal.mean !== undefined) {
    const ahead = seasonalNaiveForecast(y, m, 3);
    entry(tally, `${name}.snaive`, EXACT, (c) =>
      compareAll(c, 'mean', ahead.mean, seasonal.mean, floor),
    );
  }
  const sporadic = object(results.croston);
  if (sporadic.mean !== undefined) {
    const rate = croston(y, 0.1).rate;
    entry(tally, `${name}.croston`, EXACT, (c) =>
      compareAll(c, 'mean', [rate, rate, rate], sporadic.mean, floor),
    );
  }
  const ets = object(results.ets);
  const kinds = /^ETS\((A|M),(N|A)(d?),(N|A|M)\)$/.exec(text(ets.method));
  if (!kinds || typeof ets.loglik !== 'number') return;
  const damped = kinds[3] === 'd' ? 'TRUE' : 'FALSE';
  const model = readModel([kinds[1]!, kinds[2]!, kinds[4]!, damped], m);
  const fit = model && fitEtsThoroughly(model, y);
  const gap = (fit ? fit.logLikelihood : -Infinity) - ets.loglik;
  tally.fits.push({ name: `${tally.file} ${name}`, gap });
}

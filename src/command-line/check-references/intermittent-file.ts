/** Checks the file of intermittent demand methods. */
import { adida, imapa } from '../../../shared/forecasting/aggregation.js';
import { classifyDemand } from '../../../shared/forecasting/demand-class.js';
import { fitEtsThoroughly } from '../../../shared/forecasting/ets-fit.js';
import {
  croston,
  shaleBoylanJohnston,
  syntetosBoylan,
  tsb,
} from '../../../shared/forecasting/intermittent.js';
import { bestSmoothing, smoothLevel } from '../../../shared/forecasting/simple-smoothing.js';
import {
  compareFitted,
  entry,
  type JsonObject,
  meanSize,
  number,
  numbers,
  object,
  type Tally,
  text,
  verdict,
} from './tally.js';

/** Recursions without anything to estimate. */
const EXACT = 1e-12;
/** Where the other side stops a one-dimensional search at its own tolerance. */
const SEARCHED = 1e-3;

/** Checks every series of the file. */
export function checkIntermittent(tally: Tally, file: JsonObject): void {
  for (const [id, value] of Object.entries(object(file.series))) {
    const series = object(value);
    const y = Float64Array.from(numbers(series.values));
    for (const [name, model] of Object.entries(object(series.models))) {
      checkMethod(tally, `${id}.${name}`, name, object(model), y);
    }
  }
}

function checkMethod(
  tally: Tally,
  label: string,
  name: string,
  of: JsonObject,
  y: Float64Array,
): void {
  const constants = name
    .split('_')
    .slice(1)
    .map((part) => +part);
  const alpha = constants[0] ?? NaN;
  const rate = (tolerance: number, got: number, floor = 1e-9): void =>
    entry(tally, label, tolerance, (compare) => compare('mean', got, of.mean, floor));
  if (/^croston_[\d.]+$/.test(name)) checkCroston(tally, label, of, y, alpha);
  else if (/^sba_/.test(name)) rate(EXACT, syntetosBoylan(y, alpha));
  else if (/^sbj_/.test(name)) rate(EXACT, shaleBoylanJohnston(y, alpha));
  else if (/^tsb_/.test(name)) checkTsb(tally, label, of, y, alpha, constants[1] ?? NaN);
  else if (name === 'tsintermittent_sba_fixed') rate(EXACT, syntetosBoylan(y, 0.1));
  else if (name === 'tsintermittent_croston_meaninit') rate(EXACT, croston(y, 0.1, true).rate);
  else if (name === 'tsintermittent_tsb_fixed') rate(EXACT, tsb(y, 0.1, 0.1).rate);
  else if (name === 'sf_CrostonClassic') rate(1e-6, croston(y, 0.1).rate, 1e-3);
  else if (name === 'sf_CrostonSBA') rate(1e-6, syntetosBoylan(y, 0.1), 1e-3);
  else if (name === 'sf_TSB_0.1_0.1') rate(1e-6, tsb(y, 0.1, 0.1).rate, 1e-3);
  else if (name === 'sf_ADIDA') rate(SEARCHED, adida(y), 0.1 * meanSize(y));
  else if (name === 'sf_IMAPA') rate(SEARCHED, imapa(y), 0.1 * meanSize(y));
  else if (name === 'sf_HistoricAverage') rate(1e-6, meanOf(y));
  else if (name === 'sf_WindowAverage12') rate(1e-6, meanOf(y.subarray(-12)));
  else if (name === 'sf_SESOpt') {
    rate(SEARCHED, bestSmoothing(y, 0.01, 0.99, true).level, 0.1 * meanSize(y));
  } else if (name === 'ses_fixed_0.1') rate(EXACT, smoothLevel(y, 0.1, y[0]!).level);
  else if (name === 'ses_opt') checkLikelihood(tally, label, of, y);
  else if (name === 'classification') checkClass(tally, label, of, y);
  else tally.skipped++;
}

function meanOf(y: Float64Array): number {
  return y.reduce((a, b) => a + b, 0) / y.length;
}

function checkCroston(
  tally: Tally,
  label: string,
  of: JsonObject,
  y: Float64Array,
  alpha: number,
): void {
  const got = croston(y, alpha);
  const fitted = Float64Array.from(y, (_, t) =>
    t > 0 ? croston(y.subarray(0, t), alpha).rate : NaN,
  );
  entry(tally, label, EXACT, (compare) => {
    compare('mean', got.rate, of.mean);
    compare('demand_level', got.size, of.demand_level);
    compare('interval_level', got.interval, of.interval_level);
    compareFitted(compare, fitted, of.fitted, 1e-3 * meanSize(y));
  });
}

function checkTsb(
  tally: Tally,
  label: string,
  of: JsonObject,
  y: Float64Array,
  alpha: number,
  beta: number,
): void {
  const fitted = new Float64Array(y.length).fill(NaN);
  const got = tsb(y, alpha, beta, fitted);
  entry(tally, label, EXACT, (compare) => {
    compare('mean', got.rate, of.mean);
    compare('p', got.probability, of.p);
    compare('z', got.size, of.z);
    compareFitted(compare, fitted, of.fitted, 1e-3 * meanSize(y));
  });
}

function checkLikelihood(tally: Tally, label: string, of: JsonObject, y: Float64Array): void {
  const reference = number(of.loglik);
  if (!Number.isFinite(reference)) {
    tally.skipped++;
    return;
  }
  const fit = fitEtsThoroughly({ error: 'A', trend: 'N', season: 'N', period: 1 }, y);
  tally.fits.push({
    name: `${tally.file} ${label}`,
    gap: (fit ? fit.logLikelihood : -Infinity) - reference,
  });
}

function checkClass(tally: Tally, label: string, of: JsonObject, y: Float64Array): void {
  const got = classifyDemand(y);
  entry(tally, label, EXACT, (compare) => {
    compare('ADI', got.periodsPerDemand, of.ADI);
    compare('CV2', got.squaredVariation, of.CV2);
    compare('n_positive', got.positives, of.n_positive);
  });
  const wanted = text(of.class);
  if (wanted !== '') {
    verdict(tally, got.demandClass === wanted, `${label}: class ${got.demandClass}, not ${wanted}`);
  }
}

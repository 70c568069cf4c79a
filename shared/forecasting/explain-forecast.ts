/** Says in a sentence how a forecast was made and how good such forecasts were. */
import type { CleanHistory, CleaningNote } from './clean-history.js';
import type { ColdStart } from './cold-start.js';
import type { DemandPattern } from './demand-class.js';
import { MEMBERS } from './ensemble-members.js';
import type { Origin } from './ensemble.js';
import type { Projection } from './projection.js';

/** Error of the method and of the naive forecast over the same past periods. */
export interface Backtest {
  /** 'mean' absolute miss for steady use; 'root' mean squared for use that comes and goes. */
  kind: 'mean' | 'root';
  /** Miss per period in the unit of the product. */
  error: number;
  naive: number;
  /** Forecasts compared with what came. */
  forecasts: number;
  /** Mean actual use of the periods compared. */
  use: number;
}

/** Misses of the backtest beside the naive ones; null without any origin. */
export function backtestOf(origins: readonly Origin[], root: boolean): Backtest | null {
  let error = 0;
  let naive = 0;
  let use = 0;
  let forecasts = 0;
  for (const origin of origins) {
    origin.actual.forEach((a, j) => {
      const ours = a - origin.forecast[j]!;
      const plain = a - origin.naive[j]!;
      error += root ? ours * ours : Math.abs(ours);
      naive += root ? plain * plain : Math.abs(plain);
      use += a;
      forecasts++;
    });
  }
  if (forecasts === 0) return null;
  const level = (sum: number): number => (root ? Math.sqrt(sum / forecasts) : sum / forecasts);
  return {
    kind: root ? 'root' : 'mean',
    error: level(error),
    naive: level(naive),
    forecasts,
    use: use / forecasts,
  };
}

interface Facts {
  request: { periodName: string; unit: string; season: number; predecessor?: { factor: number } };
  clean: CleanHistory;
  method: string;
  pattern: DemandPattern;
  projection: Projection | null;
  backtest: Backtest | null;
  cold: ColdStart | null;
}

/** Three significant figures, as people write them. */
function plain(x: number): string {
  return `${+x.toPrecision(3)}`;
}

function many(n: number, name: string): string {
  return `${n} ${name}${n === 1 ? '' : 's'}`;
}

/** The whole explanation: data, method, test, and what was changed in the data. */
export function explainForecast(of: Facts): string {
  const parts = [method(of), test(of), ...of.clean.notes.map((n) => change(n, of))];
  return parts.filter((part) => part !== '').join(' ');
}

function method(of: Facts): string {
  const { request, clean, pattern, cold, projection } = of;
  const periods = many(clean.y.length, request.periodName);
  const used = `used in ${pattern.positives} of ${periods}`;
  const chain = request.predecessor
    ? ` The product it replaced counts with factor ${plain(request.predecessor.factor)}.`
    : '';
  if (of.method === 'no use') {
    const why = clean.y.length === 0 ? 'No history yet' : `Not used in ${periods}`;
    return `${why}, and nothing is known of similar products: the forecast is 0.${chain}`;
  }
  if (cold) {
    const weight = +cold.priorPeriods.toFixed(0);
    const family =
      cold.priorPeriods > 0
        ? `the use of similar products, which counts for ${many(weight, request.periodName)}`
        : 'these alone, so it is very uncertain';
    return `Too little history (${used}): the forecast rests on ${family}.${chain}`;
  }
  if (projection?.mix?.dying) {
    return `No longer used (${used}, the last long ago): the forecast falls towards 0.${chain}`;
  }
  if (projection?.mix) {
    return `Comes and goes (${used}): the mean of three methods for such use.${chain}`;
  }
  return `${steadiness(pattern)} (${used}): ${mixture(projection)}.${chain}`;
}

function steadiness(pattern: DemandPattern): string {
  return pattern.demandClass === 'smooth' ? 'Used steadily' : 'Used often, in changing amounts';
}

function mixture(projection: Projection | null): string {
  const weights = projection?.ensemble?.weights ?? [1];
  if (weights.length === 1) return 'the forecast is exponential smoothing of the level and trend';
  const named = weights
    .map((w, k) => ({ w, name: MEMBERS[k]! }))
    .filter(({ w }) => w > 0)
    .sort((a, b) => b.w - a.w)
    .map(({ w, name }) => `${name} ${(100 * w).toFixed(0)} %`);
  return `the forecast is a mix of ${named.join(', ')}, weighted by how each did lately`;
}

function test(of: Facts): string {
  const { backtest, request } = of;
  if (of.cold) return '';
  if (!backtest) return 'The history is too short to test it.';
  const guess = request.season > 1 ? 'the same period a season before' : 'the last value again';
  const miss = `${plain(backtest.error)} ${request.unit} a ${request.periodName}`;
  const naive = `${plain(backtest.naive)} ${request.unit}`;
  const verdict = backtest.error <= backtest.naive ? '' : ' (so the guess was better)';
  return (
    `Tried on ${many(backtest.forecasts, 'past forecast')} it missed by ${miss}, ` +
    `guessing ${guess} by ${naive}${verdict}.`
  );
}

function change(note: CleaningNote, of: Facts): string {
  const { periodName, unit } = of.request;
  const where = many(note.periods.length, periodName);
  const first = (note.periods[0] ?? 0) + 1;
  const was = note.periods.length === 1 ? 'was' : 'were';
  switch (note.kind) {
    case 'typing error':
      return (
        `${plain(note.found ?? 0)} ${unit} in ${periodName} ${first} looks like ` +
        `a typing error; ${plain(note.used ?? 0)} ${unit} was used instead, please check it.`
      );
    case 'correction':
      return `Negative corrections in ${where} were taken off the use before them.`;
    case 'out of stock':
      return `${where} with the product out of stock ${was} raised to what would have been used.`;
    case 'open days':
      return `${where} ${was} adjusted for open days.`;
    case 'gap':
      return `${where} without a record ${was} filled from the periods around.`;
    case 'unreadable':
      return `${where} held no readable number and ${was} taken as unknown.`;
  }
}

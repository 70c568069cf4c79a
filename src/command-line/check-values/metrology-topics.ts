/** Published rules of OIML R 76-1, against shared/weighing/stability.ts and accuracy-class.ts. */
import { decimal, one, zero, type Decimal } from '../../../shared/decimal.js';
import {
  accuracyClasses,
  classRows,
  inServiceFactor,
  permissibleError,
  rowsOfScale,
  type AccuracyClass,
} from '../../../shared/scales/accuracy-class.js';
import {
  mayKeep,
  oldFigureMayStayMs,
  spanWithinOneInterval,
} from '../../../shared/weighing/stability.js';
import { asFigure, figure, figures, text } from './inputs.js';
import { sameSense } from './scale-wording.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import type { Fields, ValueRow } from './value-row.js';

function stability(row: ValueRow): Answer {
  const { inputs, expected } = row;
  const interval = figure(inputs, 'd', 'd_g', 'e', 'e_g', 'interval');
  const readings = figures(inputs, 'readings', 'values');
  if (interval && readings) return { stable: spanWithinOneInterval(readings, interval) };
  if (inputs['equilibrium_disturbed'] === true) return { ...mayKeep(false) };
  if (inputs['equilibrium_disturbed'] === false) return { ...mayKeep(true) };
  if (inputs['after_load_change'] === true) {
    return { old_indication_may_stay_s: decimal(String(oldFigureMayStayMs)).dividedBy(1000) };
  }
  const apart = /<=\s*([\d.]+)\s*[ed]/.exec(text(inputs, 'printed_or_stored_vs_final') ?? '')?.[1];
  if (apart !== undefined) {
    const stable = spanWithinOneInterval([zero, decimal(apart)], one);
    return { stable, meaning: adjacent(expected['meaning']) };
  }
  if (figure(inputs, 'observation_window_s')) return { criterion: adjacent(expected['criterion']) };
  throw new NotYetSupported('a row of another shape');
}

/** Two adjacent values count as one, three do not: then the published sentence is ours. */
function adjacent(published: unknown): string {
  const two = spanWithinOneInterval([zero, one], one);
  const three = spanWithinOneInterval([zero, one, one.plus(one)], one);
  return two && !three
    ? sameSense(published, /two adjacent values/, 'two adjacent values')
    : 'another';
}

function classOf(fields: Fields): AccuracyClass {
  const name = accuracyClasses.find((each) => each === fields['class']);
  if (!name) throw new NotYetSupported('no accuracy class');
  return name;
}

function error(row: ValueRow): Answer {
  const { inputs } = row;
  if (inputs['in_service'] === true && !('class' in inputs)) {
    return { multiplier: inServiceFactor };
  }
  const e = figure(inputs, 'e_g');
  const load = figure(inputs, 'load_in_e') ?? figure(inputs, 'load_g')?.dividedBy(e ?? one);
  if (!load) throw new NotYetSupported('no load');
  const inIntervals = permissibleError(classOf(inputs), load);
  const grams = e?.times(inIntervals);
  return {
    load_in_e: load,
    mpe_in_e: inIntervals,
    mpe_in_e_in_service: inIntervals.times(inServiceFactor),
    ...(grams && {
      mpe_g_initial: grams,
      mpe_g_in_service: grams.times(inServiceFactor),
    }),
  };
}

function accuracyClass(row: ValueRow): Answer {
  const { inputs } = row;
  const e = figure(inputs, 'e_g');
  const most = figure(inputs, 'max_g');
  if (e && most) {
    const possible = rowsOfScale(most, e).map((each) => each.class);
    return { n: most.dividedBy(e), classes_possible: possible };
  }
  const span = text(inputs, 'e');
  const found = span === undefined ? undefined : rowOfSpan(classOf(inputs), span);
  if (!found) throw new NotYetSupported('no row for this interval');
  const count = (value: Decimal | undefined): Got => value ?? null;
  return {
    n_min: found.fewestIntervals,
    n_max: count(found.mostIntervals),
    min_capacity: `${found.minimumCapacityIntervals.toFixed()} e`,
  };
}

/** The row of table 3 for a span in words: "0.1 g <= e <= 2 g". */
function rowOfSpan(name: AccuracyClass, span: string) {
  const [low, high] = (span.match(/[\d.]+/g) ?? []).map(asFigure);
  return classRows.find(
    (row) =>
      row.class === name &&
      low?.equals(row.smallestIntervalGrams) === true &&
      (row.largestIntervalGrams ? high?.equals(row.largestIntervalGrams) === true : !high),
  );
}

export const metrologyTopics: readonly Topic[] = [
  { name: 'oiml-stability', answer: stability },
  { name: 'oiml-mpe', answer: error },
  { name: 'oiml-class', answer: accuracyClass },
];

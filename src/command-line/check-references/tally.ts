/** Counts what was compared in one reference file, and remembers the worst of it. */

/** The finite numbers of a JSON value; anything else is left alone. */
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
/** A JSON object. */
export type JsonObject = { [key: string]: Json };

/** A fitted model: log-likelihood reached minus the reference's. */
export interface FitGap {
  name: string;
  gap: number;
}

/** What one file gave. */
export interface Tally {
  file: string;
  entries: number;
  passed: number;
  skipped: number;
  worst: number;
  worstAt: string;
  failures: string[];
  /** Lines printed under the file's own. */
  notes: string[];
  fits: FitGap[];
  /** Coverage counts of panels: hits and trials. */
  coverage: { hits80: number; hits95: number; trials: number; lead98: number; leads: number };
}

/** A fresh count for a file. */
export function newTally(file: string): Tally {
  return {
    file,
    entries: 0,
    passed: 0,
    skipped: 0,
    worst: 0,
    worstAt: '-',
    failures: [],
    notes: [],
    fits: [],
    coverage: { hits80: 0, hits95: 0, trials: 0, lead98: 0, leads: 0 },
  };
}

/** Compares one number of an entry; `floor` is the size below which deviation is absolute. */
export type Compare = (what: string, got: number, want: Json | undefined, floor?: number) => void;

/**
 * Runs one entry: it passes when every comparison deviates by at most `tolerance`, relative to the
 * larger of the wanted number and the floor. A wanted value that is not a number is left out; an
 * entry without any comparison counts as skipped.
 */
export function entry(
  tally: Tally,
  name: string,
  tolerance: number,
  run: (compare: Compare) => void,
): void {
  let compared = 0;
  let worst = 0;
  let worstAt = name;
  const compare: Compare = (what, got, want, floor = 1e-12) => {
    if (typeof want !== 'number') return;
    compared++;
    const size = Math.max(Math.abs(want), floor);
    const deviation = got === want ? 0 : Math.abs(got - want) / size;
    const counted = Number.isFinite(deviation) ? deviation : Infinity;
    if (counted > worst) [worst, worstAt] = [counted, `${name}.${what}`];
  };
  run(compare);
  if (compared === 0) {
    tally.skipped++;
    return;
  }
  tally.entries++;
  if (worst <= tolerance) tally.passed++;
  else tally.failures.push(`${worstAt} deviates by ${worst.toExponential(2)}`);
  if (worst > tally.worst && tolerance <= 1e-6) [tally.worst, tally.worstAt] = [worst, worstAt];
}

/** An entry that is a yes or no, with the sentence to print when it is no. */
export function verdict(tally: Tally, holds: boolean, otherwise: string): void {
  tally.entries++;
  if (holds) tally.passed++;
  else tally.failures.push(otherwise);
}

/** The object at a key, or an empty one. */
export function object(value: Json | undefined): JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? value : {};
}

/** The list at a key, or an empty one. */
export function list(value: Json | undefined): Json[] {
  return Array.isArray(value) ? value : [];
}

/** The numbers of a list; entries that are not numbers become NaN. */
export function numbers(value: Json | undefined): number[] {
  return list(value).map((v) => (typeof v === 'number' ? v : NaN));
}

/** The number at a key, or a substitute. */
export function number(value: Json | undefined, otherwise = NaN): number {
  return typeof value === 'number' ? value : otherwise;
}

/** The text at a key, or ''. */
export function text(value: Json | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** Compares lists place by place. */
export function compareAll(
  compare: Compare,
  what: string,
  got: ArrayLike<number>,
  want: Json | undefined,
  floor?: number,
): void {
  list(want).forEach((w, i) => compare(`${what}[${i}]`, got[i] ?? NaN, w, floor));
}

/** Compares first, last and sum of a series of fitted values with their summary in the file. */
export function compareFitted(
  compare: Compare,
  got: ArrayLike<number>,
  summary: Json | undefined,
  floor: number,
): void {
  const of = object(summary);
  const last = list(of.last);
  compareAll(compare, 'fitted.first', got, of.first ?? [], floor);
  compareAll(compare, 'fitted.last', Array.from(got).slice(got.length - last.length), last, floor);
  const sum = Array.from(got).reduce((a, b) => a + (Number.isFinite(b) ? b : 0), 0);
  compare('fitted.sum', sum, of.sum, floor * got.length);
}

/** Mean absolute value of a series: the size deviations near 0 are measured by. */
export function meanSize(y: ArrayLike<number>): number {
  let sum = 0;
  for (let t = 0; t < y.length; t++) sum += Math.abs(y[t]!);
  return y.length > 0 && sum > 0 ? sum / y.length : 1;
}

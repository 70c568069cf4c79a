/** Turns what was recorded into a history that can be forecast, and says what it changed. */

/** Use per period, oldest first, in one unit; null where nobody knows. */
export interface RawHistory {
  use: readonly (number | null)[];
  /** Open time of each period as a share of the usual (0 = closed). */
  openShare?: readonly number[];
  /** Share of each period in which a person marked the product as out of stock. */
  outOfStockShare?: readonly number[];
}

/** What was changed, in which periods (0 = the first one given). */
export interface CleaningNote {
  kind: 'unreadable' | 'correction' | 'out of stock' | 'open days' | 'typing error' | 'gap';
  periods: number[];
  /** For a typing error: the value found and the one used in its place. */
  found?: number;
  used?: number;
}

/** The history from its first known period on; `dropped` unknown periods before it are gone. */
export interface CleanHistory {
  y: Float64Array;
  dropped: number;
  notes: CleaningNote[];
}

/** A value this many times the median and the next largest value is taken for a typing error. */
const OVER_MEDIAN = 50;
const OVER_NEXT = 10;
const MOST_ERRORS = 0.1;
/** Fewer positive values than this cannot tell an error from a big day. */
const FEWEST_VALUES = 4;
const MOST_UNKNOWN = 0.5;

/**
 * In this order: unreadable values become unknown; negative corrections are taken off the use
 * before them (what is left over, off the use after them); periods out of stock for a share q are
 * raised to y/(1-q), or unknown above one half; open days likewise, a closed period is unknown;
 * a value 50 times the median and 10 times the next largest is cut to that one; unknown periods
 * get the same period of the seasons around, else the line between their neighbours.
 */
export function cleanHistory(raw: RawHistory, season: number): CleanHistory {
  const notes: CleaningNote[] = [];
  const note = (kind: CleaningNote['kind'], periods: number[]): void => {
    if (periods.length > 0) notes.push({ kind, periods });
  };
  const values = raw.use.map((v) => (v !== null && Number.isFinite(v) ? v : null));
  const odd = (v: number | null): boolean => v !== null && !Number.isFinite(v);
  note(
    'unreadable',
    places(raw.use, (v) => odd(v)),
  );
  note(
    'correction',
    places(values, (v) => v !== null && v < 0),
  );
  netCorrections(values);
  const stock = raw.outOfStockShare ?? [];
  const open = raw.openShare ?? [];
  note(
    'out of stock',
    places(values, (_, t) => (stock[t] ?? 0) > 0),
  );
  note(
    'open days',
    places(values, (v, t) => v !== null && (open[t] ?? 1) !== 1),
  );
  values.forEach((v, t) => {
    if (v === null) return;
    const missed = Math.min(1, Math.max(0, stock[t] ?? 0));
    const share = Math.max(0, open[t] ?? 1);
    if (missed > MOST_UNKNOWN || share === 0) values[t] = v > 0 && missed === 0 ? v : null;
    else values[t] = v / (1 - missed) / share;
  });
  cutTypingErrors(values, notes);
  const first = values.findIndex((v) => v !== null);
  if (first < 0) return { y: new Float64Array(0), dropped: values.length, notes };
  const known = values.slice(first);
  note(
    'gap',
    places(known, (v) => v === null).map((t) => t + first),
  );
  return { y: fillGaps(known, season), dropped: first, notes };
}

function places<T>(values: readonly T[], when: (v: T, t: number) => boolean): number[] {
  return values.flatMap((v, t) => (when(v, t) ? [t] : []));
}

function netCorrections(values: (number | null)[]): void {
  let owed = 0;
  for (let t = 0; t < values.length; t++) {
    const v = values[t];
    if (v === null || v === undefined) continue;
    if (v >= 0) {
      values[t] = Math.max(0, v - owed);
      owed = Math.max(0, owed - v);
      continue;
    }
    owed -= v;
    values[t] = 0;
    for (let back = t - 1; back >= 0 && owed > 0; back--) {
      const before = values[back] ?? 0;
      const taken = Math.min(before, owed);
      if (taken > 0) values[back] = before - taken;
      owed -= taken;
    }
  }
}

function cutTypingErrors(values: (number | null)[], notes: CleaningNote[]): void {
  const positive = values.flatMap((v) => (v !== null && v > 0 ? [v] : [])).sort((a, b) => b - a);
  const n = positive.length;
  if (n < FEWEST_VALUES) return;
  const median = positive[Math.floor(n / 2)]!;
  const most = Math.max(1, Math.floor(n * MOST_ERRORS));
  for (let k = most; k >= 1; k--) {
    const next = positive[k]!;
    if (positive[k - 1]! < OVER_NEXT * next || positive[k - 1]! < OVER_MEDIAN * median) continue;
    values.forEach((v, t) => {
      if (v === null || v <= next) return;
      notes.push({ kind: 'typing error', periods: [t], found: v, used: next });
      values[t] = next;
    });
    return;
  }
}

function fillGaps(known: readonly (number | null)[], season: number): Float64Array {
  return Float64Array.from(known, (v, t) => {
    if (v !== null) return v;
    const around = season > 1 ? [known[t - season], known[t + season]] : [];
    const same = around.filter((x): x is number => typeof x === 'number');
    if (same.length > 0) return same.reduce((a, b) => a + b, 0) / same.length;
    let before = t - 1;
    while (known[before] === null) before--;
    let after = t + 1;
    while (after < known.length && known[after] === null) after++;
    const left = known[before] ?? 0;
    const right = known[after] ?? left;
    const share = after < known.length ? (t - before) / (after - before) : 0;
    return left + share * (right - left);
  });
}

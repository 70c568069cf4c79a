/** A mixed-integer linear program as plain numbers: what a solver is given, and nothing of it. */

/** A decision: what one of it costs, between which bounds, whether whole. */
export interface Column {
  readonly cost: number;
  readonly lower: number;
  readonly upper: number;
  readonly whole: boolean;
}

/** lower <= sum of factor x column <= upper. */
export interface Row {
  readonly lower: number;
  readonly upper: number;
  readonly entries: readonly Entry[];
}

export type Entry = readonly [column: number, factor: number];

/** The least cost is wanted: offset + sum of cost x value. Grows while a model is written down. */
export class LinearProgram {
  readonly columns: Column[] = [];
  readonly rows: Row[] = [];
  offset = 0;

  /** Adds a decision. @returns its number */
  column(cost: number, upper: number, whole: boolean, lower = 0): number {
    return this.columns.push({ cost, lower, upper, whole }) - 1;
  }

  /** Adds a condition; entries of zero are left out, none at all is no condition. */
  row(lower: number, upper: number, entries: readonly Entry[]): void {
    const kept = entries.filter(([, factor]) => factor !== 0);
    if (kept.length > 0) this.rows.push({ lower, upper, entries: kept });
  }

  /** Cost of given values. */
  costOf(values: ArrayLike<number>): number {
    return this.columns.reduce((a, { cost }, c) => a + cost * (values[c] ?? 0), this.offset);
  }
}

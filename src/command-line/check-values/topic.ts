/** What a topic of published values is: a name, and how its rows are answered. */
import type { Decimal } from '../../../shared/decimal.js';
import type { ValueRow } from './value-row.js';

/** A result whose inputs are printed rounded: all that they can stand for, from low to high. */
export class Between {
  constructor(
    readonly low: Decimal,
    readonly high: Decimal,
  ) {}
}

/** What came out for one expected field; fields within fields as in the row. */
export type Got =
  | Decimal
  | Between
  | string
  | number
  | boolean
  | null
  | readonly Got[]
  | { readonly [field: string]: Got };

/** One answer a field of `expected`, by the same name; a field left out is not yet supported. */
export type Answer = Readonly<Record<string, Got>>;

export interface Topic {
  readonly name: string;
  /**
   * Runs the public functions of shared/ on a row's inputs.
   * @throws NotYetSupported for a row of another shape, or without figures
   */
  readonly answer: (row: ValueRow) => Answer;
}

/** A row that is not answered yet, and why; it is counted, it does not fail. */
export class NotYetSupported extends Error {}

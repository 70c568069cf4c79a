/**
 * The contract between a scale and the bench: where readings come from, in which states a source
 * can be, and how it can fail. Both sets are closed; a new source fits into them.
 *
 * A source is opened by the person (browsers ask for a tap before they open a device), tells what
 * it hears in order, and is closed once. It decodes, and nothing more: stability, tare, drips,
 * lifts and sleep belong to the weighing machine in shared/weighing.ts.
 */
import type { Decimal } from '../../../shared/decimal.js';
import type { Reading } from '../../../shared/scales/reading.js';

/** Every source there is. `keypad`: the person types what any scale shows. */
export const sourceNames = ['agent', 'hid', 'serial', 'keypad', 'simulated'] as const;
export type SourceName = (typeof sourceNames)[number];

/**
 * Where a source stands. Closed set:
 * - `closed` not opened yet, or closed by the person
 * - `opening` asked for; the browser or the device has not answered
 * - `open` readings may come
 * - `lost` it was open and the connection broke; it tries to come back by itself
 * - `failed` it could not be opened; `trouble` says why
 */
export const sourceStates = ['closed', 'opening', 'open', 'lost', 'failed'] as const;
export type SourceState = (typeof sourceStates)[number];

/**
 * Why a source could not be opened or was lost. Closed set:
 * - `not_supported` this browser has no way to such a device
 * - `not_secure` browsers give a page devices only over https or on the same machine
 * - `not_chosen` the person closed the browser's list without choosing
 * - `not_permitted` the browser or the system refused
 * - `in_use` another program or page holds the device
 * - `unplugged` the device went away
 * - `nobody_there` the bench agent does not answer
 * - `not_a_scale` the device speaks, and not as a scale does
 */
export const troubles = [
  'not_supported',
  'not_secure',
  'not_chosen',
  'not_permitted',
  'in_use',
  'unplugged',
  'nobody_there',
  'not_a_scale',
] as const;
export type Trouble = (typeof troubles)[number];

/** A source could not be opened. */
export class ScaleTrouble extends Error {
  override readonly name = 'ScaleTrouble';

  constructor(readonly trouble: Trouble) {
    super(trouble);
  }
}

/** What a source tells, in the order in which it happened. */
export type Heard =
  | { readonly type: 'reading'; readonly reading: Reading }
  /** Bytes that carried nothing believable. */
  | { readonly type: 'damage' }
  /** The connection broke; the source tries again and tells `back` when it succeeds. */
  | { readonly type: 'lost'; readonly trouble: Trouble }
  | { readonly type: 'back' };

export interface ScaleSource {
  readonly name: SourceName;
  /** False for a scale that exists only in the demo studio and in practice. */
  readonly mayBook: boolean;
  /** What every bowl weighs on it when empty, where the person's scale takes that off itself. */
  readonly tareGrams?: Decimal;
  /**
   * Opens it; from then on `hear` is told everything. Called once.
   * @throws ScaleTrouble when it cannot be opened
   */
  open(hear: (heard: Heard) => void): Promise<void>;
  /** Lets go of the device; `hear` is not called any more. */
  close(): Promise<void>;
}

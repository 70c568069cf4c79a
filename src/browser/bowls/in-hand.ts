/** What the page of a bowl in the hand shows beside its sheet. */
import type { Decimal } from '../../../shared/decimal.js';
import type { Happening } from '../../../shared/weighing/happenings.js';

/**
 * A pour that is weighed out of its tub, tube or bottle. Closed set:
 * - `lift the bowl` the bowl still stands on the plate
 * - `on the scale` the pack comes, or stands there: what goes out of it is the pour
 * - `lift the pack` it is poured; the bowl comes next
 */
export type PackStep = 'lift the bowl' | 'on the scale' | 'lift the pack';

/** What the page shows beside the sheet. */
export interface InHand {
  /** What happened last, in a sentence. */
  readonly said: string;
  /** Something that the person has to answer. */
  readonly question: Question | null;
  /** Null: the bowl itself is weighed. */
  readonly pack: PackStep | null;
}

/** A happening of one type. */
export type Of<T extends Happening['type']> = Extract<Happening, { type: T }>;

/** What the scale saw and only the person can explain; weights in grams. */
export type Question =
  | { readonly type: 'taken_out' | 'unasked_rise'; readonly grams: Decimal }
  | { readonly type: 'zero_pressed'; readonly grams: Decimal }
  | { readonly type: 'residue'; readonly grams: Decimal };

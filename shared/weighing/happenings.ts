/** What can happen while weighing (closed set), and what the person or the scale can send. */
import type { Decimal } from '../decimal.js';
import type { Reading } from '../scales/reading.js';
import type { ScaleUnit } from '../scales/scale-units.js';
import type { Expected, PourRecord } from './state.js';
import type { TareSource } from './tare.js';

/** Why the page moved on to the next pour. */
export type MoveOnReason = 'stable' | 'tap' | 'lift' | 'bowl_done';

/** Something that happened; weights are in grams, net of the tare unless named gross. */
export type Happening =
  // the scale
  | { readonly type: 'connected' }
  | { readonly type: 'lost'; readonly keptGrams: Decimal | undefined }
  | { readonly type: 'asleep'; readonly keptGrams: Decimal | undefined }
  | { readonly type: 'reading_again' }
  | { readonly type: 'garbled' }
  | { readonly type: 'too_heavy' }
  | { readonly type: 'under_zero' }
  | { readonly type: 'fault' }
  | { readonly type: 'needs_calibration' }
  | { readonly type: 'needs_zero' }
  | { readonly type: 'not_ready' }
  | { readonly type: 'not_a_mass'; readonly unit: ScaleUnit }
  | { readonly type: 'unit_changed'; readonly unit: ScaleUnit }
  // the plate
  | { readonly type: 'set_down'; readonly grossGrams: Decimal }
  | { readonly type: 'tared'; readonly tareGrams: Decimal; readonly source: TareSource }
  | { readonly type: 'rinsed_question'; readonly grams: Decimal }
  | { readonly type: 'lifted'; readonly keptGrams: Decimal }
  | { readonly type: 'resumed'; readonly netGrams: Decimal }
  | {
      readonly type: 'came_back';
      readonly netGrams: Decimal;
      readonly differenceGrams: Decimal;
    }
  | { readonly type: 'residue'; readonly grams: Decimal }
  | { readonly type: 'plate_clear' }
  | { readonly type: 'zero_pressed'; readonly keptGrams: Decimal }
  | { readonly type: 'carried_on'; readonly netGrams: Decimal }
  | { readonly type: 'zeroed' }
  | { readonly type: 'bumped' }
  | { readonly type: 'knuckle' }
  // the pour
  | { readonly type: 'too_light'; readonly pourId: string; readonly intervalGrams: Decimal }
  | { readonly type: 'waiting_to_settle'; readonly pourId: string }
  | { readonly type: 'nothing_poured'; readonly pourId: string }
  | ({ readonly type: 'moved_on'; readonly why: MoveOnReason } & PourRecord)
  | { readonly type: 'overshot'; readonly pourId: string; readonly overGrams: Decimal }
  | { readonly type: 'fell_short'; readonly pourId: string; readonly missingGrams: Decimal }
  | { readonly type: 'dripped'; readonly pourId: string; readonly grams: Decimal }
  | ({ readonly type: 'poured' } & PourRecord)
  | {
      readonly type: 'scooped_back';
      readonly pourId: string | undefined;
      readonly grams: Decimal;
    }
  | { readonly type: 'taken_out'; readonly grams: Decimal }
  | { readonly type: 'unasked_rise'; readonly grams: Decimal }
  // a weighing that was asked for
  | {
      readonly type: 'weighed';
      readonly grossGrams: Decimal;
      readonly netGrams: Decimal;
      readonly intervalGrams: Decimal;
      readonly windowMs: number;
    };

export type HappeningType = Happening['type'];

/** A pour that becomes due; the band is the larger of two intervals and 2 % where none is given. */
export interface PourWanted {
  readonly id: string;
  readonly targetGrams: Decimal;
  readonly bandGrams?: Decimal;
  readonly startsClock?: boolean;
}

/** What goes into the machine; `atMs` is any steady clock, never running back. */
export type WeighingEvent = { readonly atMs: number } & (
  | { readonly type: 'connected' }
  | { readonly type: 'lost' }
  | { readonly type: 'reading'; readonly reading: Reading }
  | { readonly type: 'damage' }
  | { readonly type: 'tick' } // time passes: send one at least every second
  | { readonly type: 'use_bowl'; readonly bowl: Expected } // the bowl or pack that is set down
  | { readonly type: 'pour'; readonly pour: PourWanted }
  | { readonly type: 'withdraw_pour' } // it is not due any more; what it held is no pour
  | { readonly type: 'tap' } // next, that's all
  | { readonly type: 'weigh' } // what's left, an interim weighing
  | { readonly type: 'bowl_done' } // settled, or put aside for another one
  | { readonly type: 'leave_residue' }
  | { readonly type: 'carry_on' } // answer to zero_pressed
  | { readonly type: 'it_was_lifted' } // answer to zero_pressed
);

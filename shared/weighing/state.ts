/** Everything that is known while a bowl is weighed: the states of scale, plate and pour. */
import { decimal, zero, type Decimal } from '../decimal.js';
import type { ScaleUnit } from '../scales/scale-units.js';
import { usualStabilityRule, type Moment, type StabilityRule } from './stability.js';
import type { TareSource } from './tare.js';

/**
 * What the scale is doing. Closed set:
 * - `away` not connected
 * - `waiting` connected, no reading yet
 * - `weighing` readings in grams come in
 * - `asleep` connected, silent for longer than `silenceMs`
 * - `garbled` bytes come in, none of them believable
 * - `too_heavy`, `under_zero`, `fault`, `needs_calibration`, `needs_zero`, `not_ready`: its word
 * - `not_a_mass` it shows pieces, per cent or a unit without one fixed size
 */
export const instrumentStates = [
  'away',
  'waiting',
  'weighing',
  'asleep',
  'garbled',
  'too_heavy',
  'under_zero',
  'fault',
  'needs_calibration',
  'needs_zero',
  'not_ready',
  'not_a_mass',
] as const;
export type InstrumentState = (typeof instrumentStates)[number];

/**
 * What stands on the plate. Closed set:
 * - `empty` nothing, and no bowl is in hand
 * - `settling` something was set down and does not stand still yet
 * - `unidentified` it stands still; which bowl it is has not been said
 * - `on` the bowl in hand, tare known
 * - `lifted` the bowl in hand is off the plate, its weight kept
 * - `returning` it was set down again and does not stand still yet
 * - `zero_asked` the weight jumped to zero without a lift; the person says what it was
 */
export const plateStates = [
  'empty',
  'settling',
  'unidentified',
  'on',
  'lifted',
  'returning',
  'zero_asked',
] as const;
export type PlateState = (typeof plateStates)[number];

/** How this scale is set up. */
export interface WeighingSettings {
  readonly stability: StabilityRule;
  /** The scale's interval where it is known; else the worth of the last place it shows. */
  readonly intervalGrams?: Decimal;
  /** Silence after which a connected scale counts as asleep. */
  readonly silenceMs: number;
}

export const usualSettings: WeighingSettings = { stability: usualStabilityRule, silenceMs: 5000 };

/** The newest weight on the plate, in grams, and whether it stands still. */
export interface Weight extends Moment {
  readonly stable: boolean;
  readonly windowMs: number;
}

/** A weight that stands still: since when, and when last seen so. */
export interface Still {
  readonly grams: Decimal;
  readonly sinceMs: number;
  readonly atMs: number;
  readonly windowMs: number;
}

/** The bowl (or pack) in hand; grams net of its tare. */
export interface BowlInHand {
  readonly tareGrams: Decimal;
  readonly tareSource: TareSource;
  /** A tub, tube or bottle that is poured out of, instead of a bowl that is poured into. */
  readonly isPack: boolean;
  /** Contents as last weighed still, or as kept from before a lift. */
  readonly levelGrams: Decimal;
  readonly levelStable: boolean;
  readonly levelWindowMs: number;
  /** Powder and developer have met: nothing goes back. */
  readonly touched: boolean;
  readonly lastPourId: string | undefined;
}

/** The pour that is due. */
export interface DuePour {
  readonly id: string;
  readonly targetGrams: Decimal;
  readonly bandGrams: Decimal;
  /** With this pour powder and developer meet. */
  readonly startsClock: boolean;
  /** Net weight at which it began. */
  readonly startGrams: Decimal;
  /** Poured and taken back again. */
  readonly scoopedGrams: Decimal;
  /** A tap that waits for the weight to stand still. */
  readonly tappedAtMs: number | undefined;
}

/** What is kept with a finished pour. */
export interface PourRecord {
  readonly pourId: string;
  readonly grams: Decimal;
  readonly targetGrams: Decimal;
  readonly intervalGrams: Decimal;
  readonly stable: boolean;
  readonly windowMs: number;
}

/** A pour that was moved on from and may still drip. */
export interface ClosingPour {
  readonly record: PourRecord;
  readonly movedAtMs: number;
  readonly netGrams: Decimal;
}

export interface WeighingState {
  readonly settings: WeighingSettings;
  readonly instrument: InstrumentState;
  readonly plate: PlateState;
  readonly heardAtMs: number;
  readonly damageRun: number;
  readonly underSinceMs: number | undefined;
  /** The scale was silent or away since the last reading. */
  readonly interrupted: boolean;
  readonly unit: ScaleUnit | undefined;
  /** The scale's own display, as it stands there. */
  readonly ownDisplay: Decimal | undefined;
  readonly mode: 'gross' | 'net' | 'unknown';
  readonly intervalGrams: Decimal;
  /** Added to the scale's grams: its zero key was pressed with a load on, or residue was left. */
  readonly zeroGrams: Decimal;
  readonly window: readonly Moment[];
  readonly weight: Weight | undefined;
  readonly still: Still | undefined;
  /** The weight at the top, before it began to fall. */
  readonly top: Moment | undefined;
  readonly residueGrams: Decimal | undefined;
  readonly expected: Expected | undefined;
  readonly bowl: BowlInHand | undefined;
  readonly due: DuePour | undefined;
  readonly closing: ClosingPour | undefined;
  readonly press: Moment | undefined;
  readonly weighAsked: boolean;
}

/** What was said of the bowl that comes next, before it was set down. */
export interface Expected {
  readonly tares: Readonly<Partial<Record<Exclude<TareSource, 'set_down'>, Decimal>>>;
  readonly contentsGrams: Decimal;
  readonly touched: boolean;
  readonly isPack: boolean;
  /** Whoever weighed it was cut off in the middle of the due pour: what is more is that pour. */
  readonly cutOff?: boolean;
}

/** Nothing connected, nothing on the plate. */
export function weighingStart(settings: WeighingSettings = usualSettings): WeighingState {
  return {
    settings,
    instrument: 'away',
    plate: 'empty',
    heardAtMs: 0,
    damageRun: 0,
    underSinceMs: undefined,
    interrupted: false,
    unit: undefined,
    ownDisplay: undefined,
    mode: 'unknown',
    intervalGrams: settings.intervalGrams ?? decimal('1'),
    zeroGrams: zero,
    window: [],
    weight: undefined,
    still: undefined,
    top: undefined,
    residueGrams: undefined,
    expected: undefined,
    bowl: undefined,
    due: undefined,
    closing: undefined,
    press: undefined,
    weighAsked: false,
  };
}

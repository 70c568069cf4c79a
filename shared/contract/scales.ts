/** Readings of a bench's scale as they travel from the agent to the service and to pages. */

import type { Q } from './quantity.js';

/** The figure of a scale at one moment, as it wrote it; grams follow from value and unit. */
export interface ReadingView {
  status: 'weight' | 'over' | 'under' | 'fault' | 'needs_calibration' | 'needs_zero' | 'not_ready';
  /** Plain decimal in the scale's own unit; only with status `weight`. */
  value?: string;
  /** A unit of shared/scales/scale-units.ts; only with status `weight`. */
  unit?: string;
  /** The scale's own word; absent where its format has none. */
  stable?: boolean;
  mode: 'gross' | 'net' | 'unknown';
  atZero?: boolean;
  /** Worth of the last place shown, grams. */
  interval?: string;
  /** The line or report that carried it. */
  carriedBy: string;
}

/** Why a bench's scale is away. */
export type ScaleAway =
  'unplugged' | 'in_use' | 'not_permitted' | 'not_a_scale' | 'not_supported' | 'nobody_there';

/** One message on the wire, from the agent to the service and on to pages. */
export type ScaleMessage =
  | { type: 'reading'; reading: ReadingView }
  /** The scale sent something that nobody can believe. */
  | { type: 'damage' }
  /** The scale, or the agent that reads it, is away. */
  | { type: 'lost'; trouble: ScaleAway }
  /** It is there again. */
  | { type: 'back' };

/** How a bench's scale stands. */
export interface BenchScaleView {
  benchId: string;
  /** An agent reads a scale for this bench. */
  agent: boolean;
  /** Why no reading can come; null where readings come. */
  trouble: ScaleAway | null;
  /** The latest, while it is fresh; null before the first and when the scale has gone silent. */
  reading: ReadingView | null;
  /** Pages that are told. */
  pages: number;
}

/** A check of a scale with something that weighs the same every day. */
export interface ScaleCheckView {
  id: string;
  benchId: string | null;
  /** A sealed tub, or anything else that is always there. */
  what: string;
  weight: Q<'g'>;
  checkedAt: string;
  /** The same thing at this bench the time before; null the first time. */
  before: { weight: Q<'g'>; checkedAt: string } | null;
  /** Grams more than the time before. */
  difference: string | null;
  /** More than two intervals apart. */
  off: boolean;
  /** Bowls that were poured at this bench on that day. */
  bowls: number;
}

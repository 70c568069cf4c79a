/** Clients as they travel, with their sensitivity tests and bowls. Decimals are text. */
import type { StockUnit } from '../amount.js';
import type { Q } from './quantity.js';

export type HairLength = 'short' | 'medium' | 'long' | 'very long';
export type HairDensity = 'fine' | 'medium' | 'thick';
export type SensitivityResult = 'no reaction' | 'reaction';

export interface SensitivityTestView {
  id: string;
  clientId: string;
  line: string;
  placedAt: string;
  readAt: string | null;
  result: SensitivityResult | null;
}

/** What a bench sees of a client who is in the studio today. */
export interface BenchClientView {
  id: string;
  number: number;
  /** First name and initial, or "client 0192". */
  name: string;
  nextTime: string | null;
  hairLength: HairLength | null;
  hairDensity: HairDensity | null;
}

export interface ClientView {
  id: string;
  number: number;
  name: string | null;
  contact: string | null;
  notes: string | null;
  nextTime: string | null;
  hairLength: HairLength | null;
  hairDensity: HairDensity | null;
  sixteenOrOlder: boolean | null;
  retiredAt: string | null;
  forgottenAt: string | null;
  /** Stylists see those of their own clients only. */
  sensitivityTests?: SensitivityTestView[];
}

/** The answer to a new client; names are not kept with answers, so that they can be erased. */
export interface NewClient {
  id: string;
  number: number;
  label: string;
}

export interface ClientBowlPour {
  productId: string;
  name: string;
  side: string | null;
  quantity: string;
  unit: StockUnit;
  grams: string;
}

/** A bowl of an earlier visit, to do the same again. */
export interface ClientBowlView {
  id: string;
  visitId: string;
  visitStartedAt: string;
  purpose: string;
  state: string;
  formulaId: string | null;
  plan: Record<string, unknown> | null;
  lastPourAt: string | null;
  mixed: Q<'g'>;
  /** What went onto the head. */
  applied: Q<'g'>;
  wasted: Q<'g'>;
  /** True where what was left was not weighed. */
  estimated: boolean;
  pours: ClientBowlPour[];
}

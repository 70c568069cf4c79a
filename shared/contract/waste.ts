/** What was left over, and the size bowls should have, as they travel. Decimals are text. */
import type { HairDensity, HairLength } from './clients.js';
import type { Q } from './quantity.js';

export type WasteKey = 'person' | 'service' | 'purpose' | 'product' | 'month' | 'hair';

/** Left over of one group. Sums and share are of weighed bowls that the visit bears. */
export interface WasteRowView {
  key: string;
  label: string;
  /** Bowls in the share. */
  bowls: number;
  /** Beside it: settled without weighing. */
  estimatedBowls: number;
  /** Beside it: spilled, mixed wrong, or borne by the studio. */
  remadeBowls: number;
  /** Second mixes of one purpose in a visit. */
  ranOut: number;
  mixed: Q<'g'>;
  applied: Q<'g'>;
  wasted: Q<'g'>;
  /** To the bin of the bowls that were remade. */
  remade: Q<'g'>;
  /** Wasted of mixed; null with nothing weighed. */
  share: string | null;
  /** 90 % interval; null under 5 bowls. */
  shareLow: string | null;
  shareHigh: string | null;
  /** Bowls not weighed of all but the remade. */
  notWeighedShare: string | null;
  /** Value of what was wasted, 6 decimals; managers and owners only. */
  value?: string;
}

export interface WasteView {
  from: string;
  to: string;
  rows: WasteRowView[];
}

/** The size that a bowl should have. */
export interface SizeView {
  purpose: string;
  serviceId: string | null;
  hairLength: HairLength | null;
  hairDensity: HairDensity | null;
  /** The share of heads that it should be enough for. */
  point: string;
  /** Null where even the widest group has fewer than 8 heads. */
  size: Q<'g'> | null;
  /** Heads like this one. */
  heads: number;
  /** Heads of the wider group that helped. */
  widerHeads: number;
  pooled: boolean;
  /** True where too many bowls ran out to tell: at least so much. */
  lowerBound: boolean;
}

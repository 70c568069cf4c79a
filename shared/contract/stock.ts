/** The shelf as it travels: arrivals, counts, corrections, movements, reports. Numbers are text. */
import type { StockUnit } from '../amount.js';
import type { Place } from '../moving/movement.js';
import type { ShelfFlag } from '../reordering.js';
import type { Q } from './quantity.js';

/** A product and one flag that this entry raised on it. */
export interface RaisedFlagView {
  productId: string;
  flag: ShelfFlag;
}

/** Part of every answer to an entry in the ledger. */
export interface EntryView {
  /** Id of the journal; its reversal and the movements are found by it. */
  id: string;
  happenedAt: string;
  flags: RaisedFlagView[];
  /** Said of the entry itself: late, after closing, clock. */
  marks: string[];
  /** Only in the answer to `?dry=true`. */
  dry?: boolean;
}

export interface ReceivedLotView {
  id: string;
  productId: string;
  quantity: string;
  unit: StockUnit;
  /** Six decimals. */
  cost: string;
  /** Where the price came from; `none` is no cost, which is not zero. */
  costFrom: 'given' | 'list price' | 'none';
  expiresOn: string | null;
  lotCode: string | null;
  /** What pours before it had used of it already. */
  givenBack: string;
}

/** Answer to an opening or a delivery. */
export interface ArrivalAnswer extends EntryView {
  lots: ReceivedLotView[];
  /** Goods and what was shared over them. */
  cost: string;
}

export interface DeliveryLineView {
  productId: string;
  lotId: string;
  packLabel: string | null;
  packs: number | null;
  freePacks: number | null;
  packPrice: string | null;
  quantity: string;
  unit: StockUnit;
  cost: string;
  expiresOn: string | null;
}

export interface DeliveryView {
  id: string;
  supplierId: string | null;
  orderId: string | null;
  orderedOn: string | null;
  deliveredOn: string;
  invoiceNo: string | null;
  freight: string;
  otherCost: string;
  discount: string;
  nonRecoverableTax: string;
  /** Reversed as a whole. */
  reversed: boolean;
  lines: DeliveryLineView[];
}

/** What is left of one lot. */
export interface LotView {
  id: string;
  productId: string;
  name: string;
  source: 'opening' | 'delivery' | 'found' | 'shortfall' | 'transfer';
  receivedOn: string;
  expiresOn: string | null;
  lotCode: string | null;
  /** As it came. */
  received: string;
  onHand: string;
  unit: StockUnit;
  /** Managers and owners only; under `average` lots have no value of their own. */
  cost?: string;
  value?: string | null;
  expired: boolean;
}

export interface CountLineView {
  productId: string;
  counted: Q;
  /** What the book said at that instant. */
  book: Q;
  difference: string;
  /** Value of the difference; below the book it is negative. */
  value: string;
  /** False where a later count stood already: then nothing changed. */
  stands: boolean;
}

export interface CountWarning {
  productId: string;
  code: 'counted_since' | 'far_from_book' | 'fuller_than_full';
  text: string;
}

export interface CountAnswer extends EntryView {
  countedAt: string;
  lines: CountLineView[];
  warnings: CountWarning[];
}

export interface TakenLineView {
  productId: string;
  quantity: string;
  unit: StockUnit;
  /** True where 1 ml was counted as 1 g. */
  assumedDensity: boolean;
  /** Managers and owners only. */
  value?: string;
  lots: { lotId: string; quantity: string; value?: string }[];
}

/** Answer to a discard, a use, a supplier return. */
export interface TakenAnswer extends EntryView {
  lines: TakenLineView[];
}

export interface CostCorrectionAnswer extends EntryView {
  lines: {
    productId: string;
    lotId: string | null;
    unitCost: string;
    /** By how much the value on the shelf changed. */
    shelf: string;
    /** What was used at no cost and has its value now. */
    used: string;
  }[];
  /** Visits whose product has a cost by it: their price sheets get a successor. */
  visitIds: string[];
}

export interface MovementView {
  /** Order of recording. */
  seq: string;
  id: string;
  journalId: string;
  journalKind: string;
  productId: string;
  lotId: string;
  from: Place;
  to: Place;
  fromBowlId: string | null;
  toBowlId: string | null;
  visitId: string | null;
  quantity: string;
  unit: StockUnit;
  /** Managers and owners only. */
  value?: string;
  reason: string | null;
  happenedAt: string;
  recordedAt: string;
  personId: string | null;
  benchId: string | null;
  reversesId: string | null;
}

export interface ReversalAnswer extends EntryView {
  reverses: string;
  /** What was undone. */
  kind: string;
  movements: MovementView[];
  /** Visits that it booked against: their price sheets get a successor. */
  visitIds: string[];
}

export interface ShelfItemView {
  productId: string;
  name: string;
  kind: string;
  line: string | null;
  strength: string | null;
  onHand: Q;
  /** Unopened packs of the usual size, and whether one is started; null without a pack. */
  sealed: number | null;
  started: number | null;
  /** What the started pack holds. */
  startedHolds: Q | null;
  /** Managers and owners only, six decimals. */
  value?: string;
  reorderPoint: Q | null;
  /** Whole days that it lasts at the recent use. */
  daysOfCover?: string;
  nextExpiry: string | null;
  lastCountedAt: string | null;
  /** Something of it arrived, or it was counted; else nobody has said what is there. */
  entered: boolean;
  /** Poured before anybody entered it; its name is still to be given. */
  namedLater: boolean;
  flags: ShelfFlag[];
}

/** Developers of one strength together. */
export interface ShelfStrengthView {
  strength: string;
  onHand: Q;
  value?: string;
  products: { productId: string; onHand: Q }[];
}

export interface UsageRowView {
  productId?: string;
  name?: string;
  strength?: string | null;
  month?: string;
  quantity: string;
  unit: StockUnit;
  /** Managers and owners only. */
  value?: string;
}

/** What the shelf was worth at the end of a past day, by when things happened. */
export interface ShelfValueView {
  at: string;
  value: string;
  currency: string;
  rows: { productId: string; name: string; onHand: Q; value: string }[];
}

export interface AuditCheckView {
  name: string;
  ok: boolean;
  /** How many rows it looked at. */
  rows: number;
  firstBreach?: string;
}

export interface AuditView {
  ok: boolean;
  checks: AuditCheckView[];
  /** The last movement that was looked at; give it as `since` next time. */
  seq: string;
}

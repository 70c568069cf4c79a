/** What a movement says: one quantity and its value leave one place and arrive in another. */
import type { Decimal } from '../decimal.js';

/** Where a quantity can be. Everything outside the studio's four walls is a place too. */
export type Place = 'supplier' | 'shelf' | 'bowl' | 'head' | 'bin' | 'correction' | 'other studio';

/** Why a movement was booked, where its journal's kind does not say it already. */
export type Reason =
  | 'shortfall' // poured, but not in the book
  | 'shortfall given back' // the bottle was there, only not booked yet
  | 'already counted' // happened before a count that stands
  | 'counted' // what a count found more or less
  | 'left over'
  | 'spilled'
  | 'mixed wrong'
  | 'stopped'
  | 'expired'
  | 'damaged'
  | 'strand test'
  | 'new cost';

/** One ingredient's line in a bowl: the finest address inside the place `bowl`. */
export interface PourAddress {
  readonly bowlId: string;
  readonly pourId: string;
}

/** A movement before it is recorded; quantity in the product's stock unit, value in currency. */
export interface MovementDraft {
  readonly productId: string;
  readonly lotId: string;
  readonly from: Place;
  readonly to: Place;
  readonly fromPour?: PourAddress;
  readonly toPour?: PourAddress;
  readonly quantity: Decimal;
  readonly value: Decimal;
  readonly reason?: Reason;
  /** Set when it books against another visit than its journal's (a cost filled in later). */
  readonly visitId?: string | null;
  /** Set when it happened at another time than its journal (a shortfall explained later). */
  readonly happened?: { readonly at: string; readonly on: string };
  /** The movement it takes back. */
  readonly reverses?: string;
}

/** How a lot came to be. */
export type LotSource = 'opening' | 'delivery' | 'found' | 'shortfall' | 'transfer';

/** A lot before it is recorded; `quantity` and `cost` are what it came with, and never change. */
export interface LotDraft {
  readonly id: string;
  readonly productId: string;
  readonly source: LotSource;
  readonly receivedOn: string;
  readonly expiresOn: string | null;
  readonly lotCode: string | null;
  readonly quantity: Decimal;
  readonly cost: Decimal;
}

/** What a posting tells the person, product by product. */
export type StockFlag = 'expired' | 'recount' | 'no_cost';

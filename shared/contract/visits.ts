/** Visits as they travel: who sat in the chair, for what, how it was closed. Decimals are text. */
import type { CautionView } from './bowls.js';

export type VisitKind = 'client' | 'redo' | 'model' | 'training' | 'test' | 'own staff';
export type PaidBy = 'card' | 'cash' | 'other';

export interface VisitServiceView {
  serviceId: string;
  name: string;
  /** As the menu had it when the visit began; the visit's own people, managers and owners only. */
  price?: string;
  handsOnMinutes: number;
  chairMinutes: number;
}

export interface VisitBowlView {
  id: string;
  purpose: string;
  state: 'planned' | 'open' | 'settled' | 'void';
  mark: string | null;
  /** True where what was left was not weighed. */
  estimated: boolean;
  /** True where something was poured after the visit was closed. */
  late: boolean;
}

export interface VisitMinutes {
  personId: string;
  minutes: number;
}

/** A share of the price, or an amount off it. */
export interface DiscountTerms {
  label: string;
  of: 'menu' | 'all';
  share?: string;
  amount?: string;
}

export interface PaymentTerms {
  method: PaidBy;
  amount: string;
}

export interface DepositTerms {
  label: string;
  amount: string;
}

export interface TipTerms {
  amount: string;
  method: PaidBy;
  personId: string | null;
}

/** What was agreed and paid at the closing. */
export interface VisitMoney {
  discount: DiscountTerms | null;
  payments: PaymentTerms[];
  deposits: DepositTerms[];
  tip: TipTerms | null;
}

export interface VisitView {
  id: string;
  kind: VisitKind;
  clientId: string | null;
  /** First name and initial at a bench, else the name; left out of answers that are kept. */
  client?: { number: number; name: string } | null;
  personId: string | null;
  redoOf: string | null;
  /** Visits that did this one again. */
  redoneBy: string[];
  startedAt: string;
  closedAt: string | null;
  services: VisitServiceView[];
  /** Hands-on minutes by person: as entered, else what the services take. */
  minutes: VisitMinutes[];
  chairMinutes: number;
  bowls: VisitBowlView[];
  /** The visit's own people, managers and owners only. */
  money?: VisitMoney;
}

/** What the client pays; amounts in the currency's minor digits. */
export interface VisitPrice {
  currency: string;
  net: string;
  tax: string;
  gross: string;
  /** Gross less what was paid before. */
  due: string;
  cashRounding: string;
  tip: string;
  /** "To the till: 148.00". */
  toTheTill: string;
}

/** Answer to a closing. */
export interface ClosedVisitView extends VisitView {
  /** Bowls that were open and are counted as used up. */
  settledBowls: string[];
  /** What was booked as used: as sent, else the kits of the services. */
  uses: { productId: string; quantity: string; unit: string }[];
  /** Left out where the studio has no tax rule yet. */
  price?: VisitPrice;
  dry?: boolean;
}

/** What is asked before the first bowl of a visit. */
export type AskedQuestion =
  'scalpSound' | 'earlierReaction' | 'hennaOrMetal' | 'sixteenOrOlder' | 'sensitivityTest';

/** How a sensitivity test stands, as it is said at the chair. */
export type SensitivityWord = 'none' | 'under 48 h' | 'not read' | 'no reaction' | 'reaction';

/** What the answers of a visit call for; the answers themselves are not told at a bench. */
export interface VisitCautionsView {
  /** Questions that have an answer. */
  asked: AskedQuestion[];
  cautions: CautionView[];
}

/** Kept with the request for ever, so it says nothing of anybody's health. */
export interface VisitAnswered {
  id: string;
  visitId: string;
}

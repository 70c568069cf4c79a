/** Earnings as they travel: what price sheets add up to. Decimals are text. */
import type { SheetLedgerView } from './pricing.js';

export type EarningsKey = 'service' | 'person' | 'month';

/** Sums over final sheets of clients' visits; amounts in the currency's minor digits. */
export interface EarningsView {
  visits: number;
  /** Visits with a product that has no cost yet: they are not in `margin`. */
  noCost: number;
  gross: string;
  net: string;
  product: string;
  sundries: string;
  time: string;
  fee: string;
  commission: string;
  contribution: string;
  overhead: string;
  profit: string;
  /** Profit by net, of visits whose every product has a cost; null where there is none. */
  margin: string | null;
  /** Unrounded, 6 decimals, as the ledger has it. */
  ledger: SheetLedgerView;
}

/** Visits that did others again: what they cost, beside what the others earned. */
export interface RedoneView {
  visits: number;
  contribution: string;
  ledger: SheetLedgerView;
}

export interface EarningsRowView extends EarningsView {
  key: string;
  label: string;
  /** By service under the services of the first visit; never by person. */
  redone?: RedoneView;
}

export interface EarningsReportView {
  from: string;
  to: string;
  currency: string;
  rows: EarningsRowView[];
  totals: EarningsView;
  redone: RedoneView;
  /** Product that no client's visit has: ledger values, 6 decimals. */
  house: {
    bowls: number;
    /** Bowls without a visit, and those of models, training, tests, own staff, by kind. */
    rows: { kind: string; bowls: number; value: string }[];
    /** Used without a bowl and without a client. */
    uses: string;
    /** Off the shelf: expired, spilled, broken. */
    discards: string;
  };
  /** Visits that began in these days and have no final sheet yet; they are left out. */
  running: number;
}

/** What a person who rents a chair took of the studio's product in a month. */
export interface StatementView {
  personId: string;
  person: string;
  month: string;
  currency: string;
  /** A share of cost that comes on top of it. */
  markup: string;
  rows: {
    productId: string;
    product: string;
    quantity: string;
    unit: string;
    /** 6 decimals, as the ledger has it. */
    value: string;
    /** In the currency's minor digits. */
    charge: string;
  }[];
  value: string;
  charge: string;
  /** What the studio bears itself: spilled, mixed wrong. */
  notCharged: string;
  /** Bowls that are still open; they come with the month of their settlement. */
  openBowls: number;
}

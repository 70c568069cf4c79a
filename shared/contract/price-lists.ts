/** A price list of a supplier as it travels: what it would do, what it did. Decimals are text. */

export interface ChangedPriceView {
  packId: string;
  productId: string;
  product: string;
  pack: string;
  /** By the list in force; null where there is none. */
  before: string | null;
  after: string;
  /** A share of the price of before; null without one. */
  change: string | null;
}

export interface PairView<T> {
  before: T;
  after: T;
}

export interface PriceEffectView {
  currency: string;
  /** Visits of so many months until now stand for the volume. */
  months: number;
  prices: ChangedPriceView[];
  /** By services of a visit, the most money a month first. */
  services: {
    key: string;
    label: string;
    visits: number;
    visitsPerMonth: string;
    /** Product and sundries of a visit bought again: the mean. */
    product: PairView<string>;
    margin: PairView<string | null>;
    /** The margin that the prices below reach: as asked for, else that of before. */
    target: string | null;
    /** On the menu now, and what would reach the margin; null where no price does. */
    price: PairView<string | null> & { menu: string };
    perMonth: string;
  }[];
  perMonth: string;
}

export interface AcceptedPricesView {
  id: string;
  startsOn: string;
  prices: ChangedPriceView[];
  dry?: boolean;
}

/** What the packs of a product cost by the list, the newest first. */
export interface PriceHistoryView {
  rows: {
    packId: string;
    pack: string;
    price: string;
    /** Null for what was in force before anything was noted. */
    startsOn: string | null;
    supplierId: string | null;
  }[];
}

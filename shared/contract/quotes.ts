/** Quotes as they travel: a price range before the service. Decimals are text. */
import type { InThePriceItem } from './catalogue.js';
import type { OnTopSetting } from './pricing.js';
import type { HairDensity, HairLength } from './clients.js';

export interface QuotedServiceView {
  serviceId: string;
  name: string;
  /** As the menu has it, in the studio's price mode. */
  price: string;
  handsOnMinutes: number;
  chairMinutes: number;
  inThePrice: InThePriceItem[];
}

/** The 10, 50 and 90 % points of what like visits came to. */
export interface PointsView {
  low: string;
  likely: string;
  high: string;
}

export interface QuoteView {
  id: string;
  madeAt: string;
  /** The last day that it holds. */
  validUntil: string;
  /** True once that day is over. */
  expired: boolean;
  clientId: string | null;
  hairLength: HairLength | null;
  hairDensity: HairDensity | null;
  currency: string;
  services: QuotedServiceView[];
  /**
   * Where the points come from: visits with the same services and this kind of hair, visits with
   * the same services, or the menu alone.
   */
  basis: 'services and hair' | 'services' | 'menu';
  /** Like visits of the last 24 months. */
  visits: number;
  /** False under 9 visits: the points are then the least and the most there was. */
  enough: boolean;
  menu: { net: string; tax: string; gross: string };
  /**
   * Gross, at today's prices, rounded up to the price step; the menu's price where there is no
   * like visit.
   */
  price: PointsView;
  /** Mixed in the bowls of the visit; null where there is no like visit. */
  grams: PointsView | null;
  bowls: PointsView | null;
  /** In the chair. */
  minutes: PointsView | null;
  handsOnMinutes: PointsView | null;
  /** Each of these visits beside what those before it would have had quoted. */
  held: {
    visits: number;
    /** Those at or under the 90 % point. */
    atOrUnder: number;
    /** Those from the 10 to the 90 % point; 80 % are expected. */
    inside: number;
  };
  /** How product beyond what is in the price is charged, kind by kind, in words. */
  onTop: string[];
  /** The same as rules; missing in quotes from before they were kept. */
  onTopRules?: OnTopSetting[];
  dry?: boolean;
}

/** What a client may see of a quote: no cost, no waste. */
export interface ClientQuoteView {
  currency: string;
  services: string[];
  /** In the chair, rounded up to 5. */
  minutes: { from: number; to: number };
  /** With tax. */
  price: { from: string; to: string };
  /** What is in the price, in words. */
  inThePrice: string[];
  /** "We ask you before going above €148.00." */
  promise: string;
  validUntil: string;
  expired: boolean;
}

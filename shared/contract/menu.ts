/** The menu as it travels: what a service is from which day on. Decimals are text. */
import type { InThePriceItem, KitItem } from './catalogue.js';
import type { OnTopSetting } from './pricing.js';

/** All that may differ from one version of a service to the next. */
export interface ServiceTermsView {
  /** In the studio's currency and price mode. */
  price: string;
  handsOnMinutes: number;
  chairMinutes: number;
  kit: KitItem[];
  inThePrice: InThePriceItem[];
  /** How product on top is charged in visits for it, in place of the studio's rule of that kind. */
  onTop: OnTopSetting[];
}

export interface MenuRowView extends ServiceTermsView {
  serviceId: string;
  name: string;
  /** The day since which it is so; null: from the beginning. */
  startsOn: string | null;
  /** What is planned next. */
  next: { startsOn: string; price: string } | null;
  /** What about it cannot work as it stands. */
  notes: { code: 'in_the_price_other_unit'; text: string }[];
}

export interface MenuView {
  on: string;
  currency: string;
  rows: MenuRowView[];
}

export interface ServiceVersionView extends ServiceTermsView {
  /** Null for what the service was from the beginning. */
  id: string | null;
  startsOn: string | null;
  state: 'over' | 'in force' | 'planned' | 'withdrawn';
  madeAt: string | null;
  madeBy: string | null;
  dry?: boolean;
}

export interface ServiceVersionsView {
  serviceId: string;
  name: string;
  currency: string;
  /** The one that starts last first. */
  rows: ServiceVersionView[];
}

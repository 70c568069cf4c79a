/** People, benches, tokens and the studio as they travel. Decimals are text. */
import type { SupplierPrices } from '../supplier-prices.js';
import type { PricingSettings } from './pricing.js';

export type RoleName = 'bench' | 'stylist' | 'manager' | 'owner';

export interface PersonView {
  id: string;
  name: string;
  role: RoleName;
  kind: 'employed' | 'rents';
  hasPin: boolean;
  /** Cost of an hour of hands-on time, in the studio's currency; owners only. */
  hourRate?: string | null;
  /** Owners only. */
  commission?: { share: string; on: 'gross' | 'net' | 'net_less_product' } | null;
  retiredAt: string | null;
}

export interface BenchView {
  id: string;
  name: string;
  retiredAt: string | null;
}

export interface TokenView {
  id: string;
  name: string;
  role: RoleName;
  benchId: string | null;
  madeAt: string;
  usedAt: string | null;
  revokedAt: string | null;
}

/** A token when it is made; its text is shown this once. */
export interface NewTokenView extends TokenView {
  token: string;
}

export interface SessionView {
  studio: { id: string; name: string; currency: string; timeZone: string; demo: boolean };
  role: RoleName;
  person: { id: string; name: string } | null;
  bench: { id: string; name: string } | null;
  expiresAt: string | null;
}

/** Whether a first studio of one's own can be opened from here, and what it takes. */
export interface OpeningView {
  possible: boolean;
  /** On another device than the studio's computer: the code that the start of Bowlworth printed. */
  needsCode: boolean;
}

/** The studio's rules of price from a day on. */
export interface RulesVersionView {
  /** Null for the rules from the beginning. */
  id: string | null;
  startsOn: string | null;
  state: 'over' | 'in force' | 'planned' | 'withdrawn';
  rules: PricingSettings;
  madeAt: string | null;
  madeBy: string | null;
  dry?: boolean;
}

export interface StudioView {
  id: string;
  name: string;
  currency: string;
  timeZone: string;
  country: string | null;
  costingMethod: 'fifo' | 'average';
  demo: boolean;
  /** Days before this one are closed: later entries are shown as entered after closing. */
  lockedBefore: string | null;
  /** What typed supplier prices are; null while nobody has said so. */
  supplierPrices: SupplierPrices | null;
  /** Rules of price; managers and owners only. */
  pricing?: PricingSettings;
}

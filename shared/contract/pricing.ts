/** Prices as they travel: the studio's rules, a visit's sheet. Decimals are text. */
import type { ProductKind } from '../mix.js';
import type { LineKind } from '../pricing-lines.js';
import type { VisitKind } from './visits.js';

export type CommissionOn = 'gross' | 'net' | 'net_less_product';

/** How product of a kind beyond what is in the price is charged, always net. */
export interface OnTopSetting {
  kind: ProductKind;
  label?: string;
  by: 'bowl' | 'gram' | 'cost';
  /** Currency a bowl, currency a gram, or a markup on cost (a share), by `by`. */
  rate: string;
}

/** The studio's rules of price. */
export interface PricingSettings {
  priceMode: 'inclusive' | 'exclusive';
  /** An empty list where no tax is due; null while nobody has said so. */
  taxes: { label: string; rate: string }[] | null;
  taxBasis: 'invoice' | 'line';
  rounding: 'half_up' | 'half_even';
  /** Prices are multiples of it; null: the currency's smallest amount. */
  priceStep: string | null;
  overheadPerChairMinute: string;
  /** What an hour costs of people who have no rate of their own; null: nothing is said. */
  hourRate: string | null;
  /** Of people who have none of their own. */
  commission: { share: string; on: CommissionOn } | null;
  cardFee: { share: string; fixed: string; onTip: 'studio' | 'person' } | null;
  onTop: OnTopSetting[];
  measuredOn: 'applied' | 'mixed';
}

export interface SheetLineView {
  kind: LineKind;
  label: string;
  inputs: { name: string; value: string; unit: string }[];
  /** How the amount follows from the inputs, in words. */
  formula: string;
  amount: string;
  /** Product and sundries bought again today; null where no price is known. */
  replacementAmount?: string | null;
}

export interface SheetTotalsView {
  product: string;
  sundries: string;
  time: string;
  overhead: string;
  cost: string;
  net: string;
  tax: string;
  gross: string;
  fee: string;
  commission: string;
  contribution: string;
  profit: string;
  /** A share of net; null while a product has no cost, and where net is zero. */
  margin: string | null;
  /** Product that the studio bears itself. */
  notCharged: string;
  replacementProduct: string | null;
  due: string;
  tip: string;
  cashRounding: string;
  toTheTill: string;
}

/** What the ledger has of a visit, unrounded, 6 decimals: all its value to head and bin. */
export interface SheetLedgerView {
  /** Of product, as far as the visit bears it. */
  product: string;
  /** The part of it that was left over and went to the bin. */
  leftOver: string;
  sundries: string;
  /** What the studio bears itself. */
  notCharged: string;
}

/** The arithmetic of a sheet; what is kept of a final one. */
export interface SheetView {
  currency: string;
  ledger: SheetLedgerView;
  lines: SheetLineView[];
  totals: SheetTotalsView;
  /** Products without a cost: no margin is shown until it is filled in. */
  noCost: { productId: string | null; label: string }[];
  notes: { code: string; text: string }[];
}

/** A price that reaches a target, with the other two measures beside it. */
export interface TargetView {
  /** As the menu says it: gross or net, by the studio's price mode. */
  price: string;
  net: string;
  tax: string;
  gross: string;
  contribution: string;
  profit: string;
  margin: string | null;
  contributionPerHour: string | null;
  productMarkup: string | null;
}

export interface PriceSheetView extends SheetView {
  /** Null while it is running. */
  id: string | null;
  visitId: string;
  visitKind: VisitKind;
  state: 'running' | 'final';
  version: number | null;
  /** The final sheet that this one takes the place of. */
  replaces?: string;
  madeAt: string | null;
  target?: TargetView;
  /** What doing it again cost, under the contribution of the first visit. */
  redone?: { visits: { visitId: string; contribution: string }[]; contributionAfter: string };
}

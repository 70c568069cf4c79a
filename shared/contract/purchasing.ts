/** Purchasing as it travels: demand, forecasts, reorder points, order plans, orders. */
import type { StockUnit } from '../amount.js';
import type { Q } from './quantity.js';

/** A probability, and the use that is not exceeded with it. */
export interface QuantileView {
  p: string;
  quantity: string;
}

export interface ForecastMonthView {
  month: string;
  /** True for the month that today lies in: the forecast is of the whole of it. */
  running: boolean;
  mean: string;
  /** Part of the mean that counts say nobody enters. */
  notEntered: string;
  /** Booked visits that use it, and what those that are kept use; missing without a diary. */
  booked?: { visits: string; use: string };
  /** 80 of 100 months end between these. */
  low80: string;
  high80: string;
  low95: string;
  high95: string;
  quantiles: QuantileView[];
}

/** Error of the method beside the naive one over the same past months, in the stock unit. */
export interface BacktestView {
  /** `mean`: absolute miss; `root`: root of the mean square, for use that comes and goes. */
  kind: 'mean' | 'root';
  error: string;
  naive: string;
  forecasts: number;
}

export interface ForecastView {
  /** Missing in a forecast by strength. */
  productId?: string;
  name: string;
  kind: string;
  strength: string | null;
  unit: StockUnit;
  method: 'combination' | 'intermittent' | 'cold start' | 'no use';
  /** How it is used: smooth, erratic, intermittent, lumpy. */
  demandClass: string;
  monthsUsed: number;
  usedThisMonth: string;
  months: ForecastMonthView[];
  backtest: BacktestView | null;
  /** All of it in words. */
  sentence: string;
  history: { month: string; quantity: string }[];
}

export interface ForecastsView {
  today: string;
  items: ForecastView[];
}

export interface DemandRowView {
  productId?: string;
  strength?: string;
  /** A day, the Monday of a week, or a month. */
  period: string;
  quantity: Q;
}

export interface ReorderPointView {
  productId: string;
  name: string;
  /** What it rests on: typed on the product, keep n sealed, demand, or nothing known. */
  rule: 'typed' | 'keep sealed' | 'forecast' | 'none';
  point: Q | null;
  upTo: Q | null;
  madeAt: string | null;
  basis: {
    serviceLevel: string;
    leadTimeDays: string;
    leadTimeFrom: 'deliveries' | 'declared' | 'usual';
    receipts: number;
    reviewDays: number;
    /** Lead time and review together. */
    days: string;
    meanUse: string;
    safetyStock: string;
  } | null;
  sentence: string;
}

export type OrderState = 'sent' | 'partly received' | 'received' | 'cancelled';

export interface OrderLineView {
  productId: string;
  name: string;
  packLabel: string;
  packQuantity: Q;
  /** The supplier's number for it. */
  orderCode: string | null;
  packs: number;
  packPrice: string | null;
  quantity: Q;
  received: Q;
  /** Still to come; nothing of a cancelled line. */
  awaited: Q;
}

export interface OrderView {
  id: string;
  /** The slip's number. */
  number: string;
  supplierId: string | null;
  supplier: string | null;
  state: OrderState;
  orderedOn: string;
  note: string | null;
  lines: OrderLineView[];
  /** Prices of the lines added up; null while one has none. */
  goods: string | null;
  /** By the supplier's terms. */
  freight: string;
  currency: string;
  deliveries: string[];
  cancelledAt: string | null;
  dry?: boolean;
}

export interface PlanLineView {
  productId: string;
  name: string;
  supplierId: string | null;
  orderDay: string;
  packLabel: string;
  packs: number;
  packPrice: string | null;
  cost: string;
  quantity: Q;
  /** Chance of running out before what is ordered on the next order day is there. */
  shortRisk: string;
  /** Why this many. */
  why: string;
  onePackFewer: { shortRisk: string; words: string };
}

export interface PlanOrderView {
  supplierId: string | null;
  supplier: string | null;
  orderDay: string;
  goods: string;
  freight: string;
  /** About the minimum order and free freight; empty where there is nothing to say. */
  words: string;
}

export interface PlanShortView {
  productId: string;
  name: string;
  missing: Q;
  shortRisk: string;
  words: string;
}

export interface PlanColumnView {
  /** How sure it is, in words. */
  words: string;
  goods: string;
  freight: string;
  total: string;
  orders: PlanOrderView[];
  lines: PlanLineView[];
  /** What remains short, the likeliest first. */
  short: PlanShortView[];
  /** At most so much above the least money there can be, as a share; and how long it took. */
  proof: { gap: string; seconds: string };
}

export interface OrderPlanView {
  today: string;
  orderDays: number;
  currency: string;
  budget: string | null;
  bare: PlanColumnView;
  comfortable: PlanColumnView;
  difference: { cost: string; words: string };
  /** Products that could not be planned, and other things to know. */
  remarks: { productId: string | null; words: string }[];
}

export interface OrderTermsView {
  productId: string;
  /** Most packs that there is room for. */
  mostPacks: number | null;
  priceBreaks: { packLabel: string; fromPacks: number; packPrice: string }[];
}

/** Days on which a person says there was none of a product; both ends count. */
export interface OutOfStockView {
  id: string;
  productId: string;
  name: string;
  from: string;
  to: string;
}

export interface ReplacementView {
  productId: string;
  name: string;
  replacesId: string;
  replaces: string;
  /** So much of this one is used where one of the old one was. */
  factor: string;
}

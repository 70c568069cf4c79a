/** When to order again: a plain reorder point, and the flags that a product raises on the shelf. */
import { decimal, larger, zero, type Decimal } from './decimal.js';
import { isExpired, type LotBalance } from './costing.js';

/** Flags of a product, in the order in which they are shown. */
export const shelfFlags = ['reorder', 'recount', 'expiring', 'expired', 'out', 'no_cost'] as const;
export type ShelfFlag = (typeof shelfFlags)[number];

/** What a reorder point is worked out from; quantities in the product's stock unit. */
export interface ReorderRule {
  /** Typed on the product: it stands. */
  readonly point?: Decimal | null;
  /** Sealed packs to keep, and what one holds. */
  readonly keepSealed?: Decimal | null;
  readonly packQuantity?: Decimal | null;
  /** Worked out from demand over lead time and review; before the plain rule. */
  readonly learned?: Decimal | null;
  /** Net use of the last `days` days. */
  readonly use?: { readonly quantity: Decimal; readonly days: Decimal };
  readonly leadTimeDays?: Decimal | null;
  readonly reviewDays?: Decimal | null;
}

/** Lead time where the product and its supplier name none. Common practice, no source. */
export const usualLeadTime_days = decimal('7');
/** An order is thought about once a week. Common practice, no source. */
export const usualReview_days = decimal('7');
/** Safety: this share of the use expected until the next delivery. Common practice, no source. */
export const safetyShare = decimal('0.5');
/** A lot is `expiring` from this many days before its last good day on. */
export const expiringWithin_days = 30;

/** Use of one day: quantity / days; zero without either. */
export function usePerDay(use: ReorderRule['use']): Decimal {
  if (!use || use.days.isZero()) return zero;
  return larger(zero, use.quantity).dividedBy(use.days);
}

/**
 * The reorder point, unrounded, in the stock unit; null where nothing is known. Typed: that one.
 * Sealed packs to keep: their content. Learned from demand: that one. Else use per day x (lead
 * time + review) x 1.5: what is used until a delivery ordered at the next review arrives, and
 * half of it as safety.
 * Example: 600 g in 60 days, lead time 4, review 7 -> 10 x 11 x 1.5 = 165 g.
 */
export function reorderPoint(rule: ReorderRule): Decimal | null {
  if (rule.point) return rule.point;
  if (rule.keepSealed && rule.packQuantity) return rule.keepSealed.times(rule.packQuantity);
  if (rule.learned) return rule.learned;
  const perDay = usePerDay(rule.use);
  if (perDay.isZero()) return null;
  const days = (rule.leadTimeDays ?? usualLeadTime_days).plus(rule.reviewDays ?? usualReview_days);
  return perDay.times(days).times(safetyShare.plus(1));
}

/** Days that what is on hand lasts at the recent use, unrounded; null without use. */
export function daysOfCover(onHand: Decimal, use: ReorderRule['use']): Decimal | null {
  const perDay = usePerDay(use);
  return perDay.isZero() ? null : larger(zero, onHand).dividedBy(perDay);
}

/** What the shelf knows of a product at one moment. */
export interface ShelfState {
  readonly onHand: Decimal;
  readonly onOrder: Decimal;
  readonly reorderPoint: Decimal | null;
  readonly lots: readonly Pick<LotBalance, 'quantity' | 'expiresOn'>[];
  /** True while a pour went beyond the book and no count has closed it. */
  readonly recount: boolean;
  readonly noCost: boolean;
  /** The studio day, and the day 30 days on, both YYYY-MM-DD. */
  readonly day: string;
  readonly expiringUntil: string;
}

/**
 * Flags of a product: `reorder` when on hand + on order is at or below the reorder point, `out`
 * with nothing on hand, `expired` and `expiring` by lots that still hold something, `recount`
 * and `no_cost` as told.
 */
export function flagsOf(state: ShelfState): ShelfFlag[] {
  const { onHand, onOrder, day, expiringUntil } = state;
  const held = state.lots.filter((lot) => lot.quantity.greaterThan(zero));
  const position = onHand.plus(onOrder);
  const raised: Record<ShelfFlag, boolean> = {
    reorder: state.reorderPoint?.greaterThanOrEqualTo(position) ?? false,
    recount: state.recount,
    expiring: held.some(
      (lot) => !isExpired(lot, day) && lot.expiresOn !== null && lot.expiresOn <= expiringUntil,
    ),
    expired: held.some((lot) => isExpired(lot, day)),
    out: !onHand.greaterThan(zero),
    no_cost: state.noCost,
  };
  return shelfFlags.filter((flag) => raised[flag]);
}

/** Flags that were not there before: what a pour, a count or a delivery raised. */
export function flagsRaised(
  before: readonly ShelfFlag[],
  after: readonly ShelfFlag[],
): ShelfFlag[] {
  return after.filter((flag) => !before.includes(flag));
}

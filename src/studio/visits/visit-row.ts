/** A visit as it is read, with all that belongs to it. */
import type { InThePriceItem, KitItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import type {
  DepositTerms,
  DiscountTerms,
  PaidBy,
  PaymentTerms,
  VisitBowlView,
  VisitKind,
  VisitMinutes,
} from '../../../shared/contract/visits.js';

export interface VisitServiceRow {
  readonly serviceId: string;
  readonly name: string;
  /** Frozen when the visit began, as the rest of the version of then. */
  readonly price: string;
  readonly handsOnMinutes: number;
  readonly chairMinutes: number;
  readonly kit: readonly KitItem[];
  readonly inThePrice: readonly InThePriceItem[];
  readonly onTop: readonly OnTopSetting[];
}

export interface VisitBowlRow extends VisitBowlView {
  /** The last thing that happened to it before its settlement. */
  readonly lastAt: string | null;
  /** Who sized, mixed, applied it. */
  readonly hands: readonly string[];
}

export interface VisitRow {
  readonly id: string;
  readonly client_id: string | null;
  readonly person_id: string | null;
  readonly kind: VisitKind;
  readonly redo_of: string | null;
  readonly started_at: string;
  readonly closed_at: string | null;
  readonly chair_minutes: number | null;
  readonly discount: DiscountTerms | null;
  readonly payments: PaymentTerms[];
  readonly deposits: DepositTerms[];
  readonly tip: string | null;
  readonly tip_method: PaidBy | null;
  readonly tip_person_id: string | null;
  /** The studio's rules and rates at the closing, as the capability that prices wrote them. */
  readonly terms: unknown;
  readonly client: { number: number; name: string | null } | null;
  /** It began on the studio's day of now. */
  readonly today: boolean;
  readonly services: readonly VisitServiceRow[];
  readonly minutes: VisitMinutes[];
  readonly bowls: readonly VisitBowlRow[];
  readonly redone_by: string[];
}

/** What happens in Saltmarsh Row, one thing after the other, as it could be sent to the service. */
import type { StockUnit } from '../shared/amount.js';
import type { LeftoverReason } from '../src/studio/bowls/bowl-state.js';
import type { DemoVariant } from './catalogue.js';

export interface Grams {
  readonly quantity: string;
  readonly unit: 'g';
}

export interface BowlBody {
  readonly id: string;
  readonly visitId: string;
  readonly purpose: string;
  readonly contact: 'scalp' | 'off-scalp';
  readonly plan: Readonly<Record<string, unknown>>;
  readonly vesselId: string;
  readonly mark: string;
  readonly plannedAt: string;
  readonly sizedBy: string;
  readonly mixedBy: string;
  readonly appliedBy: string;
}

export interface PourBody {
  readonly id: string;
  readonly productId: string;
  readonly quantity: string;
  readonly unit: StockUnit;
  readonly pouredAt: string;
  readonly estimated?: boolean;
  readonly scale?: { readonly interval: string; readonly stable: boolean; readonly source: string };
}

export interface WeighingBody {
  readonly id: string;
  readonly net: Grams;
  readonly at: string;
}

export interface SettlementBody {
  readonly id: string;
  readonly settledAt: string;
  readonly leftover?: Grams;
  readonly leftoverShare?: string;
  readonly why?: LeftoverReason;
}

/** A whole bowl, as a bench sends it. */
export interface RecordedBody {
  readonly bowl: BowlBody;
  readonly pours: readonly PourBody[];
  readonly weighings: readonly WeighingBody[];
  readonly settlement: SettlementBody;
}

export interface TakenLine {
  readonly productId: string;
  readonly quantity: string;
  readonly unit: StockUnit;
}

export interface DeliveryBody {
  readonly id: string;
  readonly supplierId: string;
  readonly orderedOn: string;
  readonly deliveredOn: string;
  readonly invoiceNo: string;
  readonly freight: string;
  readonly discount?: string;
  readonly lines: readonly {
    readonly productId: string;
    readonly packs: number;
    readonly freePacks?: number;
    readonly packLabel: string;
    readonly packPrice: string;
    readonly expiresOn?: string;
    readonly lotCode?: string;
  }[];
}

/** Whose hands wrote it down, and when. */
interface Written {
  readonly at: string;
  readonly personId: string;
}

export interface VisitBegins extends Written {
  readonly what: 'a visit begins';
  readonly visit: {
    readonly id: string;
    readonly clientId: string;
    readonly personId: string;
    readonly startedAt: string;
    readonly kind: 'client' | 'redo';
    readonly redoOf?: string;
    readonly services: readonly { readonly serviceId: string; readonly price: string }[];
  };
}

export interface VisitCloses extends Written {
  readonly what: 'a visit closes';
  readonly visitId: string;
  readonly chairMinutes: number;
  readonly minutes: readonly { readonly personId: string; readonly minutes: number }[];
  readonly payments: readonly { readonly method: 'card' | 'cash'; readonly amount: string }[];
  readonly tip: { readonly amount: string; readonly method: 'card' | 'cash' } | null;
  readonly uses: readonly TakenLine[];
  /** Of the journal of what was used. */
  readonly useId: string;
}

export interface BowlIsMixed extends Written {
  readonly what: 'a bowl is mixed';
  readonly body: RecordedBody;
  readonly variant: DemoVariant;
}

export interface DeliveryArrives extends Written {
  readonly what: 'a delivery arrives';
  readonly body: DeliveryBody;
}

export interface LotIsThrownAway extends Written {
  readonly what: 'a lot is thrown away';
  readonly id: string;
  readonly why: 'expired' | 'damaged';
  readonly lotId: string;
  readonly line: TakenLine;
}

/** What is decided in memory, many at a time. */
export type Swift = VisitBegins | VisitCloses | BowlIsMixed | DeliveryArrives | LotIsThrownAway;

export interface ShelfIsOpened extends Written {
  readonly what: 'the shelf is opened';
  readonly id: string;
  readonly lines: readonly {
    readonly productId: string;
    readonly packs: number;
    readonly cost: string;
    readonly expiresOn?: string;
  }[];
}

export interface ShelfIsCounted extends Written {
  readonly what: 'the shelf is counted';
  readonly id: string;
  readonly lines: readonly {
    readonly productId: string;
    readonly counted: { readonly quantity: string; readonly unit: StockUnit };
  }[];
}

/** Written down days after it was mixed. */
export interface BowlComesLate extends Written {
  readonly what: 'a bowl comes late';
  readonly body: RecordedBody;
}

/** Booked days after it arrived. */
export interface DeliveryComesLate extends Written {
  readonly what: 'a delivery comes late';
  readonly body: DeliveryBody;
}

/** The leftover was read wrongly: undone, and settled anew. */
export interface SettlementIsMended extends Written {
  readonly what: 'a settlement is mended';
  readonly bowlId: string;
  readonly anew: SettlementBody;
}

export interface PourWasAnother extends Written {
  readonly what: 'a pour was another product';
  readonly id: string;
  readonly bowlId: string;
  readonly pourId: string;
  readonly productId: string;
}

/** What reads the past, and goes through its service by itself. */
export type Slow =
  | ShelfIsOpened
  | ShelfIsCounted
  | BowlComesLate
  | DeliveryComesLate
  | SettlementIsMended
  | PourWasAnother;

export type Happening = Swift | Slow;

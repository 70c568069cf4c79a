/** What the ledger has recorded, as the steps after it read it. */
import type { Decimal } from '../../../shared/decimal.js';
import type { LotSource } from '../../../shared/moving/movement.js';
import type { RecordedMovement } from '../../../shared/moving/reversing.js';
import type { openShortfalls } from '../../../shared/moving/shortfalls.js';
import type { Transaction } from '../../platform/database/transaction.js';

/** One pour's part in a bowl, as the ledger holds it now. */
export interface PourHolding {
  readonly bowlId: string;
  readonly pourId: string;
  readonly productId: string;
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** A journal as it was recorded. */
export interface RecordedJournal {
  readonly id: string;
  readonly kind: string;
  readonly happenedAt: string;
  readonly visitId: string | null;
  readonly bowlId: string | null;
  readonly reversesId: string | null;
  readonly reversedBy: string | null;
  readonly movements: readonly RecordedMovement[];
  /** Products that it counted. */
  readonly counted: readonly string[];
}

/** A lot: what it came with, and what of it is on the shelf now. */
export interface LotState {
  readonly id: string;
  readonly productId: string;
  readonly source: LotSource;
  readonly receivedOn: string;
  readonly expiresOn: string | null;
  readonly quantity: Decimal;
  readonly cost: Decimal;
  readonly heldQuantity: Decimal;
  readonly heldValue: Decimal;
}

/** What a reversal asks the ledger for. */
export interface RecordedLedger {
  lots(tx: Transaction, lotIds: readonly string[]): Promise<LotState[]>;
  heldIn(tx: Transaction, bowlIds: readonly string[]): Promise<PourHolding[]>;
  productsOf(journal: RecordedJournal): string[];
  shortfalls(
    tx: Transaction,
    productId: string,
    since: string | null,
    without: readonly string[],
  ): Promise<ReturnType<typeof openShortfalls>>;
}

/** Wrong entries undone: the whole journal, once; bowls are undone through their own call. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { ReversalAnswer } from '../../../shared/contract/stock.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { entryView, type StockActing } from './entries.js';
import { LedgerService, type RecordedJournal } from './ledger.service.js';
import {
  READ_BOOKED_BY,
  READ_JOURNAL_ID,
  READ_MOVEMENTS_OF,
  READ_TOUCHED,
} from './movements.queries.js';
import { bowlsOf } from './reversing-steps.js';
import { StockFlagsService } from './stock-flags.service.js';
import type { ReversalRequest } from './stock.requests.js';
import { movementView, type MovementRow } from './stock.views.js';

const bowlKinds = new Set(['pour', 'scooped back', 'division', 'weighing', 'settlement']);

/** Undone only while nothing of it was used; what to do instead. */
const whileUntouched: Readonly<Record<string, string>> = {
  delivery: 'Send goods back as a supplier return, or book a cost correction.',
  opening: 'Count the shelf instead, or book a cost correction.',
  'cost correction': 'Book another cost correction.',
};

@Injectable()
export class ReversalsService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /**
   * Undoes an entry, named by its id or by one of its movements.
   * @throws Problem `not_found`, `undone_through_its_bowl`, `touched_since`,
   *   `reversed_already`, `reversal_is_final`, `reversal_below_zero`, `not_your_right`
   */
  async reverse(
    tx: Transaction,
    id: string,
    request: ReversalRequest,
    by: StockActing,
  ): Promise<ReversalAnswer> {
    const [row] = await tx.query<{ id: string | null }>(READ_JOURNAL_ID, [id]);
    if (!row?.id) throw new Problem('not_found', { what: 'entry or movement', id });
    const seen = await this.ledger.journal(tx, row.id);
    refuseBowls(seen);
    await this.refuseOthers(tx, seen, by);
    const [posting, original] = await Promise.all([
      this.ledger.hold(
        tx,
        { bowlIds: bowlsOf(seen.movements), productIds: this.ledger.productsOf(seen) },
        by.recordedAt,
      ),
      this.ledger.journal(tx, row.id),
    ]);
    if (original.reversesId === null && original.reversedBy === null) {
      await this.refuseTouched(tx, original, posting.stock.bind(posting));
    }
    const draft = await this.ledger.reverse(tx, posting, original, request.id ?? uuidv7());
    if (request.note !== undefined) Object.assign(draft, { note: request.note });
    this.ledger.append(tx, posting, by);
    const movements = await tx.query<MovementRow & Record<string, unknown>>(READ_MOVEMENTS_OF, [
      draft.id,
    ]);
    return {
      ...entryView(draft, this.stockFlags.raised(posting, by.recordedAt)),
      reverses: original.id,
      kind: original.kind,
      movements: movements.map((movement) => movementView(movement, by.money)),
      visitIds: [...new Set(movements.flatMap((movement) => movement.visit_id ?? []))],
    };
  }

  private async refuseTouched(
    tx: Transaction,
    journal: RecordedJournal,
    stockOf: (productId: string) => { readonly method: string },
  ): Promise<void> {
    const instead = whileUntouched[journal.kind];
    const first = journal.movements[0];
    if (instead === undefined || !first) return;
    const lots = [...new Set(journal.movements.map((movement) => movement.lotId))];
    const byProduct = stockOf(first.productId).method === 'average';
    const [row] = await tx.query<{ touched: boolean }>(READ_TOUCHED, [journal.id, lots, byProduct]);
    if (row?.touched) throw new Problem('touched_since', { kind: journal.kind, instead });
  }

  /** A stylist undoes what is their own, on the day on which it was entered. */
  private async refuseOthers(tx: Transaction, journal: RecordedJournal, by: StockActing) {
    if (!by.ownOnly) return;
    const [row] = await tx.query<{ person_id: string | null; today: boolean }>(READ_BOOKED_BY, [
      journal.id,
      by.recordedAt,
    ]);
    const own = row?.today && row.person_id !== null && row.person_id === by.personId;
    if (!own || journal.kind !== 'use') throw new Problem('not_your_right', { needs: 'a manager' });
  }
}

function refuseBowls(journal: RecordedJournal): void {
  if (!bowlKinds.has(journal.kind)) return;
  const bowlId = journal.bowlId ?? bowlsOf(journal.movements)[0] ?? '{id}';
  throw new Problem('undone_through_its_bowl', {
    bowlId,
    kind: journal.kind,
    call: `POST /bowls/${bowlId}/reversal`,
  });
}

/** Looking at bowls: one with all that was recorded of it, or many, newest first. */
import { Injectable } from '@nestjs/common';
import type { BowlView } from '../../../shared/contract/bowls.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Reader, Transaction } from '../../platform/database/transaction.js';
import { LedgerService } from '../stock/ledger.service.js';
import type { BowlInHand } from './bowl-in-hand.js';
import type { BowlRow } from './bowl-state.js';
import { readRows, takeInHand } from './bowl-store.js';
import { LIST_BOWLS } from './bowls.queries.js';
import type { BowlListRequest } from './bowls.requests.js';
import { bowlView } from './bowls.views.js';
import { bowlCautions } from './pour-answers.js';

@Injectable()
export class BowlReadingService {
  constructor(private readonly ledger: LedgerService) {}

  /** @throws Problem `not_found` */
  async inHand(tx: Reader, id: string): Promise<BowlInHand> {
    const bowl = (await takeInHand(tx, [id])).get(id);
    if (!bowl) throw new Problem('not_found', { what: 'bowl', id });
    return bowl;
  }

  /** One bowl with all that was recorded of it. @throws Problem `not_found` */
  async view(tx: Transaction, id: string): Promise<BowlView> {
    const [bowl, rows] = await Promise.all([this.inHand(tx, id), readRows(tx, [id])]);
    return this.viewOf(tx, bowl, rows[0] as BowlRow);
  }

  /** Bowls, newest first: one more than the limit, for the page to know of the next. */
  async list(tx: Transaction, request: BowlListRequest, after: readonly string[] | undefined) {
    const keys = await tx.query<{ id: string; recorded_at: string }>(LIST_BOWLS, [
      request.state ?? null,
      request.visitId ?? null,
      after?.[0] ?? null,
      after?.[1] ?? null,
      request.limit + 1,
    ]);
    const ids = keys.map((key) => key.id);
    const [bowls, rows] = await Promise.all([takeInHand(tx, ids), readRows(tx, ids)]);
    const views: { key: readonly string[]; view: BowlView }[] = [];
    for (const { id, recorded_at } of keys) {
      const bowl = bowls.get(id);
      const row = rows.find((each) => each.id === id);
      if (bowl && row) {
        views.push({ key: [recorded_at, id], view: await this.viewOf(tx, bowl, row) });
      }
    }
    return views;
  }

  private async viewOf(tx: Transaction, bowl: BowlInHand, row: BowlRow): Promise<BowlView> {
    if (bowl.head.stage !== 'open') return bowlView(bowl, [], row.noted);
    const ids = bowl.pours.map((pour) => pour.productId);
    const what = { productIds: [], alsoRead: ids };
    const posting = await this.ledger.hold(tx, what, bowl.head.plannedAt);
    return bowlView(bowl, bowlCautions(bowl, posting), row.noted);
  }
}

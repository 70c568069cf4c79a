/** Every posting goes through here: lock and read once, decide in memory, append once. */
import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { dayIn, monthOf } from '../../../shared/calendar.js';
import { decimal, fixed, smaller, zero, type Decimal } from '../../../shared/decimal.js';
import type { OpenShortfall } from '../../../shared/moving/stock.js';
import { shortfallOpen } from '../../../shared/moving/stock.js';
import type { LotSource } from '../../../shared/moving/movement.js';
import { onShelf, reverse, type RecordedMovement } from '../../../shared/moving/reversing.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import {
  APPEND,
  HOLD,
  READ_JOURNAL,
  READ_LOTS,
  READ_POUR_HOLDINGS,
  READ_PRODUCTS,
  READ_SHORTFALLS,
  READ_STUDIO,
} from './ledger.queries.js';
import { factsOf, stockOf, type ProductRow } from './product-facts.js';
import { Posting, type Entry, type JournalDraft, type StudioFacts } from './posting.js';
import { journalRows, recordedMovement, type RecordedMovementRow } from './posting-rows.js';

/** One pour's part in a bowl, as the ledger holds it now. */
export interface PourHolding {
  readonly bowlId: string;
  readonly pourId: string;
  readonly productId: string;
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** How far back use counts as recent for reorder points: three whole months and this one. */
const recentMonths = 3;

@Injectable()
export class LedgerService {
  /**
   * Locks bowls and products in the fixed order and reads what they hold. Unknown products are
   * left out; asking the posting for one says so.
   * @param today the instant now, RFC 3339 in UTC
   */
  async hold(
    tx: Transaction,
    what: { readonly bowlIds?: readonly string[]; readonly productIds: readonly string[] },
    today: string,
  ): Promise<Posting> {
    const productIds = [...new Set(what.productIds)];
    const since = monthsBefore(today, recentMonths);
    const [, studios, rows] = await Promise.all([
      tx.query(HOLD, [what.bowlIds ?? [], productIds]),
      tx.query<StudioFacts>(READ_STUDIO),
      tx.query<ProductRow>(READ_PRODUCTS, [productIds, since]),
    ]);
    const studio = studios[0];
    if (!studio) throw new Problem('not_signed_in', {});
    const facts = new Map(rows.map((row) => [row.id, factsOf(row)]));
    const stocks = new Map(
      await Promise.all(
        rows.map(async (row) => {
          const shortfalls = await this.shortfalls(tx, row);
          const lotId = row.shortfall_lot_id ?? uuidv7();
          return [row.id, stockOf(row, lotId, shortfalls)] as const;
        }),
      ),
    );
    const withoutLot = rows.filter((row) => row.shortfall_lot_id === null).map((row) => row.id);
    return new Posting(studio, facts, stocks, new Set(withoutLot));
  }

  /** Appends all journals of a posting; journals that move nothing are kept too. */
  async append(tx: Transaction, posting: Posting, entry: Entry): Promise<void> {
    if (posting.journals.length === 0) return;
    const rows = journalRows(posting, entry);
    const told = posting.changedStocks.map((stock) => ({
      product_id: stock.productId,
      shortfall_open: fixed(shortfallOpen(stock), 3),
      last_counted_at: stock.lastCountedAt,
    }));
    await tx.query(APPEND, [
      JSON.stringify(rows.journals),
      JSON.stringify(rows.lots),
      JSON.stringify(rows.movements),
      JSON.stringify(told),
    ]);
  }

  /** What the named bowls hold now, pour by pour and lot by lot; they are locked already. */
  async heldIn(tx: Transaction, bowlIds: readonly string[]): Promise<PourHolding[]> {
    const rows = await tx.query<PourHoldingRow>(READ_POUR_HOLDINGS, [bowlIds]);
    return rows.map((row) => ({
      bowlId: row.bowl_id,
      pourId: row.pour_id,
      productId: row.product_id,
      lotId: row.lot_id,
      quantity: decimal(row.quantity),
      value: decimal(row.value),
    }));
  }

  /** A recorded journal with its movements. @throws Problem `not_found` */
  async journal(tx: Transaction, journalId: string): Promise<RecordedJournal> {
    const [row] = await tx.query<JournalRow>(READ_JOURNAL, [journalId]);
    if (!row) throw new Problem('not_found', { what: 'entry', id: journalId });
    return {
      id: row.id,
      kind: row.kind,
      happenedAt: row.happened_at.toISOString(),
      visitId: row.visit_id,
      bowlId: row.bowl_id,
      reversesId: row.reverses_id,
      reversedBy: row.reversed_by,
      movements: row.movements.map(recordedMovement),
    };
  }

  /**
   * Adds the reversal of a whole journal to the posting, with the original's happened time. The
   * posting must hold the journal's bowls and products.
   * @throws Problem `reversed_already`, `reversal_is_final`, `reversal_below_zero`
   */
  async reverse(
    tx: Transaction,
    posting: Posting,
    original: RecordedJournal,
    id: string,
  ): Promise<JournalDraft> {
    if (original.reversesId !== null) {
      throw new Problem('reversal_is_final', { journalId: original.id });
    }
    if (original.reversedBy !== null) {
      throw new Problem('reversed_already', { journalId: original.id });
    }
    const lotIds = [...new Set(original.movements.map((movement) => movement.lotId))];
    const lots = new Map((await this.lots(tx, lotIds)).map((lot) => [lot.id, lot]));
    const held = await this.heldIn(tx, bowlsOf(original.movements));
    const movements = reverse(original.movements, (spot) => {
      if (spot.place === 'shelf') return lots.get(spot.lotId)?.heldQuantity ?? zero;
      if (spot.place !== 'bowl') return null;
      const part = held.find(
        (each) =>
          each.bowlId === spot.pour?.bowlId &&
          each.pourId === spot.pour.pourId &&
          each.lotId === spot.lotId,
      );
      return part?.quantity ?? zero;
    });
    const journal = posting.journal({
      id,
      kind: 'reversal',
      happenedAt: original.happenedAt,
      visitId: original.visitId,
      bowlId: original.bowlId,
      reversesId: original.id,
    });
    posting.book(journal, { movements });
    const happened = { at: journal.happenedAt, day: journal.happenedOn };
    for (const productId of new Set(movements.map((movement) => movement.productId))) {
      const own = [...lots.values()].filter((lot) => lot.productId === productId);
      const known = new Map(own.map((lot) => [lot.id, lot]));
      posting.book(journal, onShelf(posting.stock(productId), movements, known, happened));
    }
    return journal;
  }

  /** Lots as they came and as they are; unknown ids are left out. */
  async lots(tx: Transaction, lotIds: readonly string[]): Promise<LotState[]> {
    const rows = await tx.query<LotRow>(READ_LOTS, [lotIds]);
    return rows.map((row) => ({
      id: row.id,
      productId: row.product_id,
      source: row.source,
      receivedOn: row.received_on,
      expiresOn: row.expires_on,
      quantity: decimal(row.quantity),
      cost: decimal(row.cost),
      heldQuantity: decimal(row.held_quantity),
      heldValue: decimal(row.held_value),
    }));
  }

  private async shortfalls(tx: Transaction, row: ProductRow): Promise<OpenShortfall[]> {
    if (decimal(row.shortfall_open).isZero()) return [];
    const history = await tx.query<{ reason: string; happened_on: string; quantity: string }>(
      READ_SHORTFALLS,
      [row.id],
    );
    let open: OpenShortfall[] = [];
    for (const { reason, happened_on, quantity } of history) {
      if (reason === 'shortfall') {
        open.push({ on: happened_on, quantity: decimal(quantity) });
      } else {
        open = withoutOldest(open, decimal(quantity), happened_on);
      }
    }
    return open;
  }
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
}

interface PourHoldingRow {
  bowl_id: string;
  pour_id: string;
  product_id: string;
  lot_id: string;
  quantity: string;
  value: string;
}

interface LotRow {
  id: string;
  product_id: string;
  source: LotSource;
  received_on: string;
  expires_on: string | null;
  quantity: string;
  cost: string;
  held_quantity: string;
  held_value: string;
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

interface JournalRow {
  id: string;
  kind: string;
  happened_at: Date;
  visit_id: string | null;
  bowl_id: string | null;
  reverses_id: string | null;
  reversed_by: string | null;
  movements: RecordedMovementRow[];
}

/** What a later delivery gave back explains the oldest pours on or after its day first. */
function withoutOldest(open: OpenShortfall[], given: Decimal, since: string): OpenShortfall[] {
  let left = given;
  const rest: OpenShortfall[] = [];
  for (const shortfall of open) {
    const part = shortfall.on >= since ? smaller(left, shortfall.quantity) : zero;
    left = left.minus(part);
    const quantity = shortfall.quantity.minus(part);
    if (!quantity.isZero()) rest.push({ on: shortfall.on, quantity });
  }
  return rest;
}

/** Every bowl that a journal's movements touch. */
export function bowlsOf(movements: readonly RecordedMovement[]): string[] {
  const ids = movements.flatMap((movement) => [movement.fromPour?.bowlId, movement.toPour?.bowlId]);
  return [...new Set(ids.filter((id) => id !== undefined))];
}

function monthsBefore(instant: string, months: number): string {
  const [year, month] = dayIn('UTC', instant).split('-').map(BigInt) as [bigint, bigint, bigint];
  const index = year * 12n + month - 1n - BigInt(months);
  return monthOf(`${index / 12n}-${String((index % 12n) + 1n).padStart(2, '0')}-01`);
}

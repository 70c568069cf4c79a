/** Every posting goes through here: lock and read once, decide in memory, append once. */
import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { dayIn, monthOf } from '../../../shared/calendar.js';
import { decimal } from '../../../shared/decimal.js';
import type { ShelfLevel } from '../../../shared/moving/levels.js';
import { openShortfalls } from '../../../shared/moving/shortfalls.js';
import type { OpenShortfall, ProductStock } from '../../../shared/moving/stock.js';
import { Problem } from '../../../shared/problems/problem.js';
import { prepared, type Transaction } from '../../platform/database/transaction.js';
import type { JournalRow, LevelRow, LotRow, PourHoldingRow } from './ledger-rows.js';
import {
  APPEND,
  HOLD,
  READ_JOURNAL,
  READ_LEVELS,
  READ_LOTS,
  READ_POUR_HOLDINGS,
  READ_PRODUCTS,
  READ_SHORTFALLS,
  READ_STUDIO,
} from './ledger.queries.js';
import { factsOf, stockOf, type ProductRow } from './product-facts.js';
import { Posting, type Entry, type JournalDraft, type StudioFacts } from './posting.js';
import { AppendRows, recordedMovement, shortfallEntry, type ShortfallRow } from './posting-rows.js';
import type { LotState, PourHolding, RecordedJournal, RecordedLedger } from './recorded.js';
import { reverseJournal } from './reversing-steps.js';

export { Posting, type Entry, type JournalDraft } from './posting.js';
export type { ProductFacts } from './product-facts.js';
export type { LotState, PourHolding, RecordedJournal } from './recorded.js';

// What every posting asks is parsed and planned once a connection.
const hold = prepared(HOLD);
const readStudio = prepared(READ_STUDIO);
const readProducts = prepared(READ_PRODUCTS);
const appendJournals = prepared(APPEND);

/** How far back use counts as recent for reorder points: three whole months and this one. */
const recentMonths = 3;

@Injectable()
export class LedgerService implements RecordedLedger {
  /**
   * Locks bowls and products in the fixed order and reads what they hold. Unknown products are
   * left out; asking the posting for one says so.
   * @param today the instant now, RFC 3339 in UTC
   */
  async hold(
    tx: Transaction,
    what: {
      readonly bowlIds?: readonly string[];
      readonly productIds: readonly string[];
      /** Products whose facts are needed while nothing of them moves: read, not locked. */
      readonly alsoRead?: readonly string[];
      /** When the earliest of what will be booked happened, where that may be days ago. */
      readonly since?: string;
    },
    today: string,
  ): Promise<Posting> {
    const productIds = [...new Set(what.productIds)];
    const readIds = [...new Set([...productIds, ...(what.alsoRead ?? [])])];
    const since = monthsBefore(today, recentMonths);
    const [, studios, rows] = await Promise.all([
      tx.query(hold, [what.bowlIds ?? [], productIds]),
      tx.query<StudioFacts>(readStudio),
      tx.query<ProductRow>(readProducts, [readIds, since]),
    ]);
    const studio = studios[0];
    if (!studio) throw new Problem('not_signed_in', {});
    const facts = new Map(rows.map((row) => [row.id, factsOf(row)]));
    const firstDay = lateDay(studio.timeZone, what.since ?? today, today);
    const stocks = await this.stocks(tx, rows, firstDay);
    const withoutLot = rows.filter((row) => row.shortfall_lot_id === null).map((row) => row.id);
    return new Posting(studio, facts, stocks, new Set(withoutLot));
  }

  /** Appends all journals of a posting; journals that move nothing are kept too. */
  append(tx: Transaction, posting: Posting, entry: Entry): void {
    const rows = new AppendRows();
    rows.add(posting, entry);
    this.appendRows(tx, rows);
  }

  /** Appends what postings decided one after the other, in one statement. */
  appendRows(tx: Transaction, rows: AppendRows): void {
    if (!rows.isEmpty) tx.write(appendJournals, rows.parameters);
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
      counted: row.counted,
      movements: row.movements.map(recordedMovement),
    };
  }

  /**
   * Adds the reversal of a whole journal to the posting, with the original's happened time. The
   * posting must hold the journal's bowls and products, and reverse before it draws anew.
   * @throws Problem `reversed_already`, `reversal_is_final`, `reversal_below_zero`
   */
  reverse(
    tx: Transaction,
    posting: Posting,
    original: RecordedJournal,
    id: string,
  ): Promise<JournalDraft> {
    return reverseJournal({ ledger: this, tx, posting }, original, id);
  }

  /** The products that a journal moved or counted. */
  productsOf(journal: RecordedJournal): string[] {
    const moved = journal.movements.map((movement) => movement.productId);
    return [...new Set([...moved, ...journal.counted])];
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

  /**
   * Shortfalls of a product as recorded, and what was given back for none of them.
   * @param since the instant from which shortfalls are open: the last count that stands
   * @param without journals to leave out, because they are being undone
   */
  async shortfalls(
    tx: Transaction,
    productId: string,
    since: string | null,
    without: readonly string[] = [],
  ): Promise<ReturnType<typeof openShortfalls>> {
    const rows = await tx.query<ShortfallRow>(READ_SHORTFALLS, [productId, since, without]);
    return openShortfalls(rows.map(shortfallEntry));
  }

  private async stocks(
    tx: Transaction,
    rows: readonly ProductRow[],
    firstDay: string | null,
  ): Promise<Map<string, ProductStock>> {
    const [levels, open] = await Promise.all([
      this.levels(tx, rows, firstDay),
      Promise.all(rows.map((row) => this.openShortfalls(tx, row))),
    ]);
    return new Map(
      rows.map((row, index) => {
        const lotId = row.shortfall_lot_id ?? uuidv7();
        return [row.id, stockOf(row, lotId, open[index] ?? [], levels.get(row.id))];
      }),
    );
  }

  private async openShortfalls(tx: Transaction, row: ProductRow): Promise<OpenShortfall[]> {
    if (decimal(row.shortfall_open).isZero()) return [];
    return (await this.shortfalls(tx, row.id, row.last_counted_at)).open;
  }

  private async levels(
    tx: Transaction,
    rows: readonly ProductRow[],
    firstDay: string | null,
  ): Promise<Map<string, ShelfLevel[]>> {
    const levels = new Map<string, ShelfLevel[]>();
    if (firstDay === null) return levels;
    const ids = rows.map((row) => row.id);
    for (const row of await tx.query<LevelRow>(READ_LEVELS, [ids, firstDay])) {
      const at = row.at?.toISOString() ?? '';
      const level = { at, on: row.on_day, quantity: decimal(row.quantity) };
      levels.set(row.product_id, [...(levels.get(row.product_id) ?? []), level]);
    }
    return levels;
  }
}

/** The day of something that happened before today; null for what is of today. */
function lateDay(timeZone: string, since: string, now: string): string | null {
  const day = dayIn(timeZone, since);
  return day < dayIn(timeZone, now) ? day : null;
}

function monthsBefore(instant: string, months: number): string {
  const [year, month] = dayIn('UTC', instant).split('-').map(BigInt) as [bigint, bigint, bigint];
  const index = year * 12n + month - 1n - BigInt(months);
  return monthOf(`${index / 12n}-${String((index % 12n) + 1n).padStart(2, '0')}-01`);
}

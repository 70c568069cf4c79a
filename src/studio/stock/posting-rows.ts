/** A posting's drafts as rows for the appending statement, and recorded rows read back. */
import { uuidv7 } from 'uuidv7';
import { decimal, fixed, zero } from '../../../shared/decimal.js';
import type { LotDraft, MovementDraft, Place, Reason } from '../../../shared/moving/movement.js';
import type { RecordedMovement } from '../../../shared/moving/reversing.js';
import type { ShortfallEntry } from '../../../shared/moving/shortfalls.js';
import { shortfallOpen, type ProductStock } from '../../../shared/moving/stock.js';
import type { Entry, JournalDraft, Posting } from './posting.js';

/**
 * Rows in the shape that APPEND reads: plain text for numbers, one object a row. They are text
 * from the moment they are added, so that a long batch holds nothing else.
 */
export class AppendRows {
  private readonly journals: string[] = [];
  private readonly lots: string[] = [];
  private readonly movements: string[] = [];
  private readonly told = new Map<string, string>();

  /** Adds all journals of a posting, after those added before. */
  add(posting: Posting, entry: Entry): void {
    const made = new Set<string>();
    for (const journal of posting.journals) {
      this.journals.push(JSON.stringify(journalRow(journal, entry)));
      for (const lot of [...journal.lots, ...shortfallLots(posting, journal, made)]) {
        this.lots.push(JSON.stringify(lotRow(journal, lot)));
      }
      for (const movement of journal.movements) {
        this.movements.push(JSON.stringify(movementRow(journal, movement, entry)));
      }
    }
    for (const stock of posting.changedStocks) {
      this.told.set(stock.productId, JSON.stringify(toldRow(stock)));
    }
  }

  get isEmpty(): boolean {
    return this.journals.length === 0;
  }

  /** Journals, lots, movements, and what only the postings can tell. */
  get parameters(): string[] {
    return [this.journals, this.lots, this.movements, [...this.told.values()]].map(
      (rows) => `[${rows.join()}]`,
    );
  }
}

function lotRow(journal: JournalDraft, lot: LotDraft) {
  return {
    id: lot.id,
    product_id: lot.productId,
    source: lot.source,
    received_on: lot.receivedOn,
    expires_on: lot.expiresOn,
    lot_code: lot.lotCode,
    quantity: fixed(lot.quantity, 3),
    cost: fixed(lot.cost, 6),
    journal_id: journal.id,
  };
}

function toldRow(stock: ProductStock) {
  return {
    product_id: stock.productId,
    shortfall_open: fixed(shortfallOpen(stock), 3),
    last_counted_at: stock.lastCountedAt,
  };
}

function journalRow(journal: JournalDraft, entry: Entry) {
  return {
    id: journal.id,
    kind: journal.kind,
    happened_at: journal.happenedAt,
    recorded_at: entry.recordedAt,
    person_id: entry.personId,
    bench_id: entry.benchId,
    visit_id: journal.visitId ?? null,
    bowl_id: journal.bowlId ?? null,
    reverses_id: journal.reversesId ?? null,
    flags: [...journal.flags],
    note: journal.note ?? null,
  };
}

function movementRow(journal: JournalDraft, movement: MovementDraft, entry: Entry) {
  return {
    id: uuidv7(),
    journal_id: journal.id,
    journal_kind: journal.kind,
    product_id: movement.productId,
    lot_id: movement.lotId,
    from_place: movement.from,
    to_place: movement.to,
    from_bowl_id: movement.fromPour?.bowlId ?? null,
    from_pour_id: movement.fromPour?.pourId ?? null,
    to_bowl_id: movement.toPour?.bowlId ?? null,
    to_pour_id: movement.toPour?.pourId ?? null,
    visit_id: movement.visitId === undefined ? (journal.visitId ?? null) : movement.visitId,
    quantity: fixed(movement.quantity, 3),
    value: fixed(movement.value, 6),
    reason: movement.reason ?? null,
    happened_at: movement.happened?.at ?? journal.happenedAt,
    happened_on: movement.happened?.on ?? journal.happenedOn,
    recorded_at: entry.recordedAt,
    person_id: entry.personId,
    bench_id: entry.benchId,
    reverses_id: movement.reverses ?? null,
  };
}

/** The shortfall lots that a journal is the first to use. */
function shortfallLots(posting: Posting, journal: JournalDraft, made: Set<string>): LotDraft[] {
  const lots: LotDraft[] = [];
  for (const { productId, lotId, reason } of journal.movements) {
    if (reason !== 'shortfall' || made.has(productId)) continue;
    if (!posting.withoutShortfallLot.has(productId)) continue;
    made.add(productId);
    lots.push({
      id: lotId,
      productId,
      source: 'shortfall',
      receivedOn: journal.happenedOn,
      expiresOn: null,
      lotCode: null,
      quantity: zero,
      cost: zero,
    });
  }
  return lots;
}

/** A movement as READ_JOURNAL gives it. */
export interface RecordedMovementRow {
  id: string;
  productId: string;
  lotId: string;
  from: Place;
  to: Place;
  fromBowlId?: string | null;
  fromPourId?: string | null;
  toBowlId?: string | null;
  toPourId?: string | null;
  visitId: string | null;
  quantity: string;
  value: string;
  reason: Reason | null;
  happenedAt: string;
  happenedOn: string;
  undone?: boolean;
}

/** A row of READ_SHORTFALLS. */
export interface ShortfallRow {
  reason: Reason;
  from_place: Place;
  lot_id: string;
  happened_at: Date;
  happened_on: string;
  quantity: string;
  value: string;
}

/** A recorded shortfall, or what was given back for one, as the ledger's law reads it. */
export function shortfallEntry(row: ShortfallRow): ShortfallEntry {
  const again = row.from_place === 'correction' ? ('taken again' as const) : ('given' as const);
  return {
    kind: row.reason === 'shortfall' ? 'short' : again,
    at: row.happened_at.toISOString(),
    on: row.happened_on,
    lotId: row.lot_id,
    quantity: decimal(row.quantity),
    value: decimal(row.value),
  };
}

/** A recorded row as the ledger's law reads it. */
export function recordedMovement(row: RecordedMovementRow): RecordedMovement {
  return {
    id: row.id,
    productId: row.productId,
    lotId: row.lotId,
    from: row.from,
    to: row.to,
    ...(row.fromBowlId && row.fromPourId
      ? { fromPour: { bowlId: row.fromBowlId, pourId: row.fromPourId } }
      : {}),
    ...(row.toBowlId && row.toPourId
      ? { toPour: { bowlId: row.toBowlId, pourId: row.toPourId } }
      : {}),
    visitId: row.visitId,
    quantity: decimal(row.quantity),
    value: decimal(row.value),
    ...(row.reason ? { reason: row.reason } : {}),
    happened: { at: row.happenedAt, on: row.happenedOn },
    ...(row.undone ? { undone: true } : {}),
  };
}

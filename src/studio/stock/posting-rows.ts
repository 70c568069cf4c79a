/** A posting's drafts as rows for the appending statement, and recorded rows read back. */
import { uuidv7 } from 'uuidv7';
import { decimal, fixed, zero } from '../../../shared/decimal.js';
import type { LotDraft, MovementDraft, Place, Reason } from '../../../shared/moving/movement.js';
import type { RecordedMovement } from '../../../shared/moving/reversing.js';
import type { ShortfallEntry } from '../../../shared/moving/shortfalls.js';
import type { Entry, JournalDraft, Posting } from './posting.js';

/** Rows in the shape that APPEND reads: plain text for numbers, one object a row. */
export function journalRows(posting: Posting, entry: Entry) {
  const made = new Set<string>();
  const lots = posting.journals.flatMap((journal) =>
    [...journal.lots, ...shortfallLots(posting, journal, made)].map((lot) => ({
      id: lot.id,
      product_id: lot.productId,
      source: lot.source,
      received_on: lot.receivedOn,
      expires_on: lot.expiresOn,
      lot_code: lot.lotCode,
      quantity: fixed(lot.quantity, 3),
      cost: fixed(lot.cost, 6),
      journal_id: journal.id,
    })),
  );
  return {
    journals: posting.journals.map((journal) => journalRow(journal, entry)),
    lots,
    movements: posting.journals.flatMap((journal) =>
      journal.movements.map((movement) => movementRow(journal, movement, entry)),
    ),
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

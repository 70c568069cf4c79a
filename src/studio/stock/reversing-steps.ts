/** The steps that undo a journal: what goes back, what must follow it, which shortfalls reopen. */
import { zero, type Decimal } from '../../../shared/decimal.js';
import type { MovementDraft, PourAddress } from '../../../shared/moving/movement.js';
import {
  onShelf,
  reverse,
  type Held,
  type RecordedMovement,
  type Spot,
} from '../../../shared/moving/reversing.js';
import type { GivenTooMuch } from '../../../shared/moving/shortfalls.js';
import { isCounted, withLot } from '../../../shared/moving/stock.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { READ_COUNT_TO_UNDO } from './ledger.queries.js';
import type { LotState, PourHolding, RecordedJournal, RecordedLedger } from './recorded.js';
import { recordedMovement, type RecordedMovementRow } from './posting-rows.js';
import type { JournalDraft, Posting } from './posting.js';

/** What a reversal works with. */
interface Work {
  readonly ledger: RecordedLedger;
  readonly tx: Transaction;
  readonly posting: Posting;
}

/** A count's line that is being undone, where it was the last one of its product. */
interface UndoneCount {
  readonly productId: string;
  readonly last: boolean;
  readonly previous: string | null;
  readonly dependents: readonly RecordedMovement[];
}

/**
 * Adds the reversal of a whole journal to the posting.
 * @throws Problem `reversed_already`, `reversal_is_final`, `reversal_below_zero`
 */
export async function reverseJournal(
  work: Work,
  original: RecordedJournal,
  id: string,
): Promise<JournalDraft> {
  const { ledger, tx, posting } = work;
  if (original.reversesId !== null) {
    throw new Problem('reversal_is_final', { journalId: original.id });
  }
  if (original.reversedBy !== null) {
    throw new Problem('reversed_already', { journalId: original.id });
  }
  const undone = original.kind === 'count' ? await countToUndo(tx, original.id) : [];
  const recorded = [...original.movements, ...undone.flatMap((line) => line.dependents)];
  const lotIds = [...new Set(recorded.map((movement) => movement.lotId))];
  const [lots, held] = await Promise.all([
    ledger.lots(tx, lotIds),
    ledger.heldIn(tx, bowlsOf(recorded)),
  ]);
  const movements = reverse(recorded, heldAt(posting, lots, held));
  const earlier = posting.journals.flatMap((each) => each.reversesId ?? []);
  const journal = posting.journal({
    id,
    kind: 'reversal',
    happenedAt: original.happenedAt,
    visitId: original.visitId,
    bowlId: original.bowlId,
    reversesId: original.id,
  });
  posting.book(journal, { movements });
  for (const productId of ledger.productsOf(original)) {
    const line = undone.find((each) => each.productId === productId);
    shelve(posting, journal, productId, movements, lots, line);
    if (line?.last || recorded.some((each) => each.productId === productId && isShortfall(each))) {
      await replayShortfalls(work, journal, productId, earlier);
    }
  }
  return journal;
}

/** Every bowl that a journal's movements touch. */
export function bowlsOf(movements: readonly RecordedMovement[]): string[] {
  const ids = movements.flatMap((movement) => [movement.fromPour?.bowlId, movement.toPour?.bowlId]);
  return [...new Set(ids.filter((id) => id !== undefined))];
}

async function countToUndo(tx: Transaction, journalId: string): Promise<UndoneCount[]> {
  const rows = await tx.query<{
    product_id: string;
    last: boolean;
    previous: Date | null;
    dependents: RecordedMovementRow[];
  }>(READ_COUNT_TO_UNDO, [journalId]);
  return rows.map((row) => ({
    productId: row.product_id,
    last: row.last,
    previous: row.previous?.toISOString() ?? null,
    dependents: row.dependents.map(recordedMovement),
  }));
}

function heldAt(posting: Posting, lots: readonly LotState[], held: readonly PourHolding[]) {
  return (spot: Spot): Held | null => {
    if (spot.place === 'shelf') {
      const lot = lots.find((each) => each.id === spot.lotId);
      const averaged = posting.stock(spot.productId).method === 'average';
      return {
        quantity: lot?.heldQuantity ?? zero,
        value: averaged ? null : (lot?.heldValue ?? zero),
      };
    }
    if (spot.place !== 'bowl') return null;
    const part = held.find(
      (each) =>
        each.bowlId === spot.pour?.bowlId &&
        each.pourId === spot.pour.pourId &&
        each.lotId === spot.lotId,
    );
    // what this posting has moved already counts: a settlement undone before its pour
    return posting.journals
      .flatMap((journal) => journal.movements)
      .filter((movement) => movement.lotId === spot.lotId)
      .reduce((now, movement) => changed(now, movement, spot), {
        quantity: part?.quantity ?? zero,
        value: part?.value ?? zero,
      });
  };
}

function changed(
  held: { quantity: Decimal; value: Decimal },
  movement: MovementDraft,
  { pour }: Spot,
): { quantity: Decimal; value: Decimal } {
  const here = (end: PourAddress | undefined) =>
    end !== undefined && end.bowlId === pour?.bowlId && end.pourId === pour.pourId;
  const { quantity, value, toPour, fromPour } = movement;
  const sign = (here(toPour) ? 1 : 0) - (here(fromPour) ? 1 : 0);
  return {
    quantity: held.quantity.plus(quantity.times(sign)),
    value: held.value.plus(value.times(sign)),
  };
}

function shelve(
  posting: Posting,
  journal: JournalDraft,
  productId: string,
  movements: readonly MovementDraft[],
  lots: readonly LotState[],
  line: UndoneCount | undefined,
): void {
  const stock = posting.stock(productId);
  const own = new Map(
    lots.filter((lot) => lot.productId === productId).map((lot) => [lot.id, lot]),
  );
  const mine = movements.filter((movement) => movement.productId === productId);
  const counted = line ? !line.last : isCounted(stock, journal.happenedAt);
  const after = onShelf(stock, mine, own, counted);
  const lastCountedAt = line?.last ? line.previous : stock.lastCountedAt;
  posting.book(journal, { ...after, stock: { ...after.stock, lastCountedAt } });
}

function isShortfall({ reason }: RecordedMovement): boolean {
  return reason === 'shortfall' || reason === 'shortfall given back';
}

/** Shortfalls as they are without the journal; what was given back for it comes back. */
async function replayShortfalls(
  { ledger, tx, posting }: Work,
  journal: JournalDraft,
  productId: string,
  earlier: readonly string[],
): Promise<void> {
  const stock = posting.stock(productId);
  const since = stock.lastCountedAt;
  const [before, after] = await Promise.all([
    ledger.shortfalls(tx, productId, since, earlier),
    ledger.shortfalls(tx, productId, since, [...earlier, journal.reversesId ?? journal.id]),
  ]);
  posting.book(journal, { stock: { ...stock, shortfalls: after.open }, movements: [] });
  if (isCounted(stock, journal.happenedAt)) return;
  const known = new Map(before.tooMuch.map((each) => [each.lotId, each]));
  const extra = after.tooMuch
    .map((each) => moreThan(each, known.get(each.lotId)))
    .filter((each) => each.quantity.greaterThan(zero));
  const lots = await ledger.lots(
    tx,
    extra.map((each) => each.lotId),
  );
  for (const each of extra) takeAgain(posting, journal, productId, each, lots);
}

function moreThan(now: GivenTooMuch, before: GivenTooMuch | undefined): GivenTooMuch {
  return {
    lotId: now.lotId,
    quantity: now.quantity.minus(before?.quantity ?? zero),
    value: now.value.minus(before?.value ?? zero),
  };
}

function takeAgain(
  posting: Posting,
  journal: JournalDraft,
  productId: string,
  given: GivenTooMuch,
  lots: readonly LotState[],
): void {
  const lot = lots.find((each) => each.id === given.lotId);
  if (!lot || lot.source === 'shortfall') return;
  const { quantity, value } = given;
  const movement: MovementDraft = {
    productId,
    lotId: lot.id,
    from: 'correction',
    to: 'shelf',
    quantity,
    value,
    reason: 'shortfall given back',
  };
  const stock = withLot(posting.stock(productId), lot, { quantity, value });
  posting.book(journal, { stock, movements: [movement] });
}

/** What leaves the shelf without a bowl: used, discarded, sent back to the supplier. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { TakenAnswer, TakenLineView } from '../../../shared/contract/stock.js';
import { canonical, fixed } from '../../../shared/decimal.js';
import type { DrawResult } from '../../../shared/moving/drawing.js';
import type { Reason } from '../../../shared/moving/movement.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { entryView, journalAt, productIdsOf, stockQuantity, type StockActing } from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { JournalDraft, JournalHead, Posting } from './posting.js';
import { StockFlagsService, type RaisedFlag } from './stock-flags.service.js';
import type {
  DiscardRequest,
  LotLineRequest,
  SupplierReturnRequest,
  UseRequest,
} from './stock.requests.js';
import { READ_USE_VISIT } from './taking.queries.js';

/** What is taken, where it goes, and why. */
interface Taking {
  readonly head: Omit<JournalHead, 'happenedAt'>;
  readonly to: 'head' | 'bin' | 'supplier';
  readonly reason?: Reason;
  readonly at: string;
  readonly lines: readonly LotLineRequest[];
  /** Said of the entry. */
  readonly marks?: readonly string[];
}

@Injectable()
export class TakingService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** Into the bin: expired, damaged, spilled before it was in a bowl. */
  discard(tx: Transaction, request: DiscardRequest, by: StockActing): Promise<TakenAnswer> {
    const head = { ...headOf(request, request.note), kind: 'discard' as const };
    const { why: reason, at, lines } = request;
    return this.take(tx, { head, to: 'bin', reason, at, lines }, by);
  }

  /** Used without a bowl: sundries, care, a strand test; a closed visit gets it too, marked. */
  async use(tx: Transaction, request: UseRequest, by: StockActing): Promise<TakenAnswer> {
    const { visitId, purpose, usedAt, lines } = request;
    const late = visitId !== undefined && (await this.isClosed(tx, visitId));
    return this.take(
      tx,
      {
        head: { ...headOf(request, purpose), kind: 'use', visitId: visitId ?? null },
        to: 'head',
        ...(purpose === 'strand test' ? { reason: 'strand test' as const } : {}),
        at: usedAt,
        lines,
        marks: late ? ['late'] : [],
      },
      by,
    );
  }

  /** Back to the supplier, at the value it has. */
  sendBack(tx: Transaction, request: SupplierReturnRequest, by: StockActing) {
    const head = { ...headOf(request, request.note), kind: 'supplier return' as const };
    return this.take(tx, { head, to: 'supplier', at: request.at, lines: request.lines }, by);
  }

  private async take(tx: Transaction, taking: Taking, by: StockActing): Promise<TakenAnswer> {
    const { lines } = taking;
    const lotIds = lines.flatMap((line) => line.lotId ?? []);
    const since = by.when(taking.at).at;
    const [posting, lots] = await Promise.all([
      this.ledger.hold(tx, { productIds: productIdsOf(lines), since }, by.recordedAt),
      this.ledger.lots(tx, lotIds),
    ]);
    const owners = new Map(lots.map((lot) => [lot.id, lot.productId]));
    const journal = journalAt(posting, taking.head, taking.at, by);
    for (const mark of taking.marks ?? []) journal.flags.add(mark);
    const drawn = lines.map((line, index) =>
      within(`/lines/${index}`, () => this.draw(posting, journal, line, taking, owners)),
    );
    this.ledger.append(tx, posting, by);
    const told = drawn.flatMap(({ result, view }) =>
      result.flags.map((flag): RaisedFlag => ({ productId: view.productId, flag })),
    );
    const raised = [...this.stockFlags.raised(posting, by.recordedAt), ...told];
    return {
      ...entryView(journal, raised),
      lines: drawn.map(({ result, view }) => withLots(view, result, by.money)),
    };
  }

  private draw(
    posting: Posting,
    journal: JournalDraft,
    line: LotLineRequest,
    { to, reason }: Taking,
    owners: ReadonlyMap<string, string>,
  ) {
    const facts = within('/productId', () => posting.product(line.productId));
    if (line.lotId !== undefined && owners.get(line.lotId) !== facts.id) {
      const problem = { lotId: line.lotId, product: facts.name };
      throw new Problem('lot_of_other_product', problem, '/lotId');
    }
    const taken = within('/unit', () => stockQuantity(facts, line.quantity, line.unit));
    if (taken.quantity.isZero()) {
      const what = `What was taken of ${facts.name}`;
      throw new Problem('quantity_not_positive', { what, quantity: '0' }, '/quantity');
    }
    const result = posting.draw(journal, facts.id, {
      quantity: taken.quantity,
      to,
      ...(reason ? { reason } : {}),
      ...(line.lotId === undefined ? {} : { lotId: line.lotId }),
    });
    const view = {
      productId: facts.id,
      quantity: canonical(taken.quantity),
      unit: facts.unit,
      assumedDensity: taken.assumedDensity,
    };
    return { result, view };
  }

  private async isClosed(tx: Transaction, visitId: string): Promise<boolean> {
    const [visit] = await tx.query<{ closed_at: Date | null }>(READ_USE_VISIT, [visitId]);
    if (!visit) throw new Problem('not_found', { what: 'visit', id: visitId }, '/visitId');
    return visit.closed_at !== null;
  }
}

function headOf(request: { readonly id?: string }, note: string | undefined) {
  return { id: request.id ?? uuidv7(), ...(note === undefined ? {} : { note }) };
}

function withLots(
  view: Omit<TakenLineView, 'value' | 'lots'>,
  result: DrawResult,
  money: boolean,
): TakenLineView {
  return {
    ...view,
    ...(money ? { value: fixed(result.value, 6) } : {}),
    lots: result.drawn.map(({ lotId, quantity, value }) => ({
      lotId,
      quantity: canonical(quantity),
      ...(money ? { value: fixed(value, 6) } : {}),
    })),
  };
}

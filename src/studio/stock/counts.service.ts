/** Counts: what is really there, against what the book says at that instant. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { CountAnswer, CountLineView, CountWarning } from '../../../shared/contract/stock.js';
import { canonical, decimal, fixed, zero, type Decimal } from '../../../shared/decimal.js';
import { settleCount } from '../../../shared/moving/counting.js';
import { countedPacks } from '../../../shared/moving/shelf-count.js';
import { takenByCounts, type CountMovement } from '../../../shared/moving/taken.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { READ_BOOK, READ_COUNT_HISTORY, WRITE_COUNT_LINES } from './counts.queries.js';
import {
  entryView,
  journalAt,
  productIdsOf,
  stockQuantity,
  valueChange,
  weighable,
  type StockActing,
} from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { JournalDraft, Posting } from './posting.js';
import type { ProductFacts } from './product-facts.js';
import { StockFlagsService } from './stock-flags.service.js';
import type { CountLineRequest, CountRequest } from './stock.requests.js';

/** A line worked out: what was counted, what the book said. */
interface Counted {
  readonly productId: string;
  readonly quantity: Decimal;
  readonly book: Decimal;
  readonly fullerThanFull: boolean;
}

interface HistoryRow {
  product_id: string;
  lot_id: string;
  received_on: string;
  expires_on: string | null;
  quantity: string;
  value: string;
  taken: boolean;
  by_count: boolean;
}

@Injectable()
export class CountsService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** Books the difference between what is there and what the book said at `countedAt`. */
  async count(tx: Transaction, request: CountRequest, by: StockActing): Promise<CountAnswer> {
    const countedAt = by.when(request.countedAt).at;
    const productIds = productIdsOf(request.lines);
    const [posting, books, history] = await Promise.all([
      this.ledger.hold(tx, { productIds, since: countedAt }, by.recordedAt),
      tx.query<{ product_id: string; book: string }>(READ_BOOK, [productIds, countedAt]),
      tx.query<HistoryRow & Record<string, unknown>>(READ_COUNT_HISTORY, [productIds]),
    ]);
    const book = new Map(books.map((row) => [row.product_id, decimal(row.book)]));
    const counted = this.counted(posting, request.lines, book);
    const head = {
      id: request.id ?? uuidv7(),
      kind: 'count' as const,
      ...(request.note ? { note: request.note } : {}),
    };
    const journal = journalAt(posting, head, request.countedAt, by);
    const stands = counted.map((line) => this.settle(posting, journal, line, history));
    this.ledger.append(tx, posting, by);
    tx.write(WRITE_COUNT_LINES, [JSON.stringify(countRows(journal, counted, stands))]);
    return {
      ...entryView(journal, this.stockFlags.raised(posting, by.recordedAt)),
      countedAt,
      lines: counted.map((line, index) => lineView(posting, line, stands[index] ?? true)),
      warnings: counted.flatMap((line, index) => warningsOf(posting, line, stands[index] ?? true)),
    };
  }

  private counted(
    posting: Posting,
    lines: readonly CountLineRequest[],
    book: ReadonlyMap<string, Decimal>,
  ): Counted[] {
    const seen = new Set<string>();
    return lines.map((line, index) =>
      within(`/lines/${index}`, () => {
        const facts = within('/productId', () => posting.product(line.productId));
        if (seen.has(facts.id)) throw new Problem('product_in_two_lines', { product: facts.name });
        seen.add(facts.id);
        const { quantity, fullerThanFull } = countedQuantity(facts, line);
        const said = book.get(facts.id) ?? zero;
        return { productId: facts.id, quantity, book: said, fullerThanFull };
      }),
    );
  }

  private settle(
    posting: Posting,
    journal: JournalDraft,
    line: Counted,
    history: readonly HistoryRow[],
  ): boolean {
    const own = history.filter((row) => row.product_id === line.productId);
    const result = settleCount(posting.stock(line.productId), {
      counted: line.quantity,
      book: line.book,
      countedAt: journal.happenedAt,
      day: journal.happenedOn,
      taken: takenByCounts(own.map(countMovement)),
      foundLotId: uuidv7(),
    });
    posting.book(journal, result);
    return result.stands;
  }
}

function countedQuantity(facts: ProductFacts, line: CountLineRequest) {
  const inPacks = line.fullPacks !== undefined || line.open !== undefined;
  if (inPacks === (line.counted !== undefined)) throw new Problem('counted_or_packs', {});
  if (line.counted) {
    const { value, unit } = line.counted;
    const { quantity } = within('/counted', () => stockQuantity(facts, value, unit));
    return { quantity, fullerThanFull: false };
  }
  const open = (line.open ?? []).map(({ gross, emptyPack }) => ({
    gross: gross.value,
    emptyPack: emptyPack?.value,
  }));
  const packs = { fullPacks: line.fullPacks ?? 0, packLabel: line.packLabel, open };
  return countedPacks(packs, weighable(facts), facts.packs);
}

function countMovement(row: HistoryRow): CountMovement {
  return {
    lotId: row.lot_id,
    receivedOn: row.received_on,
    expiresOn: row.expires_on,
    quantity: decimal(row.quantity),
    value: decimal(row.value),
    way: row.taken ? 'taken' : 'put back',
    byCount: row.by_count,
  };
}

function countRows(journal: JournalDraft, counted: readonly Counted[], stands: boolean[]) {
  return counted.map((line, index) => ({
    journal_id: journal.id,
    product_id: line.productId,
    counted_at: journal.happenedAt,
    counted: fixed(line.quantity, 3),
    book: fixed(line.book, 3),
    stands: stands[index],
  }));
}

function lineView(posting: Posting, line: Counted, stands: boolean): CountLineView {
  const { unit } = posting.product(line.productId);
  return {
    productId: line.productId,
    counted: { quantity: canonical(line.quantity), unit },
    book: { quantity: canonical(line.book), unit },
    difference: canonical(line.quantity.minus(line.book)),
    value: fixed(valueChange(posting, line.productId), 6),
    stands,
  };
}

/** What a person should look at again; nothing here keeps the count from standing. */
function warningsOf(posting: Posting, line: Counted, stands: boolean): CountWarning[] {
  const { productId } = line;
  const facts = posting.product(productId);
  const warnings: CountWarning[] = [];
  if (!stands) {
    const at = posting.stock(productId).lastCountedAt ?? '';
    const text = `${facts.name} was counted later, at ${at}: that count stands.`;
    warnings.push({ productId, code: 'counted_since', text });
  }
  const apart = line.quantity.minus(line.book).abs();
  const pack = facts.packs[0]?.quantity ?? zero;
  if (apart.greaterThan(line.book.abs().dividedBy(2)) && apart.greaterThan(pack)) {
    const text =
      `The book said ${canonical(line.book)} ${facts.unit} of ${facts.name}. ` +
      'Check packs and unit, and whether a bench has bowls not sent yet.';
    warnings.push({ productId, code: 'far_from_book', text });
  }
  if (line.fullerThanFull) {
    const text = `A started pack of ${facts.name} holds more than a full one. Check its weight.`;
    warnings.push({ productId, code: 'fuller_than_full', text });
  }
  return warnings;
}

/** What arrives: the opening stock, and deliveries with freight, discount and free packs. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type { ArrivalAnswer } from '../../../shared/contract/stock.js';
import { deliveryLineCosts } from '../../../shared/costing.js';
import { canonical, fixed, sum } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { entryView, journalAt, productIdsOf, type StockActing } from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { JournalDraft, Posting } from './posting.js';
import { arrivalsOf, bookArrivals, deliveryRows } from './receiving-steps.js';
import type { AnyLine, ArrivedLine } from './receiving-steps.js';
import { READ_NOON, READ_SUPPLIER, WRITE_DELIVERY } from './receiving.queries.js';
import { StockFlagsService, type RaisedFlag } from './stock-flags.service.js';
import type { DeliveryRequest, OpeningRequest } from './stock.requests.js';

@Injectable()
export class ReceivingService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** What is on the shelf on the first day; no use, loss or lead time comes of it. */
  async open(tx: Transaction, request: OpeningRequest, by: StockActing): Promise<ArrivalAnswer> {
    const posting = await this.hold(tx, request.lines, by);
    const arrivals = arrivalsOf(posting, request.lines);
    const costs = deliveryLineCosts(arrivals);
    const head = { id: request.id ?? uuidv7(), kind: 'opening' } as const;
    const journal = journalAt(posting, head, request.openedAt, by);
    const { lines, asCounted } = request;
    const arrived = bookArrivals(posting, journal, lines, arrivals, costs, { asCounted });
    this.ledger.append(tx, posting, by);
    return this.answer(posting, journal, arrived, by, []);
  }

  /** A delivery: a lot a line, its cost with its share of what else stands on the invoice. */
  async deliver(tx: Transaction, request: DeliveryRequest, by: StockActing) {
    const [posting, , noon] = await Promise.all([
      this.hold(tx, request.lines, by),
      this.supplierIsKnown(tx, request.supplierId),
      this.noonOf(tx, request.deliveredOn),
    ]);
    const today = dayIn(posting.studio.timeZone, by.recordedAt);
    if (request.deliveredOn > today) {
      throw new Problem('day_in_future', { day: request.deliveredOn, today }, '/deliveredOn');
    }
    const arrivals = arrivalsOf(posting, request.lines);
    const costs = within('/discount', () => deliveryLineCosts(arrivals, request));
    const head = { id: request.id ?? uuidv7(), kind: 'delivery' } as const;
    const written = request.deliveredAt ?? (request.deliveredOn === today ? undefined : noon);
    const journal = journalAt(posting, head, written, by);
    const counted = this.countedThatDay(posting, request);
    const arriving = { delivery: request };
    const arrived = bookArrivals(posting, journal, request.lines, arrivals, costs, arriving);
    this.ledger.append(tx, posting, by);
    tx.write(WRITE_DELIVERY, deliveryRows(journal.id, request, arrived));
    return this.answer(posting, journal, arrived, by, counted);
  }

  private hold(tx: Transaction, lines: readonly AnyLine[], by: StockActing): Promise<Posting> {
    return this.ledger.hold(tx, { productIds: productIdsOf(lines) }, by.recordedAt);
  }

  private async supplierIsKnown(tx: Transaction, supplierId: string | undefined): Promise<void> {
    if (supplierId === undefined) return;
    if ((await tx.query(READ_SUPPLIER, [supplierId])).length > 0) return;
    throw new Problem('not_found', { what: 'supplier', id: supplierId }, '/supplierId');
  }

  /** An earlier day's delivery counts as of noon. */
  private async noonOf(tx: Transaction, day: string): Promise<string | undefined> {
    const [row] = await tx.query<{ noon: Date }>(READ_NOON, [day]);
    return row?.noon.toISOString();
  }

  /** Counted on the day of a delivery whose hour nobody told: look again. */
  private countedThatDay(posting: Posting, request: DeliveryRequest): RaisedFlag[] {
    if (request.deliveredAt !== undefined) return [];
    return productIdsOf(request.lines).flatMap((productId): RaisedFlag[] => {
      const at = posting.stock(productId).lastCountedAt;
      const sameDay = at !== null && dayIn(posting.studio.timeZone, at) === request.deliveredOn;
      return sameDay ? [{ productId, flag: 'recount' }] : [];
    });
  }

  private answer(
    posting: Posting,
    journal: JournalDraft,
    arrived: readonly ArrivedLine[],
    by: StockActing,
    more: readonly RaisedFlag[],
  ): ArrivalAnswer {
    const raised = this.stockFlags.raised(posting, by.recordedAt);
    return {
      ...entryView(journal, [...raised, ...more]),
      cost: fixed(sum(arrived.map(({ lot }) => lot.cost)), 6),
      lots: arrived.map(({ arrival, lot, givenBack }) => ({
        id: lot.id,
        productId: lot.productId,
        quantity: canonical(lot.quantity),
        unit: posting.product(lot.productId).unit,
        cost: fixed(lot.cost, 6),
        costFrom: arrival.costFrom,
        expiresOn: lot.expiresOn,
        lotCode: lot.lotCode,
        givenBack: canonical(givenBack),
      })),
    };
  }
}

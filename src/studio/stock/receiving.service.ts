/** What arrives: the opening stock, and deliveries with freight, discount and free packs. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type { ArrivalAnswer } from '../../../shared/contract/stock.js';
import { deliveryLineCosts } from '../../../shared/costing.js';
import { canonical, fixed, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { arrivalOf, type Arrival } from '../../../shared/moving/arrival.js';
import type { LotDraft } from '../../../shared/moving/movement.js';
import { receive } from '../../../shared/moving/receiving.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { entryView, journalAt, productIdsOf, type StockActing } from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { JournalDraft, Posting } from './posting.js';
import { READ_NOON, READ_SUPPLIER, WRITE_DELIVERY } from './receiving.queries.js';
import { StockFlagsService, type RaisedFlag } from './stock-flags.service.js';
import type { ArrivalLineRequest, DeliveryRequest, OpeningRequest } from './stock.requests.js';

type AnyLine = ArrivalLineRequest & Partial<DeliveryRequest['lines'][number]>;

/** A line that was worked out: what arrived, and its lot. */
interface ArrivedLine {
  readonly line: AnyLine;
  readonly arrival: Arrival;
  readonly lot: LotDraft;
  readonly givenBack: Decimal;
}

@Injectable()
export class ReceivingService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** What is on the shelf on the first day; no use, loss or lead time comes of it. */
  async open(tx: Transaction, request: OpeningRequest, by: StockActing): Promise<ArrivalAnswer> {
    const posting = await this.hold(tx, request.lines, by);
    const arrivals = this.arrivals(posting, request.lines);
    const costs = deliveryLineCosts(arrivals);
    const head = { id: request.id ?? uuidv7(), kind: 'opening' } as const;
    const journal = journalAt(posting, head, request.openedAt, by);
    const arrived = this.book(posting, journal, request.lines, arrivals, costs);
    await this.ledger.append(tx, posting, by);
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
    const arrivals = this.arrivals(posting, request.lines);
    const costs = within('/discount', () => deliveryLineCosts(arrivals, request));
    const head = { id: request.id ?? uuidv7(), kind: 'delivery' } as const;
    const written = request.deliveredAt ?? (request.deliveredOn === today ? undefined : noon);
    const journal = journalAt(posting, head, written, by);
    const counted = this.countedThatDay(posting, request);
    const arrived = this.book(posting, journal, request.lines, arrivals, costs, request);
    await Promise.all([
      this.ledger.append(tx, posting, by),
      tx.execute(WRITE_DELIVERY, deliveryRows(journal.id, request, arrived)),
    ]);
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

  private arrivals(posting: Posting, lines: readonly AnyLine[]): Arrival[] {
    return lines.map((line, index) =>
      within(`/lines/${index}`, () => {
        const { name, packs } = within('/productId', () => posting.product(line.productId));
        return arrivalOf(line, name, packs);
      }),
    );
  }

  private book(
    posting: Posting,
    journal: JournalDraft,
    lines: readonly AnyLine[],
    arrivals: readonly Arrival[],
    costs: readonly Decimal[],
    delivery?: DeliveryRequest,
  ): ArrivedLine[] {
    return lines.map((line, index) => {
      const arrival = arrivals[index] as Arrival;
      const lot: LotDraft = {
        id: uuidv7(),
        productId: line.productId,
        source: delivery ? 'delivery' : 'opening',
        receivedOn: delivery?.deliveredOn ?? journal.happenedOn,
        expiresOn: line.expiresOn ?? null,
        lotCode: line.lotCode ?? null,
        quantity: arrival.quantity,
        cost: costs[index] ?? zero,
      };
      const result = receive(posting.stock(line.productId), lot, journal.happenedAt);
      posting.book(journal, { ...result, lots: [lot] });
      const back = result.movements.filter(({ reason }) => reason === 'shortfall given back');
      const givenBack = sum(back.map((movement) => movement.quantity));
      if (lot.cost.isZero()) journal.flags.add('no_cost');
      return { line, arrival, lot, givenBack };
    });
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

function deliveryRows(id: string, request: DeliveryRequest, arrived: readonly ArrivedLine[]) {
  const delivery = {
    id,
    supplier_id: request.supplierId ?? null,
    order_id: request.orderId ?? null,
    ordered_on: request.orderedOn ?? null,
    delivered_on: request.deliveredOn,
    invoice_no: request.invoiceNo ?? null,
    freight: fixed(request.freight ?? zero, 6),
    other_cost: fixed(request.otherCost ?? zero, 6),
    discount: fixed(request.discount ?? zero, 6),
    non_recoverable_tax: fixed(request.nonRecoverableTax ?? zero, 6),
  };
  const lines = arrived.map(({ line, arrival, lot }, position) => ({
    position,
    product_id: lot.productId,
    lot_id: lot.id,
    pack_label: arrival.pack?.label ?? null,
    packs: line.packs ?? null,
    free_packs: line.freePacks ?? null,
    pack_price: line.packPrice === undefined ? null : fixed(line.packPrice, 6),
    quantity: fixed(lot.quantity, 3),
    cost: fixed(lot.cost, 6),
  }));
  return [JSON.stringify(delivery), JSON.stringify(lines)];
}

/** The steps of an arrival: its lines worked out, its lots on the shelf, its paper as rows. */
import { uuidv7 } from 'uuidv7';
import { fixed, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { arrivalOf, type Arrival } from '../../../shared/moving/arrival.js';
import type { LotDraft } from '../../../shared/moving/movement.js';
import { withPouredBefore } from '../../../shared/moving/opening-stock.js';
import { receive } from '../../../shared/moving/receiving.js';
import { within } from '../../../shared/problems/problem.js';
import type { JournalDraft, Posting } from './posting.js';
import type { ArrivalLineRequest, DeliveryRequest } from './stock.requests.js';

export type AnyLine = ArrivalLineRequest & Partial<DeliveryRequest['lines'][number]>;

/** A line that was worked out: what arrived, and its lot. */
export interface ArrivedLine {
  readonly line: AnyLine;
  readonly arrival: Arrival;
  readonly lot: LotDraft;
  readonly givenBack: Decimal;
}

/** Every line as it was entered, in its product's packs or unit. */
export function arrivalsOf(posting: Posting, lines: readonly AnyLine[]): Arrival[] {
  return lines.map((line, index) =>
    within(`/lines/${index}`, () => {
      const { name, packs } = within('/productId', () => posting.product(line.productId));
      return arrivalOf(line, name, packs);
    }),
  );
}

/** What an arrival is booked as. */
export interface Arriving {
  /** Its lots are of that day; without it they are the opening stock. */
  readonly delivery?: DeliveryRequest;
  /** The opening stock is what is left after what was poured beyond the book. */
  readonly asCounted?: boolean;
}

/** Puts every line's lot on the shelf. */
export function bookArrivals(
  posting: Posting,
  journal: JournalDraft,
  lines: readonly AnyLine[],
  arrivals: readonly Arrival[],
  costs: readonly Decimal[],
  { delivery, asCounted = false }: Arriving = {},
): ArrivedLine[] {
  return lines.map((line, index) => {
    const arrival = arrivals[index] as Arrival;
    const stock = posting.stock(line.productId);
    const told = { quantity: arrival.quantity, cost: costs[index] ?? zero };
    const lot: LotDraft = {
      id: uuidv7(),
      productId: line.productId,
      source: delivery ? 'delivery' : 'opening',
      receivedOn: delivery?.deliveredOn ?? journal.happenedOn,
      expiresOn: line.expiresOn ?? null,
      lotCode: line.lotCode ?? null,
      ...(asCounted ? withPouredBefore(told, stock) : told),
    };
    const result = receive(stock, lot, journal.happenedAt);
    posting.book(journal, { ...result, lots: [lot] });
    const back = result.movements.filter(({ reason }) => reason === 'shortfall given back');
    const givenBack = sum(back.map((movement) => movement.quantity));
    if (lot.cost.isZero()) journal.flags.add('no_cost');
    return { line, arrival, lot, givenBack };
  });
}

/** One delivery and its lines as WRITE_DELIVERY reads them. */
export function deliveryRows(
  id: string,
  request: DeliveryRequest,
  arrived: readonly ArrivedLine[],
) {
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

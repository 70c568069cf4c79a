/** Orders: sent to a supplier, matched by deliveries that name them, cancelled for the rest. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type { OrderState, OrderView } from '../../../shared/contract/purchasing.js';
import { fixed } from '../../../shared/decimal.js';
import { priceAt, type PriceBreak } from '../../../shared/ordering/price-breaks.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import {
  CANCEL_ORDER,
  LOCK_ORDER,
  READ_KNOWN_SUPPLIER,
  READ_ORDER,
  READ_ORDERABLE,
  READ_ORDERS,
  WRITE_ORDER,
} from './orders.queries.js';
import type { OrderLineRequest, OrderRequest } from './orders.requests.js';
import { orderView, type OrderRow } from './orders.views.js';

/** Who orders, and when the service heard of it. */
export interface Ordering {
  readonly personId: string | null;
  readonly now: string;
}

interface Orderable {
  id: string;
  name: string;
  supplier_id: string | null;
  packs: OrderablePack[] | null;
}

interface OrderablePack {
  label: string;
  quantity: string;
  listPrice: string | null;
  orderCode: string | null;
  breaks: PriceBreak[];
}

/** An order with the key of its place in the list. */
export interface ListedOrder {
  readonly key: readonly string[];
  readonly view: OrderView;
}

@Injectable()
export class OrdersService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** Enters an order as sent. */
  async send(tx: Transaction, request: OrderRequest, by: Ordering): Promise<OrderView> {
    const ids = [...new Set(request.lines.map((line) => line.productId))];
    const [rows, , [studio]] = await Promise.all([
      tx.query<Orderable & Record<string, unknown>>(READ_ORDERABLE, [ids]),
      this.supplierIsKnown(tx, request.supplierId),
      tx.query<{ time_zone: string }>(
        'select time_zone from studio where studio_id = current_studio()',
      ),
    ]);
    const products = new Map(rows.map((row) => [row.id, row]));
    const today = dayIn(studio?.time_zone ?? 'UTC', by.now);
    if (request.orderedOn !== undefined && request.orderedOn > today) {
      throw new Problem('day_in_future', { day: request.orderedOn, today }, '/orderedOn');
    }
    const lines = request.lines.map((line, position) =>
      within(`/lines/${position}`, () => lineRow(products.get(line.productId), line, position)),
    );
    const id = request.id ?? uuidv7();
    const order = {
      id,
      supplier_id: request.supplierId ?? onlySupplier(rows),
      ordered_on: request.orderedOn ?? today,
      recorded_at: by.now,
      person_id: by.personId,
      note: request.note ?? null,
    };
    await tx.execute(WRITE_ORDER, [JSON.stringify(order), JSON.stringify(lines)]);
    return this.read(tx, id);
  }

  /** Cancels what has not come. @throws Problem `order_is_closed` */
  async cancel(tx: Transaction, id: string, by: Ordering): Promise<OrderView> {
    await tx.query(LOCK_ORDER, [id]);
    const order = await this.read(tx, id);
    if (order.state === 'received' || order.state === 'cancelled') {
      throw new Problem('order_is_closed', { state: order.state });
    }
    await tx.execute(CANCEL_ORDER, [id, by.now]);
    return this.read(tx, id);
  }

  /** @throws Problem `not_found` */
  show(studioId: string, id: string): Promise<OrderView> {
    return inTransaction(this.dataSource, studioId, (tx) => this.read(tx, id));
  }

  /** The studio's name, for the head of a slip. */
  async studioName(studioId: string): Promise<string> {
    const [row] = await inTransaction(this.dataSource, studioId, (tx) =>
      tx.query<{ name: string }>('select name from studio where studio_id = current_studio()'),
    );
    return row?.name ?? '';
  }

  /** Newest first, one more than asked for. */
  async list(
    studioId: string,
    of: { limit: number; state?: OrderState; supplierId?: string },
    after: readonly string[] | undefined,
  ): Promise<ListedOrder[]> {
    const rows = await inTransaction(this.dataSource, studioId, (tx) =>
      tx.query<OrderRow & Record<string, unknown>>(READ_ORDERS, [
        ...[after?.[0] ?? null, of.limit + 1],
        ...[of.state ?? null, of.supplierId ?? null],
      ]),
    );
    return rows.map((row) => ({ key: [row.seq], view: orderView(row) }));
  }

  private async read(tx: Transaction, id: string): Promise<OrderView> {
    const [row] = await tx.query<OrderRow & Record<string, unknown>>(READ_ORDER, [id]);
    if (!row) throw new Problem('not_found', { what: 'order', id });
    return orderView(row);
  }

  private async supplierIsKnown(tx: Transaction, supplierId: string | undefined): Promise<void> {
    if (supplierId === undefined) return;
    if ((await tx.query(READ_KNOWN_SUPPLIER, [supplierId])).length > 0) return;
    throw new Problem('not_found', { what: 'supplier', id: supplierId }, '/supplierId');
  }
}

/** The supplier that all products name, where it is one. */
function onlySupplier(products: readonly Orderable[]): string | null {
  const suppliers = new Set(products.map((product) => product.supplier_id));
  return suppliers.size === 1 ? ([...suppliers][0] ?? null) : null;
}

function lineRow(product: Orderable | undefined, line: OrderLineRequest, position: number) {
  if (!product) {
    throw new Problem('not_found', { what: 'product', id: line.productId }, '/productId');
  }
  const pack = packOf(product, line.packLabel);
  const listed = priceAt(pack.listPrice, pack.breaks, line.packs);
  return {
    position,
    product_id: product.id,
    pack_label: pack.label,
    pack_quantity: pack.quantity,
    order_code: pack.orderCode,
    packs: line.packs,
    pack_price: line.packPrice === undefined ? listed : fixed(line.packPrice, 6),
  };
}

function packOf({ name, packs }: Orderable, label: string | undefined): OrderablePack {
  const all = packs ?? [];
  const [first] = all;
  if (!first) throw new Problem('product_without_pack', { product: name }, '/productId');
  const known = all.map((pack) => pack.label);
  if (label === undefined) {
    if (all.length === 1) return first;
    throw new Problem('which_pack', { product: name, known }, '/packLabel');
  }
  const named = all.find((pack) => pack.label === label);
  if (!named) throw new Problem('unknown_pack', { product: name, label, known }, '/packLabel');
  return named;
}

/** What is on the shelf, what it was worth on a past day, what was used. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, dayIn } from '../../../shared/calendar.js';
import type { StockUnit } from '../../../shared/amount.js';
import type {
  ShelfItemView,
  ShelfStrengthView,
  ShelfValueView,
  UsageRowView,
} from '../../../shared/contract/stock.js';
import { canonical, decimal, fixed, round, sum } from '../../../shared/decimal.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import type { StockActing } from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { UsageRequest } from './reports.requests.js';
import { READ_SHELF_IDS, READ_SHELF_ON, readUsage } from './shelf.queries.js';
import { byStrength, shelfItem, type ShelfProduct } from './shelf.views.js';
import { StockFlagsService } from './stock-flags.service.js';

interface ShelfRow extends Record<string, unknown> {
  id: string;
  namedLater: boolean;
  entered: boolean;
}

interface UsageRow {
  product_id?: string;
  name?: string;
  strength?: string | null;
  month?: string;
  unit: StockUnit;
  quantity: string;
  value: string;
}

interface ShelfValueRow {
  id: string;
  name: string;
  unit: StockUnit;
  quantity: string;
  value: string;
}

@Injectable()
export class ShelfService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** Every product with what is there, when it runs out, and its flags; by name. */
  shelf(studioId: string, by: StockActing): Promise<{ items: ShelfItemView[] }> {
    return this.reading(studioId, async (tx) => {
      const products = await this.products(tx, by);
      return { items: products.map((product) => shelfItem(product, by.money)) };
    });
  }

  /** Developers, strength by strength, weakest first. */
  strengths(studioId: string, by: StockActing): Promise<{ items: ShelfStrengthView[] }> {
    return this.reading(studioId, async (tx) => ({
      items: byStrength(await this.products(tx, by), by.money),
    }));
  }

  /** What the shelf was worth at the end of a day, by when things happened. */
  valueOn(studioId: string, day: string): Promise<ShelfValueView> {
    return this.reading(studioId, async (tx) => {
      const [rows, [studio]] = await Promise.all([
        tx.query<ShelfValueRow & Record<string, unknown>>(READ_SHELF_ON, [day]),
        tx.query<{ currency: string }>(
          'select currency from studio where studio_id = current_studio()',
        ),
      ]);
      return {
        at: day,
        value: fixed(sum(rows.map((row) => decimal(row.value))), 6),
        currency: studio?.currency ?? '',
        rows: rows.map((row) => ({
          productId: row.id,
          name: row.name,
          onHand: { quantity: canonical(decimal(row.quantity)), unit: row.unit },
          value: fixed(decimal(row.value), 6),
        })),
      };
    });
  }

  /** What went into bowls or was used, net of what was undone. */
  usage(
    studioId: string,
    request: UsageRequest,
    by: StockActing,
  ): Promise<{ rows: UsageRowView[] }> {
    return this.reading(studioId, async (tx) => {
      const posting = await this.ledger.hold(tx, { productIds: [] }, by.recordedAt);
      const today = dayIn(posting.studio.timeZone, by.recordedAt);
      const to = request.to ?? dayAfter(today, 1);
      const from = request.from ?? dayAfter(to, -365);
      const rows = await tx.query<UsageRow & Record<string, unknown>>(readUsage(request.by), [
        from,
        to,
      ]);
      return { rows: rows.map((row) => usageView(row, by.money)) };
    });
  }

  private async products(tx: Transaction, by: StockActing): Promise<ShelfProduct[]> {
    const rows = await tx.query<ShelfRow>(READ_SHELF_IDS);
    const ids = rows.map((row) => row.id);
    const posting = await this.ledger.hold(tx, { productIds: [], alsoRead: ids }, by.recordedAt);
    const day = dayIn(posting.studio.timeZone, by.recordedAt);
    return rows.map(({ id, ...told }) => {
      const facts = posting.product(id);
      const stock = posting.stock(id);
      const flags = this.stockFlags.flags(stock, facts, day);
      return { ...told, facts, stock, flags, point: this.stockFlags.point(facts, day), day };
    });
  }

  private reading<T>(studioId: string, work: (tx: Transaction) => Promise<T>): Promise<T> {
    return inTransaction(this.dataSource, studioId, work);
  }
}

function usageView(row: UsageRow, money: boolean): UsageRowView {
  return {
    ...(row.product_id === undefined ? {} : { productId: row.product_id }),
    ...(row.name === undefined ? {} : { name: row.name }),
    ...(row.strength === undefined
      ? {}
      : { strength: row.strength === null ? null : canonical(decimal(row.strength)) }),
    ...(row.month === undefined ? {} : { month: row.month }),
    quantity: canonical(round(decimal(row.quantity), 3, 'half_even')),
    unit: row.unit,
    ...(money ? { value: fixed(decimal(row.value), 6) } : {}),
  };
}

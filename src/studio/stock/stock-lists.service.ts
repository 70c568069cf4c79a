/** Lists of the ledger: movements in pages or as CSV, deliveries, lots. */
import { Readable } from 'node:stream';
import { Inject, Injectable } from '@nestjs/common';
import { stringify } from 'csv-stringify/sync';
import { DataSource } from 'typeorm';
import type { DeliveryView, LotView, MovementView } from '../../../shared/contract/stock.js';
import { Problem } from '../../../shared/problems/problem.js';
import { forStudio } from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import type { StockActing } from './entries.js';
import { readMovements } from './movements.queries.js';
import { READ_DELIVERIES, READ_DELIVERY, READ_LOT_LIST } from './receiving.queries.js';
import type {
  DeliveryListRequest,
  LotListRequest,
  MovementListRequest,
} from './reports.requests.js';
import {
  deliveryView,
  lotView,
  movementView,
  type DeliveryRow,
  type LotListRow,
  type MovementRow,
} from './stock.views.js';

const csvRules = { record_delimiter: 'windows' } as const;

/** Rows read at a time for a CSV file. */
const csvRows = 1000;

@Injectable()
export class StockListsService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** Movements, the last recorded first. */
  async movements(
    studioId: string,
    request: MovementListRequest,
    by: StockActing,
  ): Promise<Page<MovementView>> {
    const before = cursorValues(request, 1)?.[0];
    const rows = await this.read(studioId, request, before, request.limit + 1);
    return pageOf(
      rows,
      request.limit,
      (row) => [row.seq],
      (row) => movementView(row, by.money),
    );
  }

  /** All of them as a CSV file (RFC 4180), read and sent piece by piece. */
  movementsAsCsv(studioId: string, request: MovementListRequest, by: StockActing): Readable {
    return Readable.from(this.csv(studioId, request, by));
  }

  /** Deliveries, newest first. */
  async deliveries(studioId: string, request: DeliveryListRequest): Promise<Page<DeliveryView>> {
    const [day, id] = cursorValues(request, 2) ?? [null, null];
    const rows = await forStudio(this.dataSource, studioId).query<
      DeliveryRow & Record<string, unknown>
    >(READ_DELIVERIES, [
      day,
      id,
      request.limit + 1,
      request.supplierId ?? null,
      request.productId ?? null,
    ]);
    return pageOf(rows, request.limit, (row) => [row.delivered_on, row.id], deliveryView);
  }

  /** @throws Problem `not_found` */
  async delivery(studioId: string, id: string): Promise<DeliveryView> {
    const [row] = await forStudio(this.dataSource, studioId).query<
      DeliveryRow & Record<string, unknown>
    >(READ_DELIVERY, [id]);
    if (!row) throw new Problem('not_found', { what: 'delivery', id });
    return deliveryView(row);
  }

  /** Lots, newest first; only those that hold something unless asked for all. */
  async lots(studioId: string, request: LotListRequest, by: StockActing): Promise<Page<LotView>> {
    const [day, id] = cursorValues(request, 2) ?? [null, null];
    const rows = await forStudio(this.dataSource, studioId).query<
      LotListRow & Record<string, unknown>
    >(READ_LOT_LIST, [
      day,
      id,
      request.limit + 1,
      request.productId ?? null,
      request.empty,
      by.recordedAt.slice(0, 10),
    ]);
    return pageOf(
      rows,
      request.limit,
      (row) => [row.received_on, row.id],
      (row) => lotView(row, by.money),
    );
  }

  private async *csv(studioId: string, request: MovementListRequest, by: StockActing) {
    let before: string | undefined;
    for (;;) {
      const rows = await this.read(studioId, request, before, csvRows);
      const lines = rows.map((row) => Object.values(csvRow(row, by.money)));
      if (before === undefined) yield stringify([columns(by.money)], csvRules);
      if (lines.length > 0) yield stringify(lines, csvRules);
      before = rows.at(-1)?.seq;
      if (rows.length < csvRows || before === undefined) return;
    }
  }

  private read(
    studioId: string,
    request: MovementListRequest,
    before: string | undefined,
    limit: number,
  ): Promise<MovementRow[]> {
    const { product, lot, bowl, visit, journal, person, kind, from, to } = request;
    const given = { product, lot, bowl, visit, journal, person, kind, from, to, before };
    const { text, parameters } = readMovements(given, limit);
    return forStudio(this.dataSource, studioId).query<MovementRow & Record<string, unknown>>(
      text,
      parameters,
    );
  }
}

function columns(money: boolean): string[] {
  const plain = ['seq', 'happenedAt', 'recordedAt', 'journalKind', 'product', 'from', 'to'];
  const more = ['quantity', 'unit', ...(money ? ['value'] : []), 'reason', 'lotId', 'productId'];
  return [...plain, ...more, 'bowlId', 'visitId', 'personId', 'journalId', 'id', 'reversesId'];
}

function csvRow(row: MovementRow, money: boolean): Record<string, string | null> {
  const view = movementView(row, money);
  const known: Record<string, string | null> = {
    seq: view.seq,
    happenedAt: view.happenedAt,
    recordedAt: view.recordedAt,
    journalKind: view.journalKind,
    product: text(row.name),
    from: view.from,
    to: view.to,
    quantity: view.quantity,
    unit: view.unit,
    value: view.value ?? null,
    reason: view.reason,
    lotId: view.lotId,
    productId: view.productId,
    bowlId: view.toBowlId ?? view.fromBowlId,
    visitId: view.visitId,
    personId: view.personId,
    journalId: view.journalId,
    id: view.id,
    reversesId: view.reversesId,
  };
  return Object.fromEntries(columns(money).map((name) => [name, known[name] ?? null]));
}

/** A name that a spreadsheet would take for a formula is shown as the text that it is. */
function text(name: string): string {
  return /^[=+\-@\t\r]/.test(name) ? `'${name}` : name;
}

/** A history from a file: deliveries and uses of days gone by, all booked or none; and into one. */
import type { Readable } from 'node:stream';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { LineCheck } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { contentHash } from '../../platform/database/once.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { productIdsOf, type StockActing } from './entries.js';
import { EXPORT_DELIVERIES, EXPORT_USAGE, READ_ENTERED, READ_NOONS } from './history.queries.js';
import { LedgerService } from './ledger.service.js';
import { ReceivingService } from './receiving.service.js';
import { MovementListRequest } from './reports.requests.js';
import { StockListsService } from './stock-lists.service.js';
import type { DeliveryRequest, TakenLineRequest } from './stock.requests.js';
import { TakingService } from './taking.service.js';

/** What was used without a bowl on one day, for one purpose. */
export interface DayOfUse {
  /** YYYY-MM-DD in the studio's time zone. */
  readonly usedOn: string;
  readonly purpose?: string;
  readonly lines: TakenLineRequest[];
}

/** What a line of an export holds, by column; products by `productId`. */
export type HistoryLine = Readonly<Record<string, unknown>>;

interface Options {
  /** Do all of it, and undo it at the end. */
  readonly dry: boolean;
}

/** One entry of the file with its day, and how it is booked. */
interface PastEntry {
  readonly id: string;
  readonly day: string;
  readonly productIds: readonly string[];
  readonly book: (tx: Transaction, noon: string) => Promise<unknown>;
}

@Injectable()
export class HistoryService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(ReceivingService) private readonly receiving: ReceivingService,
    @Inject(TakingService) private readonly taking: TakingService,
    @Inject(StockListsService) private readonly lists: StockListsService,
  ) {}

  /**
   * Books deliveries in the order of their days. One with the same content as an earlier one of
   * the studio's files is refused.
   * @throws LinesRefused with what each refused delivery says first
   */
  async deliver(studioId: string, deliveries: readonly DeliveryRequest[], { dry }: Options) {
    const by = this.acting();
    const entries = deliveries.map((request): PastEntry => {
      const id = idOf('delivery', request);
      const productIds = productIdsOf(request.lines);
      const book = (tx: Transaction) => this.receiving.deliver(tx, { ...request, id }, by);
      return { id, day: request.deliveredOn, productIds, book };
    });
    await this.bookAll(studioId, entries, '/deliveredOn', by, dry);
  }

  /**
   * Books uses in the order of their days, at noon of each. Days with the same content as in an
   * earlier file are refused.
   * @throws LinesRefused with what each refused day says first
   */
  async use(studioId: string, days: readonly DayOfUse[], { dry }: Options): Promise<void> {
    const by = this.acting();
    const entries = days.map((request): PastEntry => {
      const { usedOn, ...rest } = request;
      const id = idOf('use', request);
      const book = (tx: Transaction, usedAt: string) =>
        this.taking.use(tx, { ...rest, id, usedAt }, by);
      return { id, day: usedOn, productIds: productIdsOf(request.lines), book };
    });
    await this.bookAll(studioId, entries, '/usedOn', by, dry);
  }

  /** A line for each line of a delivery that stands. */
  deliveryLines(studioId: string): Promise<HistoryLine[]> {
    return forStudio(this.dataSource, studioId).query(EXPORT_DELIVERIES);
  }

  /** A line for each day and product: what went into bowls and what was used without one. */
  usageLines(studioId: string): Promise<HistoryLine[]> {
    return forStudio(this.dataSource, studioId).query(EXPORT_USAGE);
  }

  /** All movements as CSV, the last recorded first, piece by piece in whole lines. */
  movements(studioId: string): Readable {
    return this.lists.movementsAsCsv(studioId, new MovementListRequest(), this.acting());
  }

  /** The studio itself, told by nobody's device. */
  private acting(): StockActing {
    const recordedAt = this.clock.now();
    return {
      ...{ personId: null, benchId: null, recordedAt, money: true, ownOnly: false },
      when: deviceTimes(undefined, recordedAt),
    };
  }

  private async bookAll(
    studioId: string,
    entries: readonly PastEntry[],
    dayPointer: string,
    by: StockActing,
    dry: boolean,
  ): Promise<void> {
    const work = async (tx: Transaction): Promise<void> => {
      const productIds = entries.flatMap((entry) => entry.productIds);
      const [noons] = await Promise.all([
        this.noons(tx, entries, by.recordedAt),
        // all products in the one order of locking, before the days take them in theirs
        this.ledger.hold(tx, { productIds }, by.recordedAt),
        this.refuseEntered(tx, entries),
      ]);
      const check = new LineCheck(entries.length);
      for (const [index, entry] of inOrderOfDays(entries)) {
        const { noon, today } = noons.get(entry.day) ?? { noon: by.recordedAt, today: entry.day };
        const future = { day: entry.day, today };
        if (entry.day > today)
          check.refuse(index, new Problem('day_in_future', future, dayPointer));
        else await booked(entry.book(tx, noon), (problem) => check.refuse(index, problem));
      }
      check.done();
    };
    await inTransaction(this.dataSource, studioId, work, { dry });
  }

  /** @throws LinesRefused with `entered_already` */
  private async refuseEntered(tx: Transaction, entries: readonly PastEntry[]): Promise<void> {
    const ids = entries.map(({ id }) => id);
    const rows = await tx.query<{ id: string }>(READ_ENTERED, [ids]);
    const entered = new Set(rows.map(({ id }) => id));
    const check = new LineCheck(entries.length);
    for (const [index, { id, day }] of entries.entries()) {
      if (entered.has(id)) check.refuse(index, new Problem('entered_already', { day }));
      entered.add(id);
    }
    check.done();
  }

  /** Noon of each day, or now where noon of today is still to come. */
  private async noons(tx: Transaction, entries: readonly PastEntry[], now: string) {
    const days = [...new Set(entries.map(({ day }) => day))];
    const rows = await tx.query<{ day: string; noon: Date; today: string }>(READ_NOONS, [
      days,
      now,
    ]);
    return new Map(
      rows.map(({ day, noon, today }) => {
        const at = noon.toISOString();
        return [day, { noon: day === today && at > now ? now : at, today }];
      }),
    );
  }
}

/** Waits for `work`; a refusal is told to `refuse`. */
async function booked(work: Promise<unknown>, refuse: (problem: Problem) => void): Promise<void> {
  try {
    await work;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    refuse(error as Problem);
  }
}

/** Entries with their places in the file, the earliest day first, a day in the file's order. */
function inOrderOfDays(entries: readonly PastEntry[]): [number, PastEntry][] {
  return [...entries.entries()].sort(([, a], [, b]) =>
    a.day < b.day ? -1 : a.day > b.day ? 1 : 0,
  );
}

/**
 * An entry's id by its content, so that a file which is read twice is noticed: the first 128 bits
 * of its SHA-256 as a UUID of version 8 (RFC 9562, 5.8).
 */
function idOf(kind: 'delivery' | 'use', content: object): string {
  const hex = contentHash({ kind, ...content }).toString('hex');
  const variant = 'b'; // 10xx in binary: of the four that RFC 9562 allows
  const parts = [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`];
  return [...parts, `${variant}${hex.slice(17, 20)}`, hex.slice(20, 32)].join('-');
}

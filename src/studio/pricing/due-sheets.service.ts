/** Brings final sheets up to date before they are added up: late bowls, corrections. */
import { Inject, Injectable, type OnModuleDestroy } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../../platform/clock.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import {
  HAVE_LOOKED,
  LOCK_VISITS,
  READ_DUE,
  READ_DUE_AFTER_CORRECTION,
  READ_LOOKED,
  READ_NEWEST_OF_MANY,
} from './due-sheets.queries.js';
import { StudioService } from '../people/studio.service.js';
import { KEEP_SHEETS } from './price-sheets.queries.js';
import { SheetRowsService } from './sheet-rows.service.js';
import { keptRow, nextSheet, workedSheet } from './worked-sheet.js';

interface NewestRow extends Record<string, unknown> {
  readonly visit_id: string;
  readonly id: string;
  readonly version: number;
  readonly basis: Buffer;
}

/** So many sheets are made in one transaction; between two of them others have their turn. */
const atOnce = 50;
/** Before every day of a studio, and after it. */
const allDays = ['1900-01-01', '2999-12-31'] as const;

@Injectable()
export class DueSheetsService implements OnModuleDestroy {
  /** The work under way, by studio: who comes meanwhile waits and then finds little to do. */
  private readonly making = new Map<string, Promise<void>>();
  private stopped = false;

  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(SheetRowsService) private readonly sheetRows: SheetRowsService,
  ) {}

  /** Sheets of every day, made while nobody waits for them. */
  makeAll(studioId: string): Promise<void> {
    return this.make(studioId, ...allDays);
  }

  /**
   * Makes every final sheet that is due; of visits that have none at all, those of the days from
   * `from` to before `to`. Visits without a tax rule get none.
   */
  async make(studioId: string, from: string, to: string): Promise<void> {
    await this.making.get(studioId)?.catch(() => undefined);
    const work = this.makeNow(studioId, from, to);
    this.making.set(studioId, work);
    try {
      await work;
    } finally {
      if (this.making.get(studioId) === work) this.making.delete(studioId);
    }
  }

  /** Lets go of the database after the sheets in hand. */
  async onModuleDestroy(): Promise<void> {
    this.stopped = true;
    await Promise.allSettled(this.making.values());
  }

  private async makeNow(studioId: string, from: string, to: string): Promise<void> {
    const { seq, visitIds } = await this.due(studioId, from, to);
    for (let first = 0; first < visitIds.length; first += atOnce) {
      if (this.stopped) return;
      const some = visitIds.slice(first, first + atOnce);
      await inTransaction(this.dataSource, studioId, (tx) => this.keep(tx, some));
    }
    await inTransaction(this.dataSource, studioId, (tx) =>
      tx.execute(HAVE_LOOKED, [this.clock.now(), seq]),
    );
  }

  private due(
    studioId: string,
    from: string,
    to: string,
  ): Promise<{ seq: string; visitIds: string[] }> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const [{ settings }, [looked]] = await Promise.all([
        this.studio.pricing(tx),
        tx.query<{ seq: string; corrected: boolean }>(READ_LOOKED),
      ]);
      const { seq, corrected } = looked ?? { seq: '0', corrected: false };
      const read = corrected ? READ_DUE_AFTER_CORRECTION : READ_DUE;
      const rows = await tx.query<{ id: string }>(read, [seq, from, to, settings.taxes !== null]);
      return { seq, visitIds: rows.map((row) => row.id) };
    });
  }

  /** Works the visits' sheets out and keeps those that rest on something else than the newest. */
  private async keep(tx: Transaction, visitIds: readonly string[]): Promise<void> {
    await tx.query(LOCK_VISITS, [visitIds]);
    const [all, newest] = await Promise.all([
      this.sheetRows.ofMany(tx, visitIds),
      tx.query<NewestRow>(READ_NEWEST_OF_MANY, [visitIds]),
    ]);
    const newestOf = new Map(newest.map((row) => [row.visit_id, row]));
    const kept = all
      .filter((rows) => rows.terms.pricing.taxes !== null)
      .map(workedSheet)
      .flatMap((worked) => {
        const before = newestOf.get(worked.visit.id);
        if (!worked.isFinal || before?.basis.equals(worked.basis)) return [];
        return keptRow(worked, nextSheet(worked, before, this.clock.now()));
      });
    if (kept.length > 0) await tx.query(KEEP_SHEETS, [JSON.stringify(kept)]);
  }
}

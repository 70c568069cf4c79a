/** Brings final sheets up to date before they are added up: late bowls, corrections. */
import { Inject, Injectable } from '@nestjs/common';
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

/** So many sheets are made in one transaction. */
const atOnce = 200;

@Injectable()
export class DueSheetsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(SheetRowsService) private readonly sheetRows: SheetRowsService,
  ) {}

  /**
   * Makes every final sheet that is due; of visits that have none at all, those of the days from
   * `from` to before `to`. Visits without a tax rule get none.
   */
  async make(studioId: string, from: string, to: string): Promise<void> {
    const { seq, visitIds } = await this.due(studioId, from, to);
    for (let first = 0; first < visitIds.length; first += atOnce) {
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

/** Brings final sheets up to date before they are added up: late bowls, corrections. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../../platform/clock.js';
import { inTransaction } from '../../platform/database/transaction.js';
import {
  HAVE_LOOKED,
  READ_DUE,
  READ_DUE_AFTER_CORRECTION,
  READ_LOOKED,
} from './due-sheets.queries.js';
import { PriceSheetsService } from './price-sheets.service.js';

@Injectable()
export class DueSheetsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(PriceSheetsService) private readonly sheets: PriceSheetsService,
  ) {}

  /** Makes every final sheet that is due; visits without a tax rule have none. */
  async make(studioId: string): Promise<void> {
    const { seq, visitIds } = await this.due(studioId);
    for (const visitId of visitIds) {
      await inTransaction(this.dataSource, studioId, (tx) => this.sheets.final(tx, visitId));
    }
    await inTransaction(this.dataSource, studioId, (tx) =>
      tx.execute(HAVE_LOOKED, [this.clock.now(), seq]),
    );
  }

  private due(studioId: string): Promise<{ seq: string; visitIds: string[] }> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const [looked] = await tx.query<{ seq: string; corrected: boolean }>(READ_LOOKED);
      const { seq, corrected } = looked ?? { seq: '0', corrected: false };
      const read = corrected ? READ_DUE_AFTER_CORRECTION : READ_DUE;
      const rows = await tx.query<{ id: string }>(read, [seq]);
      return { seq, visitIds: rows.map((row) => row.id) };
    });
  }
}

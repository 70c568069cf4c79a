/** Whether what is mixed in a visit has gone past what its client was quoted; no amounts. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { Clock } from '../../platform/clock.js';
import { forStudio } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { VisitsService } from '../visits/visits.service.js';
import { READ_MIXED_AND_QUOTED } from './past-the-quote.queries.js';

@Injectable()
export class PastTheQuoteService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(VisitsService) private readonly visits: VisitsService,
  ) {}

  /**
   * True once the grams mixed, and `more` that are planned, pass the 90 % point that was quoted.
   * @throws Problem `not_found`; a bench finds today's visits only
   */
  async look(caller: Caller, visitId: string, more: Decimal): Promise<{ past: boolean }> {
    const now = this.clock.now();
    await this.visits.show(visitId, caller, now);
    const reader = forStudio(this.dataSource, caller.studioId);
    const [row] = await reader.query<{ mixed: string; quoted: string | null }>(
      READ_MIXED_AND_QUOTED,
      [visitId, now],
    );
    if (!row || row.quoted === null) return { past: false };
    return { past: decimal(row.mixed).plus(more).greaterThan(row.quoted) };
  }
}

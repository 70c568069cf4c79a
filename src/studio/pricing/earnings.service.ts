/** Earnings by service, person or month, from final price sheets; the house's own beside it. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, dayIn } from '../../../shared/calendar.js';
import type { EarningsKey, EarningsReportView } from '../../../shared/contract/earnings.js';
import { decimal, fixed } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { mayAct, whoMay, type Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import { DueSheetsService } from './due-sheets.service.js';
import {
  READ_HOUSE_BOWLS,
  READ_HOUSE_USES,
  READ_RUNNING,
  readEarnings,
} from './earnings.queries.js';
import type { EarningsRequest } from './earnings.requests.js';
import { earningsView, ofKind, redoneView, rowViews, type EarningsRow } from './earnings.views.js';

const statements = {
  service: readEarnings('service'),
  person: readEarnings('person'),
  month: readEarnings('month'),
};

const nothing: Record<EarningsKey, string> = {
  service: 'no service',
  person: 'nobody noted',
  month: '',
};

@Injectable()
export class EarningsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(DueSheetsService) private readonly due: DueSheetsService,
  ) {}

  /**
   * What clients' visits earned, over the newest final sheets; sheets that are due are made first.
   * @throws Problem `not_your_right` by person unless the owner asks, `from_after_to`
   */
  async report(caller: Caller, request: EarningsRequest): Promise<EarningsReportView> {
    const { by } = request;
    if (by === 'person' && !mayAct(caller, 'owner')) {
      throw new Problem('not_your_right', { needs: whoMay('owner') }, '/by');
    }
    const { timeZone, currency } = await this.studio.show(caller.studioId, false);
    const to = request.to ?? dayAfter(dayIn(timeZone, this.clock.now()), 1);
    const from = request.from ?? dayAfter(to, -365);
    if (from >= to) throw new Problem('from_after_to', { from, to }, '/to');
    await this.due.make(caller.studioId, from, to);
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const [rows, house, [running]] = await Promise.all([
        tx.query<EarningsRow>(statements[by], [from, to]),
        houseOf(tx, from, to),
        tx.query<{ visits: number }>(READ_RUNNING, [from, to]),
      ]);
      const shown = rowViews(rows, { currency, redone: by !== 'person', none: nothing[by] });
      return {
        ...{ from, to, currency },
        rows: inOrder(shown, by),
        totals: earningsView(ofKind(rows, 'client'), currency),
        redone: redoneView(ofKind(rows, 'redo'), currency),
        house,
        running: running?.visits ?? 0,
      };
    });
  }
}

async function houseOf(
  tx: Transaction,
  from: string,
  to: string,
): Promise<EarningsReportView['house']> {
  const [rows, [used]] = await Promise.all([
    tx.query<{ kind: string; bowls: number; value: string }>(READ_HOUSE_BOWLS, [from, to]),
    tx.query<{ uses: string; discards: string }>(READ_HOUSE_USES, [from, to]),
  ]);
  return {
    bowls: rows.reduce((all, row) => all + row.bowls, 0),
    rows: rows.map(({ kind, bowls, value }) => ({
      ...{ kind: kind || 'no visit', bowls },
      value: fixed(decimal(value), 6),
    })),
    uses: fixed(decimal(used?.uses ?? '0'), 6),
    discards: fixed(decimal(used?.discards ?? '0'), 6),
  };
}

/** Months as they follow, people by name, services by what they leave. */
function inOrder(rows: EarningsReportView['rows'], by: EarningsKey): EarningsReportView['rows'] {
  return [...rows].sort((a, b) => {
    if (by === 'service') {
      const more = decimal(b.contribution).comparedTo(decimal(a.contribution));
      if (more !== 0) return more;
    }
    return a.label < b.label ? -1 : a.label > b.label ? 1 : 0;
  });
}

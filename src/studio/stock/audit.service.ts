/** Recomputes every invariant of the ledger from its movements and names the first breach. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { AuditCheckView, AuditView } from '../../../shared/contract/stock.js';
import { forStudio } from '../../platform/database/transaction.js';
import {
  countsAndShortfalls,
  lotHoldings,
  monthlyFlows,
  pourHoldings,
  productHoldings,
} from './audit-balances.queries.js';
import {
  appendOnly,
  bowlsWeigh,
  poursMoved,
  settledBowls,
  studiosApart,
} from './audit-bowls.queries.js';
import {
  conserved,
  emptiedLots,
  lotsNotBelowZero,
  onceOnly,
  reversals,
} from './audit-ledger.queries.js';

/** In the order in which they are told. */
export const auditChecks = [
  conserved,
  lotsNotBelowZero,
  emptiedLots,
  settledBowls,
  poursMoved,
  bowlsWeigh,
  reversals,
  onceOnly,
  productHoldings,
  lotHoldings,
  pourHoldings,
  monthlyFlows,
  countsAndShortfalls,
  appendOnly,
  studiosApart,
] as const;

@Injectable()
export class AuditService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /**
   * Audits one studio's ledger; each check is one statement, so that it sees one moment.
   * @param since look only at movements after this one, where a check can; 0 for all
   */
  async audit(studioId: string, since = 0): Promise<AuditView> {
    const reader = forStudio(this.dataSource, studioId);
    const [last] = await reader.query<{ seq: string }>(
      `select coalesce(max(seq), 0)::text as seq from movement where studio_id = current_studio()`,
    );
    const checks: AuditCheckView[] = [];
    for (const { name, sql } of auditChecks) {
      const [row] = await reader.query<{ rows: string; breach: string | null }>(sql, [since]);
      const breach = row?.breach ?? null;
      checks.push({
        name,
        ok: breach === null,
        rows: Number.parseInt(row?.rows ?? '0', 10),
        ...(breach === null ? {} : { firstBreach: breach }),
      });
    }
    return { ok: checks.every((each) => each.ok), checks, seq: last?.seq ?? '0' };
  }
}

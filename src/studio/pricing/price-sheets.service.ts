/** Price sheets of visits: worked out while running, kept for ever when final, then replaced. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { PriceSheetView, SheetView } from '../../../shared/contract/pricing.js';
import { minorDigits } from '../../../shared/currency.js';
import { decimal, fixed, sum } from '../../../shared/decimal.js';
import { targetBasisOf, targetPrice, type Target } from '../../../shared/pricing-target.js';
import { Clock } from '../../platform/clock.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import { VisitsService, type VisitRow } from '../visits/visits.service.js';
import { KEEP_SHEETS, READ_NEWEST_SHEET, READ_SHEETS } from './price-sheets.queries.js';
import { targetView } from './price-sheets.views.js';
import { SheetRowsService } from './sheet-rows.service.js';
import { termsOf } from './terms.js';
import { keptRow, nextSheet, workedSheet, type KeptSheet, type Worked } from './worked-sheet.js';

@Injectable()
export class PriceSheetsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(VisitsService) private readonly visits: VisitsService,
    @Inject(SheetRowsService) private readonly sheetRows: SheetRowsService,
  ) {}

  /**
   * The sheet of a visit. Once the visit is closed and none of its bowls is open it is final: kept
   * as it is, and replaced by a new one when what it rests on has changed.
   * @throws Problem `not_found`, `no_tax_rule`, and those of `targetPrice`
   */
  show(caller: Caller, visitId: string, target: Target | undefined): Promise<PriceSheetView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const worked = await this.work(tx, visitId);
      const kept = worked.isFinal ? await this.keep(tx, worked) : undefined;
      return {
        ...(kept ? keptView(worked.visit, kept) : runningView(worked)),
        ...(target ? { target: this.target(worked, target) } : {}),
        ...(await this.redone(tx, worked)),
      };
    });
  }

  /** Every final sheet of a visit, the newest first; none is ever changed. @throws `not_found` */
  all(caller: Caller, visitId: string): Promise<{ rows: PriceSheetView[] }> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const visit = await this.visits.read(tx, visitId, this.clock.now());
      const rows = await tx.query<KeptSheet & Record<string, unknown>>(READ_SHEETS, [visitId]);
      return { rows: rows.map((row) => keptView(visit, row)) };
    });
  }

  /** Makes and keeps the final sheet of a visit that was just closed; none without a tax rule. */
  async final(tx: Transaction, visitId: string): Promise<SheetView | undefined> {
    const visit = await this.visits.read(tx, visitId, this.clock.now());
    const { terms } = await termsOf(tx, this.studio, visit);
    if (terms.pricing.taxes === null) return undefined;
    const worked = await this.work(tx, visitId);
    return worked.isFinal ? (await this.keep(tx, worked)).sheet : worked.sheet;
  }

  private async work(tx: Transaction, visitId: string): Promise<Worked> {
    return workedSheet(await this.sheetRows.of(tx, visitId));
  }

  /** The sheet that is kept of what was worked out; a new one where it rests on something else. */
  private async keep(tx: Transaction, seen: Worked): Promise<KeptSheet> {
    const visitId = seen.visit.id;
    const before = await this.newest(tx, visitId);
    if (before?.basis.equals(seen.basis)) return before;
    await this.visits.lock(tx, visitId);
    const [worked, newest] = [await this.work(tx, visitId), await this.newest(tx, visitId)];
    if (newest?.basis.equals(worked.basis)) return newest;
    const kept = nextSheet(worked, newest, this.clock.now());
    await tx.query(KEEP_SHEETS, [JSON.stringify([keptRow(worked, kept)])]);
    return kept;
  }

  private async newest(tx: Transaction, visitId: string): Promise<KeptSheet | undefined> {
    const rows = await tx.query<KeptSheet & Record<string, unknown>>(READ_NEWEST_SHEET, [visitId]);
    return rows[0];
  }

  private target({ input, rows }: Worked, target: Target) {
    const { priceStep } = rows.terms.pricing;
    const step = priceStep === null ? undefined : decimal(priceStep);
    return targetView(targetPrice(targetBasisOf(input, step), target), rows.currency);
  }

  /** What it cost to do the visit again, beside its own contribution. */
  private async redone(tx: Transaction, first: Worked): Promise<Pick<PriceSheetView, 'redone'>> {
    if (first.visit.redone_by.length === 0) return {};
    const visits: { visitId: string; contribution: string }[] = [];
    for (const visitId of first.visit.redone_by) {
      const { sheet } = await this.work(tx, visitId);
      visits.push({ visitId, contribution: sheet.totals.contribution });
    }
    const all = [first.sheet.totals.contribution, ...visits.map((visit) => visit.contribution)];
    const after = fixed(sum(all.map((each) => decimal(each))), minorDigits(first.rows.currency));
    return { redone: { visits, contributionAfter: after } };
  }
}

function runningView({ visit, sheet }: Worked): PriceSheetView {
  const what = { id: null, visitId: visit.id, visitKind: visit.kind, version: null, madeAt: null };
  return { ...what, state: 'running', ...sheet };
}

function keptView(visit: VisitRow, kept: KeptSheet): PriceSheetView {
  const { id, version, replaces, made_at: madeAt, sheet } = kept;
  return {
    id,
    visitId: visit.id,
    visitKind: visit.kind,
    state: 'final',
    version,
    ...(replaces === null ? {} : { replaces }),
    madeAt,
    ...sheet,
  };
}

/** The daily check of a scale: a sealed tub weighs today what it weighed before, or it is said. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { ScaleCheckView } from '../../../shared/contract/scales.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { compareCheckWeight } from '../../../shared/weighing/check-weight.js';
import { forStudio, type Reader, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { LIST_CHECKS, PUT_CHECK } from './scale-checks.queries.js';
import type { ScaleCheckRequest } from './scale-checks.requests.js';

interface CheckRow {
  readonly id: string;
  readonly benchId: string | null;
  readonly what: string;
  readonly weight: string;
  readonly interval: string;
  readonly checkedAt: string;
  readonly before: { readonly weight: string; readonly checkedAt: string } | null;
  readonly bowls: number;
}

const shown = 50;

@Injectable()
export class ScaleChecksService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** The newest first; at a bench its own. */
  async list(caller: Caller): Promise<{ rows: ScaleCheckView[] }> {
    const reader = forStudio(this.dataSource, caller.studioId);
    return { rows: await this.read(reader, caller) };
  }

  /** Keeps a check and compares it with the one before. */
  async check(
    tx: Transaction,
    request: ScaleCheckRequest,
    by: { caller: Caller; at: string; recordedAt: string },
  ): Promise<ScaleCheckView> {
    const { id = uuidv7(), what, weight, interval } = request;
    const { caller, at, recordedAt } = by;
    await tx.query(PUT_CHECK, [
      ...[id, caller.benchId ?? null, what, canonical(weight.value), canonical(interval)],
      ...[caller.personId ?? null, at, recordedAt],
    ]);
    const kept = (await this.read(tx, caller)).find((each) => each.id === id);
    if (!kept) throw new Error('The check was not stored.');
    return kept;
  }

  private async read(reader: Reader, caller: Caller): Promise<ScaleCheckView[]> {
    const rows = await reader.query<CheckRow & Record<string, unknown>>(LIST_CHECKS, [
      caller.benchId ?? null,
      shown,
    ]);
    return rows.map(checkView);
  }
}

function checkView({ weight, interval, before, ...check }: CheckRow): ScaleCheckView {
  const grams = (quantity: string) => ({ quantity, unit: 'g' as const });
  const compared =
    before && compareCheckWeight(decimal(before.weight), decimal(weight), decimal(interval));
  return {
    ...{ id: check.id, benchId: check.benchId, what: check.what, checkedAt: check.checkedAt },
    weight: grams(weight),
    before: before && { weight: grams(before.weight), checkedAt: before.checkedAt },
    difference: compared && canonical(compared.differenceGrams),
    off: compared?.off ?? false,
    bowls: check.bowls,
  };
}

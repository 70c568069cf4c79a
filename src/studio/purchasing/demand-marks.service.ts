/** What people mark of demand: days without a product, and a product in place of another. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { OutOfStockView, ReplacementView } from '../../../shared/contract/purchasing.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import * as sql from './demand-marks.queries.js';
import type { OutOfStockRequest, ReplacesRequest } from './demand-marks.requests.js';

interface OutRow {
  readonly id: string;
  readonly product_id: string;
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

interface ReplacedRow {
  readonly product_id: string;
  readonly name: string;
  readonly replaces_id: string;
  readonly replaces: string;
  readonly factor: string;
}

@Injectable()
export class DemandMarksService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  async outOfStock(studioId: string, productId?: string): Promise<OutOfStockView[]> {
    const reader = forStudio(this.dataSource, studioId);
    const rows = await reader.query<OutRow & Record<string, unknown>>(sql.LIST_OUT, [
      productId ?? null,
    ]);
    return rows.map(({ id, product_id: of, name, from, to }) => {
      return { id, productId: of, name, from, to };
    });
  }

  /** @throws Problem `not_found`, `days_back_to_front` */
  async markOut(
    tx: Transaction,
    request: OutOfStockRequest,
    { caller, now }: { caller: Caller; now: string },
  ): Promise<OutOfStockView> {
    const { id = uuidv7(), productId, from, to = from } = request;
    if (to < from) throw new Problem('days_back_to_front', { from, to }, '/to');
    const name = await nameOf(tx, productId, '/productId');
    await tx.execute(sql.PUT_OUT, [id, productId, from, to, caller.personId ?? null, now]);
    return { id, productId, name, from, to };
  }

  /** @throws Problem `not_found` */
  dropOut(studioId: string, id: string): Promise<void> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const dropped = await tx.execute(sql.DROP_OUT, [id]);
      if (dropped === 0) throw new Problem('not_found', { what: 'mark', id });
    });
  }

  async replaced(studioId: string): Promise<ReplacementView[]> {
    const reader = forStudio(this.dataSource, studioId);
    const rows = await reader.query<ReplacedRow & Record<string, unknown>>(sql.LIST_REPLACED);
    return rows.map(replacementView);
  }

  /**
   * Says which product another one replaces; null takes it back.
   * @throws Problem `not_found`, `replaces_itself`, `replaced_already`, `replaced_in_a_ring`
   */
  setReplaced(
    studioId: string,
    productId: string,
    { replacesId, factor }: ReplacesRequest,
  ): Promise<ReplacementView[]> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      await nameOf(tx, productId, '');
      await tx.execute(sql.DROP_REPLACED, [productId]);
      if (replacesId !== null) {
        await nameOf(tx, replacesId, '/replacesId');
        const rows = await tx.query<ReplacedRow & Record<string, unknown>>(sql.LIST_REPLACED);
        refuseImpossible(productId, replacesId, rows);
        await tx.execute(sql.PUT_REPLACED, [productId, replacesId, canonical(factor)]);
      }
      const all = await tx.query<ReplacedRow & Record<string, unknown>>(sql.LIST_REPLACED);
      return all.map(replacementView);
    });
  }
}

async function nameOf(tx: Transaction, id: string, at: string): Promise<string> {
  const [product] = await tx.query<{ name: string }>(sql.KNOWN_PRODUCTS, [[id]]);
  if (!product) throw new Problem('not_found', { what: 'product', id }, at);
  return product.name;
}

function refuseImpossible(
  productId: string,
  replacesId: string,
  rows: readonly ReplacedRow[],
): void {
  if (productId === replacesId) throw new Problem('replaces_itself', {}, '/replacesId');
  const taken = rows.find(({ replaces_id: old }) => old === replacesId);
  if (taken) throw new Problem('replaced_already', { by: taken.name }, '/replacesId');
  const next = new Map(rows.map((row) => [row.product_id, row.replaces_id]));
  for (let old: string | undefined = replacesId; old !== undefined; old = next.get(old)) {
    if (old === productId) throw new Problem('replaced_in_a_ring', {}, '/replacesId');
  }
}

function replacementView(row: ReplacedRow): ReplacementView {
  return {
    productId: row.product_id,
    name: row.name,
    replacesId: row.replaces_id,
    replaces: row.replaces,
    factor: canonical(decimal(row.factor)),
  };
}

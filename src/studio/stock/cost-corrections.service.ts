/** A cost filled in or put right later, on the shelf and where something was used without one. */
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { CostCorrectionAnswer } from '../../../shared/contract/stock.js';
import {
  canonical,
  decimal,
  fixed,
  round,
  sum,
  zero,
  type Decimal,
} from '../../../shared/decimal.js';
import type { MovementDraft } from '../../../shared/moving/movement.js';
import { recost, type CostResult, type UsedAtNoCost } from '../../../shared/moving/recosting.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Transaction } from '../../platform/database/transaction.js';
import {
  READ_BOWLS_AT_NO_COST,
  READ_LOT_COSTS,
  READ_USED_AT_NO_COST,
} from './cost-corrections.queries.js';
import { entryView, journalAt, type StockActing } from './entries.js';
import { LedgerService } from './ledger.service.js';
import type { Posting } from './posting.js';
import { StockFlagsService } from './stock-flags.service.js';
import type { CostCorrectionRequest, CostLineRequest } from './stock.requests.js';

/** A line understood: a whole lot, or all of a product that has no cost. */
interface CostLine {
  readonly productId: string;
  readonly unitCost: Decimal;
  readonly lot: { readonly id: string; readonly unitCost: Decimal } | null;
}

interface UsedRow {
  product_id: string;
  lot_id: string;
  place: UsedAtNoCost['place'];
  visit_id: string | null;
  bowl_id: string | null;
  pour_id: string | null;
  quantity: string;
}

interface LotCostRow {
  id: string;
  product_id: string;
  quantity: string;
  unit_cost: string;
}

@Injectable()
export class CostCorrectionsService {
  constructor(
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(StockFlagsService) private readonly stockFlags: StockFlagsService,
  ) {}

  /** Books the new costs; the answer names the visits whose sheets they change. */
  async correct(
    tx: Transaction,
    request: CostCorrectionRequest,
    by: StockActing,
  ): Promise<CostCorrectionAnswer> {
    const lines = await this.lines(tx, request.lines);
    const productIds = [...new Set(lines.map((line) => line.productId))];
    const bowls = await tx.query<{ bowl_id: string }>(READ_BOWLS_AT_NO_COST, [productIds]);
    const bowlIds = bowls.map((row) => row.bowl_id);
    const [posting, rows] = await Promise.all([
      this.ledger.hold(tx, { bowlIds, productIds }, by.recordedAt),
      tx.query<UsedRow & Record<string, unknown>>(READ_USED_AT_NO_COST, [productIds]),
    ]);
    // a bowl that came between is not locked, and is left for the next correction
    const used = rows.filter((row) => row.bowl_id === null || bowlIds.includes(row.bowl_id));
    const head = {
      id: request.id ?? uuidv7(),
      kind: 'cost correction' as const,
      ...(request.note ? { note: request.note } : {}),
    };
    const journal = journalAt(posting, head, request.at, by);
    const results = lines.map((line, index) =>
      within(`/lines/${index}`, () => {
        const result = this.recosted(posting, line, used);
        posting.book(journal, result);
        return result;
      }),
    );
    this.ledger.append(tx, posting, by);
    return {
      ...entryView(journal, this.stockFlags.raised(posting, by.recordedAt)),
      lines: lines.map((line, index) => lineView(line, results[index]?.movements ?? [])),
      visitIds: [...new Set(results.flatMap((result) => result.visitIds))],
    };
  }

  private recosted(posting: Posting, line: CostLine, used: readonly UsedRow[]): CostResult {
    const facts = within('/productId', () => posting.product(line.productId));
    const own = used.filter(
      (row) =>
        row.product_id === line.productId && (line.lot === null || row.lot_id === line.lot.id),
    );
    const result = recost(posting.stock(line.productId), {
      unitCost: line.unitCost,
      ...(line.lot ? { lot: line.lot } : {}),
      used: own.map(usedAtNoCost),
    });
    if (result.movements.length > 0) return result;
    throw new Problem('nothing_without_cost', { product: facts.name });
  }

  private async lines(tx: Transaction, asked: readonly CostLineRequest[]): Promise<CostLine[]> {
    const lotIds = asked.flatMap((line) => line.lotId ?? []);
    const rows = await tx.query<LotCostRow & Record<string, unknown>>(READ_LOT_COSTS, [lotIds]);
    const lots = new Map(rows.map((row) => [row.id, row]));
    const taken = new Set<string>();
    return asked.map((line, index) =>
      within(`/lines/${index}`, () => {
        const read = costLine(line, lots);
        const key = read.lot ? `${read.productId} ${read.lot.id}` : read.productId;
        const clash = read.lot
          ? taken.has(key) || taken.has(read.productId)
          : [...taken].some((each) => each.startsWith(read.productId));
        if (clash) throw new Problem('product_in_two_lines', { product: read.productId });
        taken.add(key);
        return read;
      }),
    );
  }
}

function costLine(line: CostLineRequest, lots: ReadonlyMap<string, LotCostRow>): CostLine {
  const { lotId, cost, productId, unitCost } = line;
  if (lotId !== undefined && cost !== undefined && productId === undefined && !unitCost) {
    const lot = lots.get(lotId);
    if (!lot) throw new Problem('not_found', { what: 'lot', id: lotId }, '/lotId');
    return {
      productId: lot.product_id,
      unitCost: cost.dividedBy(lot.quantity),
      lot: { id: lotId, unitCost: decimal(lot.unit_cost) },
    };
  }
  if (productId !== undefined && unitCost !== undefined && lotId === undefined && !cost) {
    return { productId, unitCost, lot: null };
  }
  throw new Problem('lot_or_product', {});
}

function usedAtNoCost(row: UsedRow): UsedAtNoCost {
  return {
    lotId: row.lot_id,
    place: row.place,
    visitId: row.visit_id,
    quantity: decimal(row.quantity),
    ...(row.bowl_id && row.pour_id ? { pour: { bowlId: row.bowl_id, pourId: row.pour_id } } : {}),
  };
}

function lineView(line: CostLine, movements: readonly MovementDraft[]) {
  const change = (onShelf: boolean) =>
    sum(
      movements
        .filter(({ from, to }) => (from === 'shelf' || to === 'shelf') === onShelf)
        .map(({ from, value }) => (from === 'correction' ? value : zero.minus(value))),
    );
  return {
    productId: line.productId,
    lotId: line.lot?.id ?? null,
    unitCost: canonical(round(line.unitCost, 6, 'half_even')),
    shelf: fixed(change(true), 6),
    used: fixed(change(false), 6),
  };
}

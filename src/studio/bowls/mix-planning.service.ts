/** Plans a bowl from the catalogue and the shelf; stores nothing. */
import { Injectable } from '@nestjs/common';
import { dayIn } from '../../../shared/calendar.js';
import { sum, type Decimal } from '../../../shared/decimal.js';
import type { MixPlan, MixRequest } from '../../../shared/mix.js';
import { planMix } from '../../../shared/mixing.js';
import { draw } from '../../../shared/moving/drawing.js';
import type { Reader, Transaction } from '../../platform/database/transaction.js';
import { LedgerService, type Posting } from '../stock/ledger.service.js';
import { READ_DEVELOPERS_IN_STOCK } from './bowls.queries.js';
import { mixProduct } from './mix-products.js';
import { mixRequestOf, type MixPlanRequest } from './mix-plan.requests.js';

/** A plan with what its grams would draw from the shelf now. */
export interface PricedPlan {
  readonly plan: MixPlan;
  readonly asked: MixRequest;
  readonly cost: Decimal;
  /** Products that no cost is known of. */
  readonly noCost: readonly string[];
}

@Injectable()
export class MixPlanningService {
  constructor(private readonly ledger: LedgerService) {}

  /**
   * Plans a mix. Where no developers are named, those in stock are candidates.
   * @param now RFC 3339 in UTC
   */
  async plan(tx: Transaction, request: MixPlanRequest, now: string): Promise<PricedPlan> {
    const asked = mixRequestOf(request);
    const named = productIdsOf(asked);
    const candidates = await candidatesFor(tx, asked);
    const posting = await this.ledger.hold(
      tx,
      { productIds: [], alsoRead: [...named, ...candidates] },
      now,
    );
    return this.planned(posting, asked, candidates, now);
  }

  /** The same on products that a posting has read already. */
  planned(
    posting: Posting,
    asked: MixRequest,
    candidates: readonly string[],
    now: string,
  ): PricedPlan {
    const { timeZone, country } = posting.studio;
    const day = dayIn(timeZone, now);
    const products = productIdsOf(asked).map((id) => mixProduct(posting, id, day));
    const shelf = candidates.map((id) => mixProduct(posting, id, day));
    const plan = planMix(asked, products, shelf, country === null ? {} : { country });
    const draws = plan.pours.map((pour) =>
      draw(posting.stock(pour.productId), {
        quantity: pour.quantity,
        to: 'bowl',
        happenedAt: now,
        day,
      }),
    );
    const noCost = plan.pours
      .filter((_, index) => draws[index]?.flags.includes('no_cost'))
      .map((pour) => pour.productId)
      .filter((id) => posting.product(id).kind !== 'water');
    return { plan, asked, cost: sum(draws.map((each) => each.value)), noCost };
  }
}

/** Every product that a request names. */
export function productIdsOf(asked: MixRequest): string[] {
  const parts = [...asked.powders, ...(asked.developers ?? []), ...(asked.additives ?? [])];
  return [...new Set(parts.map((part) => part.productId))];
}

/** Developers on the shelf to choose from, where a strength is asked for and none is named. */
export async function candidatesFor(tx: Reader, asked: MixRequest): Promise<string[]> {
  if (asked.strength === undefined || asked.developers?.length) return [];
  const rows = await tx.query<{ id: string }>(READ_DEVELOPERS_IN_STOCK);
  return rows.map((row) => row.id);
}

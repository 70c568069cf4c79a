/** What the shelf says of a product, and which flags a posting has just raised. */
import { Injectable } from '@nestjs/common';
import { dayAfter, dayIn, daysBetween } from '../../../shared/calendar.js';
import { count, zero, type Decimal } from '../../../shared/decimal.js';
import { onHand, shortfallOpen, type ProductStock } from '../../../shared/moving/stock.js';
import {
  expiringWithin_days,
  flagsOf,
  flagsRaised,
  reorderPoint,
  type ReorderRule,
  type ShelfFlag,
} from '../../../shared/reordering.js';
import type { Posting } from './posting.js';
import type { ProductFacts } from './product-facts.js';

/** A product and one flag on it. */
export interface RaisedFlag {
  readonly productId: string;
  readonly flag: ShelfFlag;
}

@Injectable()
export class StockFlagsService {
  /**
   * Flags that were not there before this posting, product by product.
   * @param now RFC 3339 in UTC
   */
  raised(posting: Posting, now: string): RaisedFlag[] {
    const day = dayIn(posting.studio.timeZone, now);
    return posting.changedStocks.flatMap((after) => {
      const facts = posting.product(after.productId);
      if (facts.kind === 'water') return [];
      const before = posting.stockBefore(after.productId);
      return flagsRaised(this.flags(before, facts, day), this.flags(after, facts, day)).map(
        (flag) => ({ productId: after.productId, flag }),
      );
    });
  }

  /** Flags of one product as its shelf stands. `day` is the studio's, YYYY-MM-DD. */
  flags(stock: ProductStock, facts: ProductFacts, day: string): ShelfFlag[] {
    const held = onHand(stock);
    return flagsOf({
      onHand: held,
      onOrder: facts.onOrder,
      reorderPoint: this.point(facts, day),
      lots: stock.lots,
      recount: shortfallOpen(stock).greaterThan(zero),
      noCost: held.greaterThan(zero) && stock.value.isZero(),
      day,
      expiringUntil: dayAfter(day, expiringWithin_days),
    });
  }

  /** The reorder point of a product in its stock unit; null where nothing is known. */
  point(facts: ProductFacts, day: string): Decimal | null {
    return reorderPoint(ruleOf(facts, day));
  }
}

/** The rule of shared/reordering.ts for one product, its use since the first recent month. */
export function ruleOf(facts: ProductFacts, day: string): ReorderRule {
  const pack = facts.packs[0]?.quantity ?? null;
  const days = facts.recentSince === null ? 0 : daysBetween(facts.recentSince, day) + 1;
  return {
    point: facts.reorderPoint,
    keepSealed: facts.keepSealed === null ? null : count(facts.keepSealed),
    packQuantity: pack,
    learned: facts.policyPoint,
    use: { quantity: facts.recentUse, days: count(days) },
    leadTimeDays: facts.leadTime_days === null ? null : count(facts.leadTime_days),
  };
}

/** How much may be bought before it would expire on the shelf. */
import { type Demand, demandLeftOver, demandQuantile } from './demand-distribution.js';

/** What one more order of whole packs would do to the stock's age. */
export interface Outdating {
  packs: number;
  /** Stock on hand and on order after it. */
  total: number;
  /** Expected units that expire, E[(total - demand over the life)+]. */
  expectedOutdating: number;
  /** Expected expired units as a share of the order. */
  shareOfOrder: number;
}

/** Expected outdating of ordering 1, 2, ... packs; older stock is used first. */
export function outdatingOf(
  packs: number,
  pack: number,
  onHand: number,
  lifeDemand: Demand,
): Outdating {
  const total = onHand + packs * pack;
  const expectedOutdating = demandLeftOver(total, lifeDemand);
  const ordered = packs * pack;
  return {
    packs,
    total,
    expectedOutdating,
    shareOfOrder: ordered > 0 ? expectedOutdating / ordered : 0,
  };
}

/** The two limits in whole packs, and the total stock the first one allows. */
export interface ShelfLifeCap {
  /** Largest total stock with P(demand over the life < total) <= epsilon. */
  totalByRisk: number;
  packsByRisk: number;
  /** Most packs of which at most the share omega is expected to expire. */
  packsByOutdating: number;
}

const MOST_PACKS = 100_000;

/**
 * Caps of an order of packs by the risk epsilon of leftover at the end of life and by the expected
 * outdated share omega (the idea of Broekmeulen & van Donselaar 2009).
 */
export function shelfLifeCap(
  lifeDemand: Demand,
  onHand: number,
  pack: number,
  epsilon: number,
  omega: number,
): ShelfLifeCap {
  const totalByRisk = demandQuantile(epsilon, lifeDemand);
  const packsByRisk = Math.max(0, Math.floor((totalByRisk - onHand) / pack + 1e-12));
  let packsByOutdating = 0;
  while (packsByOutdating < MOST_PACKS) {
    const next = outdatingOf(packsByOutdating + 1, pack, onHand, lifeDemand);
    if (!(next.shareOfOrder <= omega)) break;
    packsByOutdating++;
  }
  return { totalByRisk, packsByRisk, packsByOutdating };
}

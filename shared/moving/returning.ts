/** Putting back on the shelf what was scooped back before powder and developer met. */
import { smaller, sum, zero, type Decimal } from '../decimal.js';
import type { MovementDraft } from './movement.js';
import { onShelf, type LotFacts } from './reversing.js';
import { isCounted, type OpenShortfall, type ProductStock } from './stock.js';

/**
 * The shelf after the return, and what must follow it in its journal: what had been poured beyond
 * the book leaves again to `correction`, since the shortfall lot's balance is always zero; a
 * return that happened before a standing count is followed by the opposite correction.
 * @param happenedAt instant of the return, RFC 3339 in UTC
 */
export function putBackOnShelf(
  stock: ProductStock,
  returned: readonly MovementDraft[],
  lots: ReadonlyMap<string, LotFacts>,
  happenedAt: string,
): { stock: ProductStock; movements: MovementDraft[] } {
  const beyond = returned.filter((movement) => movement.lotId === stock.shortfallLotId);
  const gone = beyond.map((movement): MovementDraft => ({
    productId: movement.productId,
    lotId: movement.lotId,
    from: 'shelf',
    to: 'correction',
    quantity: movement.quantity,
    value: movement.value,
    reason: 'shortfall given back',
  }));
  const others = returned.filter((movement) => !beyond.includes(movement));
  const after = onShelf(stock, others, lots, isCounted(stock, happenedAt));
  const explained = sum(beyond.map((movement) => movement.quantity));
  const shortfalls = withoutNewest(stock.shortfalls, explained);
  return { stock: { ...after.stock, shortfalls }, movements: [...gone, ...after.movements] };
}

function withoutNewest(shortfalls: readonly OpenShortfall[], quantity: Decimal): OpenShortfall[] {
  let left = quantity;
  const rest: OpenShortfall[] = [];
  for (const shortfall of [...shortfalls].reverse()) {
    const part = smaller(left, shortfall.quantity);
    left = left.minus(part);
    const open = shortfall.quantity.minus(part);
    if (open.greaterThan(zero)) rest.unshift({ ...shortfall, quantity: open });
  }
  return rest;
}

/** What counts took off the shelf and nothing has explained since. */
import { valueOfPart } from '../costing.js';
import { smaller, zero, type Decimal } from '../decimal.js';

/** What an earlier count took off a lot and no count has put back yet, newest first. */
export interface TakenByCount {
  readonly lotId: string;
  readonly receivedOn: string;
  readonly expiresOn: string | null;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** A correction of a count, or one that let a count stand, as it was recorded. */
export interface CountMovement extends TakenByCount {
  readonly way: 'taken' | 'put back';
  /** True for what a count put back; false where a late entry explained the loss. */
  readonly byCount: boolean;
}

/**
 * Replays recorded corrections in their order: what counts took, less what later counts put back
 * on the same lot and less what late entries explained, newest first.
 * Example: a count took 20, a bowl of 15 from before it came late -> 5 are still unexplained.
 */
export function takenByCounts(history: readonly CountMovement[]): TakenByCount[] {
  let taken: TakenByCount[] = [];
  for (const movement of history) {
    if (movement.way === 'taken' && movement.byCount) taken = [movement, ...taken];
    if (movement.way === 'put back') {
      const lotId = movement.byCount ? movement.lotId : null;
      taken = without(taken, movement.quantity, lotId);
    }
  }
  return taken.map(({ lotId, receivedOn, expiresOn, quantity, value }) => ({
    lotId,
    receivedOn,
    expiresOn,
    quantity,
    value,
  }));
}

function without(taken: TakenByCount[], quantity: Decimal, lotId: string | null): TakenByCount[] {
  let left = quantity;
  return taken.flatMap((each) => {
    if (lotId !== null && each.lotId !== lotId) return [each];
    const part = smaller(left, each.quantity);
    if (part.isZero()) return [each];
    left = left.minus(part);
    const rest = each.quantity.minus(part);
    if (!rest.greaterThan(zero)) return [];
    const value = each.value.minus(valueOfPart(each.value, part, each.quantity));
    return [{ ...each, quantity: rest, value }];
  });
}

/** Undoing a journal: every movement goes back the way it came, at the value it had. */
import { zero, type Decimal } from '../decimal.js';
import { Problem } from '../problems/problem.js';
import type { MovementDraft, Place, PourAddress } from './movement.js';

/** A movement as it was recorded. */
export interface RecordedMovement extends MovementDraft {
  readonly id: string;
}

/** The finest place a quantity can be in: a lot on the shelf, a pour's part in a bowl. */
export interface Spot {
  readonly place: Place;
  readonly productId: string;
  readonly lotId: string;
  readonly pour: PourAddress | null;
}

/** How much is at a spot now, in stock unit; null where the place has no floor. */
export type HeldAt = (spot: Spot) => Decimal | null;

/**
 * The movements that undo a journal, last one first.
 * @throws Problem `reversal_below_zero` with figures where a place or lot would go below zero
 */
export function reverse(movements: readonly RecordedMovement[], heldAt: HeldAt): MovementDraft[] {
  const back = [...movements].reverse().map((movement): MovementDraft => ({
    productId: movement.productId,
    lotId: movement.lotId,
    from: movement.to,
    to: movement.from,
    ...(movement.toPour ? { fromPour: movement.toPour } : {}),
    ...(movement.fromPour ? { toPour: movement.fromPour } : {}),
    quantity: movement.quantity,
    value: movement.value,
    reverses: movement.id,
  }));
  for (const { spot, needs } of needsBySpot(back)) {
    const held = heldAt(spot);
    if (held !== null && held.lessThan(needs)) {
      throw new Problem('reversal_below_zero', {
        place: spot.place,
        held: held.toFixed(),
        needed: needs.toFixed(),
      });
    }
  }
  return back;
}

/** What all movements together take from each spot, net of what they bring there. */
function needsBySpot(movements: readonly MovementDraft[]): { spot: Spot; needs: Decimal }[] {
  const spots = new Map<string, { spot: Spot; needs: Decimal }>();
  for (const movement of movements) {
    for (const side of ['from', 'to'] as const) {
      const spot: Spot = {
        place: movement[side],
        productId: movement.productId,
        lotId: movement.lotId,
        pour: (side === 'from' ? movement.fromPour : movement.toPour) ?? null,
      };
      const key = [spot.place, spot.lotId, spot.pour?.bowlId, spot.pour?.pourId].join('|');
      const known = spots.get(key) ?? { spot, needs: zero };
      const signed = side === 'from' ? movement.quantity : movement.quantity.negated();
      spots.set(key, { spot, needs: known.needs.plus(signed) });
    }
  }
  return [...spots.values()].filter(({ needs }) => needs.greaterThan(zero));
}

/** Undoing a journal: every movement goes back the way it came, at the value it had. */
import type { LotBalance } from '../costing.js';
import { one, smaller, zero, type Decimal } from '../decimal.js';
import { Problem } from '../problems/problem.js';
import type { MovementDraft, Place, PourAddress } from './movement.js';
import { isCounted, withLot, type OpenShortfall, type ProductStock } from './stock.js';

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

/** What a lot is, for putting it back on the shelf. */
export type LotFacts = Pick<LotBalance, 'id' | 'receivedOn' | 'expiresOn'>;

/**
 * The shelf after a reversal's movements, and what must follow them where they happened before
 * a standing count: the opposite of their net effect on each lot, so that the counted figure
 * stands. Shortfalls that are taken back are open no longer.
 */
export function onShelf(
  stock: ProductStock,
  movements: readonly MovementDraft[],
  lots: ReadonlyMap<string, LotFacts>,
  happened: { readonly at: string; readonly day: string },
): { stock: ProductStock; movements: MovementDraft[] } {
  const own = movements.filter((movement) => movement.productId === stock.productId);
  let next = stock;
  let takenBack = zero;
  for (const movement of own) {
    if (movement.from === 'shelf' && movement.to === 'correction') {
      if (movement.lotId === stock.shortfallLotId) takenBack = takenBack.plus(movement.quantity);
    }
    const lot = lots.get(movement.lotId);
    const sign = movement.to === 'shelf' ? one : movement.from === 'shelf' ? one.negated() : zero;
    if (!lot || sign.isZero()) continue;
    next = withLot(next, lot, {
      quantity: movement.quantity.times(sign),
      value: movement.value.times(sign),
    });
  }
  const shortfalls = withoutDay(stock.shortfalls, takenBack, happened.day);
  if (!isCounted(stock, happened.at)) return { stock: { ...next, shortfalls }, movements: [] };
  const opposites = [...lots.values()].flatMap((lot) => {
    const before = stock.lots.find((each) => each.id === lot.id);
    const after = next.lots.find((each) => each.id === lot.id);
    const quantity = (after?.quantity ?? zero).minus(before?.quantity ?? zero);
    const value = (after?.value ?? zero).minus(before?.value ?? zero);
    if (quantity.isZero()) return [];
    const gained = quantity.greaterThan(zero);
    const movement: MovementDraft = {
      productId: stock.productId,
      lotId: lot.id,
      from: gained ? 'shelf' : 'correction',
      to: gained ? 'correction' : 'shelf',
      quantity: quantity.abs(),
      value: value.abs(),
      reason: 'already counted',
    };
    return [movement];
  });
  return { stock: { ...stock, shortfalls }, movements: opposites };
}

function withoutDay(
  shortfalls: readonly OpenShortfall[],
  quantity: Decimal,
  day: string,
): OpenShortfall[] {
  let left = quantity;
  return shortfalls.flatMap((shortfall) => {
    const part = shortfall.on === day ? smaller(left, shortfall.quantity) : zero;
    left = left.minus(part);
    const rest = shortfall.quantity.minus(part);
    return rest.isZero() ? [] : [{ on: shortfall.on, quantity: rest }];
  });
}

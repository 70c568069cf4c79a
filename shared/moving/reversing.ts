/** Undoing a journal: every movement goes back the way it came, at the value it had. */
import type { LotBalance } from '../costing.js';
import { canonical, one, zero, type Decimal } from '../decimal.js';
import { Problem } from '../problems/problem.js';
import type { MovementDraft, Place, PourAddress } from './movement.js';
import { onHand, withLot, type ProductStock } from './stock.js';

/** A movement as it was recorded. */
export interface RecordedMovement extends MovementDraft {
  readonly id: string;
  /** True when it was undone already, together with a count that it depended on. */
  readonly undone?: boolean;
}

/** The finest place a quantity can be in: a lot on the shelf, a pour's part in a bowl. */
export interface Spot {
  readonly place: Place;
  readonly productId: string;
  readonly lotId: string;
  readonly pour: PourAddress | null;
}

/** What is at a spot now; the value is null where it is not kept spot by spot. */
export interface Held {
  readonly quantity: Decimal;
  readonly value: Decimal | null;
}

/** How much is at a spot now, in stock unit; null where the place has no floor. */
export type HeldAt = (spot: Spot) => Held | null;

/**
 * The movements that undo a journal, last one first.
 * @throws Problem `reversal_below_zero` with figures where a place or lot would go below zero
 */
export function reverse(movements: readonly RecordedMovement[], heldAt: HeldAt): MovementDraft[] {
  const still = movements.filter((movement) => !movement.undone);
  const back = still.reverse().map((movement): MovementDraft => ({
    productId: movement.productId,
    lotId: movement.lotId,
    from: movement.to,
    to: movement.from,
    ...(movement.toPour ? { fromPour: movement.toPour } : {}),
    ...(movement.fromPour ? { toPour: movement.fromPour } : {}),
    ...(movement.visitId === undefined ? {} : { visitId: movement.visitId }),
    ...(movement.happened ? { happened: movement.happened } : {}),
    quantity: movement.quantity,
    value: movement.value,
    reverses: movement.id,
  }));
  for (const { spot, quantity, value } of changesBySpot(back)) {
    const held = heldAt(spot);
    if (held) refuseBelowZero(spot.place, held, { quantity, value });
  }
  return back;
}

/** @throws Problem `reversal_below_zero` */
function refuseBelowZero(
  place: Place,
  held: Held,
  change: { readonly quantity: Decimal; readonly value: Decimal },
): void {
  const after = held.quantity.plus(change.quantity);
  if (after.isNegative() && !after.isZero()) {
    throw belowZero(place, held.quantity, change.quantity);
  }
  if (!held.value) return;
  const worth = held.value.plus(change.value);
  if ((worth.isNegative() || after.isZero()) && !worth.isZero()) {
    throw new Problem('reversal_below_zero', {
      place,
      held: `a value of ${canonical(held.value)}`,
      needed: `a value of ${canonical(change.value.negated())}`,
    });
  }
}

function belowZero(place: Place, held: Decimal, change: Decimal): Problem {
  const facts = { place, held: canonical(held), needed: canonical(change.negated()) };
  return new Problem('reversal_below_zero', facts);
}

interface SpotChange {
  readonly spot: Spot;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** What all movements together bring to each spot, net of what they take from it. */
function changesBySpot(movements: readonly MovementDraft[]): SpotChange[] {
  const spots = new Map<string, SpotChange>();
  for (const movement of movements) {
    for (const side of ['from', 'to'] as const) {
      const spot: Spot = {
        place: movement[side],
        productId: movement.productId,
        lotId: movement.lotId,
        pour: (side === 'from' ? movement.fromPour : movement.toPour) ?? null,
      };
      const key = [spot.place, spot.lotId, spot.pour?.bowlId, spot.pour?.pourId].join('|');
      const known = spots.get(key) ?? { spot, quantity: zero, value: zero };
      const sign = side === 'from' ? one.negated() : one;
      spots.set(key, {
        spot,
        quantity: known.quantity.plus(movement.quantity.times(sign)),
        value: known.value.plus(movement.value.times(sign)),
      });
    }
  }
  return [...spots.values()];
}

/** What a lot is, for putting it back on the shelf. */
export type LotFacts = Pick<LotBalance, 'id' | 'receivedOn' | 'expiresOn'>;

/**
 * The shelf after a reversal's movements, and what must follow them where they happened before
 * a standing count (`counted`): the opposite of their net effect on each lot, so that the
 * counted figure stands.
 * @throws Problem `reversal_below_zero` where the product's value would go below zero
 */
export function onShelf(
  stock: ProductStock,
  movements: readonly MovementDraft[],
  lots: ReadonlyMap<string, LotFacts>,
  counted: boolean,
): { stock: ProductStock; movements: MovementDraft[] } {
  const next = shelfAfter(stock, movements, lots);
  const held = { quantity: onHand(stock), value: stock.value };
  const change = {
    quantity: onHand(next).minus(held.quantity),
    value: next.value.minus(stock.value),
  };
  refuseBelowZero('shelf', held, change);
  if (!counted) return { stock: next, movements: [] };
  const opposites = [...lots.values()].flatMap((lot) => opposite(stock, next, lot.id));
  return { stock: shelfAfter(next, opposites, lots), movements: opposites };
}

function shelfAfter(
  stock: ProductStock,
  movements: readonly MovementDraft[],
  lots: ReadonlyMap<string, LotFacts>,
): ProductStock {
  let next = stock;
  for (const movement of movements) {
    const lot = lots.get(movement.lotId);
    const sign = movement.to === 'shelf' ? one : movement.from === 'shelf' ? one.negated() : zero;
    if (movement.productId !== stock.productId || !lot || sign.isZero()) continue;
    const { quantity, value } = movement;
    next = withLot(next, lot, { quantity: quantity.times(sign), value: value.times(sign) });
  }
  return next;
}

function opposite(before: ProductStock, after: ProductStock, lotId: string): MovementDraft[] {
  const was = before.lots.find((lot) => lot.id === lotId);
  const is = after.lots.find((lot) => lot.id === lotId);
  const quantity = (is?.quantity ?? zero).minus(was?.quantity ?? zero);
  const value = (is?.value ?? zero).minus(was?.value ?? zero);
  if (quantity.isZero()) return [];
  const gained = quantity.greaterThan(zero);
  return [
    {
      productId: before.productId,
      lotId,
      from: gained ? 'shelf' : 'correction',
      to: gained ? 'correction' : 'shelf',
      quantity: quantity.abs(),
      value: value.abs(),
      reason: 'already counted',
    },
  ];
}

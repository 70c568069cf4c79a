/** What a bowl gives away: onto the head, into the bin, back before first contact, divided. */
import { valueOfPart } from '../costing.js';
import type { Decimal } from '../decimal.js';
import type { MovementDraft, PourAddress, Reason } from './movement.js';

/** What one pour still has in the bowl of one lot; quantity in stock unit. */
export interface HeldPart {
  readonly pour: PourAddress;
  readonly productId: string;
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** How one held part falls: what stays aside (leftover, handed on) and what goes on the head. */
export interface FallenPart extends HeldPart {
  readonly aside: { readonly quantity: Decimal; readonly value: Decimal };
}

/** The applied part of each held part goes onto the head; nothing moves where it is zero. */
export function toHead(parts: readonly FallenPart[]): MovementDraft[] {
  return parts
    .map((part) => ({
      productId: part.productId,
      lotId: part.lotId,
      from: 'bowl' as const,
      to: 'head' as const,
      fromPour: part.pour,
      quantity: part.quantity.minus(part.aside.quantity),
      value: part.value.minus(part.aside.value),
    }))
    .filter((movement) => !movement.quantity.isZero());
}

/** The part put aside goes into the bin, for a reason. */
export function toBin(parts: readonly FallenPart[], reason: Reason): MovementDraft[] {
  return aside(parts).map((part) => ({
    productId: part.productId,
    lotId: part.lotId,
    from: 'bowl' as const,
    to: 'bin' as const,
    fromPour: part.pour,
    ...part.aside,
    reason,
  }));
}

/** The part put aside goes into another bowl; `into` tells the line it becomes there. */
export function toOtherBowl(
  parts: readonly FallenPart[],
  into: (part: FallenPart) => PourAddress,
): MovementDraft[] {
  return aside(parts).map((part) => ({
    productId: part.productId,
    lotId: part.lotId,
    from: 'bowl' as const,
    to: 'bowl' as const,
    fromPour: part.pour,
    toPour: into(part),
    ...part.aside,
  }));
}

/**
 * Scooped back before first contact: so much of a pour returns to the lots it came from, the
 * lot drawn last first. Quantity in stock unit.
 */
export function backToShelf(held: readonly HeldPart[], quantity: Decimal): MovementDraft[] {
  const movements: MovementDraft[] = [];
  let left = quantity;
  for (const part of [...held].reverse()) {
    if (left.isZero()) break;
    const taken = left.lessThan(part.quantity) ? left : part.quantity;
    movements.push({
      productId: part.productId,
      lotId: part.lotId,
      from: 'bowl',
      to: 'shelf',
      fromPour: part.pour,
      quantity: taken,
      value: valueOfPart(part.value, taken, part.quantity),
    });
    left = left.minus(taken);
  }
  return movements;
}

function aside(parts: readonly FallenPart[]): FallenPart[] {
  return parts.filter((part) => !part.aside.quantity.isZero());
}

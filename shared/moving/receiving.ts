/** Putting a quantity on the shelf: a new lot, what it explains, what was counted already. */
import { valueOfPart } from '../costing.js';
import { smaller, zero, type Decimal } from '../decimal.js';
import type { LotDraft, MovementDraft } from './movement.js';
import { isCounted, withLot, type OpenShortfall, type ProductStock } from './stock.js';

export interface ReceiveResult {
  readonly stock: ProductStock;
  readonly movements: readonly MovementDraft[];
}

/**
 * Receives a new lot. A delivery dated not after a pour that the book could not cover, or an
 * opening stock, first gives back min(open shortfall, received) at the new lot's cost: the
 * bottle was there, only not booked yet. A lot that arrived before a standing count goes to
 * `correction` in the same journal: it was counted with the rest, and explains nothing after.
 * Example: 500 received for 10.00, 30 poured on the same day beyond the book -> 470 worth 9.40
 * stay on the shelf.
 */
export function receive(
  stock: ProductStock,
  lot: LotDraft,
  happenedAt: string,
  from: 'supplier' | 'other studio' = 'supplier',
): ReceiveResult {
  const base = { productId: stock.productId, lotId: lot.id };
  const movements: MovementDraft[] = [
    { ...base, from, to: 'shelf', quantity: lot.quantity, value: lot.cost },
  ];
  const counted = isCounted(stock, happenedAt);
  const { given, rest: shortfalls } = counted
    ? { given: zero, rest: stock.shortfalls }
    : giveBack(stock.shortfalls, lot);
  const givenValue = given.isZero() ? zero : valueOfPart(lot.cost, given, lot.quantity);
  if (given.greaterThan(zero)) {
    movements.push({
      ...base,
      from: 'shelf',
      to: 'correction',
      quantity: given,
      value: givenValue,
      reason: 'shortfall given back',
    });
  }
  const left = { quantity: lot.quantity.minus(given), value: lot.cost.minus(givenValue) };
  if (counted) {
    if (left.quantity.greaterThan(zero)) {
      movements.push({
        ...base,
        from: 'shelf',
        to: 'correction',
        ...left,
        reason: 'already counted',
      });
    }
    return { stock, movements };
  }
  return { stock: { ...withLot(stock, lot, left), shortfalls }, movements };
}

/** Takes from the oldest open shortfalls that this lot can explain. */
function giveBack(
  shortfalls: readonly OpenShortfall[],
  lot: LotDraft,
): { given: Decimal; rest: OpenShortfall[] } {
  let available = lot.quantity;
  let given = zero;
  const rest: OpenShortfall[] = [];
  for (const shortfall of [...shortfalls].sort((a, b) => (a.at < b.at ? -1 : 1))) {
    const explains = lot.source === 'opening' || lot.receivedOn <= shortfall.on;
    const part = explains ? smaller(available, shortfall.quantity) : zero;
    available = available.minus(part);
    given = given.plus(part);
    if (part.lessThan(shortfall.quantity)) {
      rest.push({ ...shortfall, quantity: shortfall.quantity.minus(part) });
    }
  }
  return { given, rest };
}

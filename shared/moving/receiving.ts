/** Putting a quantity on the shelf: a new lot, what it explains, what was counted already. */
import { valueOfPart } from '../costing.js';
import { smaller, zero, type Decimal } from '../decimal.js';
import type { LotDraft, MovementDraft, Reason } from './movement.js';
import { isCounted, oldestFirst, withLot, type OpenShortfall, type ProductStock } from './stock.js';

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
  if (isCounted(stock, happenedAt)) {
    movements.push(gone(base, lot.quantity, lot.cost, 'already counted'));
    return { stock, movements };
  }
  const { given, rest: shortfalls } = giveBack(stock.shortfalls, lot);
  let left = { quantity: lot.quantity, value: lot.cost };
  for (const { at, on, quantity } of given) {
    const value = valueOfPart(left.value, quantity, left.quantity);
    const happened = { at, on };
    movements.push({ ...gone(base, quantity, value, 'shortfall given back'), happened });
    left = { quantity: left.quantity.minus(quantity), value: left.value.minus(value) };
  }
  const next = left.quantity.isZero() ? stock : withLot(stock, lot, left);
  return { stock: { ...next, shortfalls }, movements };
}

function gone(
  base: { readonly productId: string; readonly lotId: string },
  quantity: Decimal,
  value: Decimal,
  reason: Reason,
): MovementDraft {
  return { ...base, from: 'shelf', to: 'correction', quantity, value, reason };
}

/** Takes from the oldest open shortfalls that this lot can explain. */
function giveBack(
  shortfalls: readonly OpenShortfall[],
  lot: LotDraft,
): { given: OpenShortfall[]; rest: OpenShortfall[] } {
  let available = lot.quantity;
  const given: OpenShortfall[] = [];
  const rest: OpenShortfall[] = [];
  for (const shortfall of oldestFirst(shortfalls)) {
    const explains = lot.source === 'opening' || lot.receivedOn <= shortfall.on;
    const part = explains ? smaller(available, shortfall.quantity) : zero;
    available = available.minus(part);
    const open = shortfall.quantity.minus(part);
    if (part.greaterThan(zero)) given.push({ ...shortfall, quantity: part });
    if (open.greaterThan(zero)) rest.push({ ...shortfall, quantity: open });
  }
  return { given, rest };
}

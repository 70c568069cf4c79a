/** A cost filled in or put right later: on the shelf, and for what was used at no cost. */
import { ledgerPlaces, valueOfPart, type LotBalance } from '../costing.js';
import { larger, round, sum, zero, type Decimal } from '../decimal.js';
import type { MovementDraft, PourAddress } from './movement.js';
import { onHand, withLot, type ProductStock } from './stock.js';

/** What went off the shelf at a value of zero and is still where it went. */
export interface UsedAtNoCost {
  readonly lotId: string;
  readonly place: 'bowl' | 'head' | 'bin';
  readonly pour?: PourAddress;
  readonly visitId: string | null;
  readonly quantity: Decimal;
}

export interface CostOrder {
  /** Currency for one stock unit. */
  readonly unitCost: Decimal;
  /** The lot it is about, and what one unit of it cost so far; else all without a cost. */
  readonly lot?: { readonly id: string; readonly unitCost: Decimal };
  readonly used: readonly UsedAtNoCost[];
}

export interface CostResult {
  readonly stock: ProductStock;
  readonly movements: readonly MovementDraft[];
  /** Visits whose product gets a cost by it: their price sheets need a successor. */
  readonly visitIds: readonly string[];
}

/**
 * Books a new cost. What is left on the shelf leaves at its old value and returns at its new
 * one; under `average` the product's value changes by what that lot's change is worth. What was
 * used at no cost gets its value where it is. Values half-even at 6 decimals; what was used at
 * another cost keeps it, as its price sheet said.
 * Example: 100 of 500 left at no cost, 400 on heads, new cost 0.02 -> 2.000000 on the shelf,
 * 8.000000 on the heads.
 */
export function recost(stock: ProductStock, order: CostOrder): CostResult {
  const movements: MovementDraft[] = [];
  let next = stock;
  for (const lot of lotsOf(stock, order)) {
    const was = stock.method === 'average' ? averageShare(next, lot) : lot.value;
    const value = newValue(stock, lot, was, order);
    if (value.equals(was)) continue;
    const part = { productId: stock.productId, lotId: lot.id, quantity: lot.quantity };
    movements.push(
      { ...part, from: 'shelf', to: 'correction', value: was, reason: 'new cost' },
      { ...part, from: 'correction', to: 'shelf', value, reason: 'new cost' },
    );
    next = withLot(next, lot, { quantity: zero, value: value.minus(was) });
  }
  const visits = new Set<string>();
  for (const used of order.used) {
    const value = round(order.unitCost.times(used.quantity), ledgerPlaces, 'half_even');
    if (value.isZero()) continue;
    movements.push(...valued(stock.productId, used, value));
    if (used.visitId !== null) visits.add(used.visitId);
  }
  return { stock: next, movements, visitIds: [...visits] };
}

function lotsOf(stock: ProductStock, { lot }: CostOrder): readonly LotBalance[] {
  if (lot) return stock.lots.filter((each) => each.id === lot.id);
  if (stock.method === 'average') return stock.value.isZero() ? stock.lots : [];
  return stock.lots.filter((each) => each.value.isZero());
}

function averageShare(stock: ProductStock, lot: LotBalance): Decimal {
  return valueOfPart(stock.value, lot.quantity, onHand(stock));
}

function newValue(
  stock: ProductStock,
  lot: LotBalance,
  was: Decimal,
  { unitCost, lot: named }: CostOrder,
): Decimal {
  if (stock.method === 'fifo' || !named) {
    return round(unitCost.times(lot.quantity), ledgerPlaces, 'half_even');
  }
  const change = unitCost.minus(named.unitCost).times(lot.quantity);
  return larger(zero, sum([was, round(change, ledgerPlaces, 'half_even')]));
}

/** It leaves its place at no value and returns there at its cost, booked against its visit. */
function valued(productId: string, used: UsedAtNoCost, value: Decimal): MovementDraft[] {
  const { lotId, place, pour, quantity, visitId } = used;
  const part = { productId, lotId, quantity, visitId, reason: 'new cost' } as const;
  return [
    {
      ...part,
      from: place,
      to: 'correction',
      value: zero,
      ...(pour ? { fromPour: pour } : {}),
    },
    { ...part, from: 'correction', to: place, value, ...(pour ? { toPour: pour } : {}) },
  ];
}

/** A product's shelf in a few words, and movements as lines that a person can check by hand. */
import type { CostingMethod, LotBalance } from '../../shared/costing.js';
import { canonical, decimal, fixed, sum } from '../../shared/decimal.js';
import type { LotDraft, MovementDraft } from '../../shared/moving/movement.js';
import type { ProductStock } from '../../shared/moving/stock.js';

/** A lot on the shelf: `lotOf('A', 20, '4')`. */
export function lotOf(
  id: string,
  quantity: string,
  value: string,
  rest: { expiresOn?: string | null; receivedOn?: string } = {},
): LotBalance {
  return {
    id,
    quantity: decimal(quantity),
    value: decimal(value),
    expiresOn: null,
    receivedOn: '2026-01-01',
    ...rest,
  };
}

/** The shelf of product `P`, whose value is the sum of its lots' values unless told. */
export function shelfOf(
  lots: LotBalance[],
  rest: Partial<Omit<ProductStock, 'lots'>> = {},
): ProductStock {
  return {
    productId: 'P',
    method: 'fifo' satisfies CostingMethod,
    lots,
    value: sum(lots.map((lot) => lot.value)),
    shortfalls: [],
    shortfallLotId: 'short',
    lastCountedAt: null,
    fallbackUnitCost: null,
    ...rest,
  };
}

/** A new lot as a delivery brings it. */
export function arriving(
  id: string,
  quantity: string,
  cost: string,
  rest: Partial<LotDraft> = {},
): LotDraft {
  return {
    id,
    productId: 'P',
    source: 'delivery',
    receivedOn: '2026-03-10',
    expiresOn: null,
    lotCode: null,
    quantity: decimal(quantity),
    cost: decimal(cost),
    ...rest,
  };
}

/** "shelf > bowl, A, 20 for 4.000000 (shortfall)" */
export function lines(movements: readonly MovementDraft[]): string[] {
  return movements.map(({ from, to, lotId, quantity, value, reason }) => {
    const what = `${from} > ${to}, ${lotId}, ${canonical(quantity)} for ${fixed(value, 6)}`;
    return reason ? `${what} (${reason})` : what;
  });
}

/** "A 20 for 4.000000", in the order of the lots' names. */
export function lotsLeft(stock: ProductStock): string[] {
  return stock.lots
    .map((lot) => `${lot.id} ${canonical(lot.quantity)} for ${fixed(lot.value, 6)}`)
    .sort();
}

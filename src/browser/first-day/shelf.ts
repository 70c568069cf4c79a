/** The shelf of the service: what is there, and what is put there on the first day. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import type { ShelfItemView } from '../../../shared/contract/stock.js';
import { canonical } from '../../../shared/decimal.js';
import { send } from '../api/calls.js';
import { deviceNow } from '../shell/clock.js';
import { packsLearned, type ShelfFound } from './shelf-entry.js';

/** What the service says of the shelf. */
export function useShelf(): readonly ShelfItemView[] | undefined {
  return useQuery({
    queryKey: ['shelf'],
    queryFn: async () => ((await send('GET', '/shelf')) as { items: ShelfItemView[] }).items,
  }).data;
}

/** Books what was found of a product; its pack keeps the price and the empty weight. */
export function useOpeningStock(): (product: ProductView, found: ShelfFound) => Promise<void> {
  const queries = useQueryClient();
  return async (product, found) => {
    if (found.listPrice || found.emptyGrams) {
      await send('PATCH', `/products/${product.id}`, { packs: packsLearned(product, found) });
    }
    const id = uuidv7();
    const now = deviceNow();
    if (found.quantity.isZero()) {
      const counted = { quantity: '0', unit: product.unit };
      const lines = [{ productId: product.id, counted }];
      await send('POST', '/counts', { id, countedAt: now, sentAt: now, lines });
    } else {
      const cost = found.cost && canonical(found.cost);
      const line = { productId: product.id, quantity: canonical(found.quantity) };
      const lines = [{ ...line, ...(cost === undefined ? {} : { cost }) }];
      await send('POST', '/openings', { id, asCounted: true, sentAt: now, lines });
    }
    for (const key of ['shelf', 'products']) await queries.invalidateQueries({ queryKey: [key] });
  };
}

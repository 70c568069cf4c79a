/** Sends products that were ticked, pasted or scanned: all of them, or none with reasons. */
import { useQueryClient } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import { send } from '../api/calls.js';
import { requestOf, type ProductDraft } from './drafts.js';
import { words } from './texts.js';

const mostAtOnce = 500;

/** Enters products; how many. @throws Error with the service's sentence, then none is stored */
export function useEntering(): (drafts: readonly ProductDraft[]) => Promise<number> {
  const queries = useQueryClient();
  return async (drafts) => {
    if (drafts.length > mostAtOnce) throw new Error(words.products.tooMany(mostAtOnce));
    const body = { id: uuidv7(), products: drafts.map(requestOf) };
    await send('POST', '/products/many', body);
    await Promise.all(
      ['products', 'shelf'].map((key) => queries.invalidateQueries({ queryKey: [key] })),
    );
    return drafts.length;
  };
}

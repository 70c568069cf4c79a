/** Bowls that are open or planned, of this bench and of others. */
import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { BowlView } from '../../../shared/contract/bowls.js';
import { answer, calls, send } from '../api/calls.js';
import { outbox } from '../api/outbox.js';
import { useStore } from '../shell/store.js';
import { sheetOf, type Sheet } from './sheet.js';
import { sheets } from './sheets.js';

/** Open bowls, this bench's own first; what was settled elsewhere goes. */
export function useOpenBowls(): readonly Sheet[] {
  const own = sheets.useAll();
  const waiting = useStore(outbox.state).waiting.length;
  const { data, isSuccess } = useQuery({
    queryKey: ['bowls', 'open', waiting === 0],
    refetchInterval: 15_000,
    queryFn: async () => {
      const query = { state: 'open', limit: 100 } as const;
      const page = await answer(calls.GET('/api/v1/bowls', { params: { query } }));
      return page.items as unknown as BowlView[];
    },
  });
  const there = data ?? [];
  useEffect(() => {
    if (!isSuccess || waiting > 0) return;
    const open = new Set(there.map((bowl) => bowl.id));
    for (const sheet of own) {
      if (sheet.opened && sheet.pours.length > 0 && !open.has(sheet.id)) sheets.remove(sheet.id);
    }
  }, [data]);
  const known = new Set(own.map((sheet) => sheet.id));
  const others = there.filter((bowl) => !known.has(bowl.id)).map(sheetOf);
  return [...own.filter((sheet) => sheet.settled === null), ...others];
}

/** Takes a bowl up that another bench began, or that was open before a reload. */
export async function takeUpBowl(id: string): Promise<Sheet> {
  const known = sheets.get(id);
  if (known) return known;
  const sheet = sheetOf((await send('GET', `/bowls/${id}`)) as BowlView);
  sheets.put(sheet);
  return sheet;
}

/** Bowls that are open or planned, of this bench and of others. */
import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { BowlView } from '../../../shared/contract/bowls.js';
import { send } from '../api/calls.js';
import { askOrKept } from '../api/kept-answers.js';
import { outbox } from '../api/outbox.js';
import { useStore } from '../shell/store.js';
import { sheetOf, type Sheet } from './sheet.js';
import { sheets } from './sheets.js';

/** The call for the bowls that are open. */
export const openBowlsPath = '/bowls?state=open&limit=100';

interface Open {
  readonly bowls: readonly BowlView[];
  /** The service said so when nothing of this device was on its way to it. */
  readonly all: boolean;
}

/** Open bowls, this bench's own first; what was settled elsewhere goes. */
export function useOpenBowls(): readonly Sheet[] {
  const own = sheets.useAll();
  const line = useStore(outbox.state);
  const { data } = useQuery({
    queryKey: ['bowls', 'open', line.waiting.length === 0],
    refetchInterval: 15_000,
    queryFn: readOpen,
  });
  useEffect(() => {
    if (data?.all) dropSettledElsewhere(data.bowls);
  }, [data]);
  const known = new Set(own.map((sheet) => sheet.id));
  const others = (data?.bowls ?? []).filter((bowl) => !known.has(bowl.id)).map(sheetOf);
  return [...own.filter((sheet) => sheet.settled === null), ...others];
}

async function readOpen(): Promise<Open> {
  const before = outbox.idle && outbox.all().length;
  const { body, kept } = await askOrKept<{ items: BowlView[] }>(openBowlsPath);
  const quiet = before !== false && outbox.idle && outbox.all().length === before;
  return { bowls: body.items, all: quiet && !kept };
}

/** A bowl that the service no longer has open, unless something of it is still to be sent. */
function dropSettledElsewhere(bowls: readonly BowlView[]): void {
  const open = new Set(bowls.map((bowl) => bowl.id));
  const { waiting, refused } = outbox.state.get();
  const unsent = [...waiting, ...refused].map(({ path, id }) => `${path} ${id}`).join(' ');
  for (const { id, opened, pours } of sheets.all()) {
    const told = opened && pours.length > 0 && !pours.some((pour) => pour.pending);
    if (told && !open.has(id) && !unsent.includes(id)) sheets.remove(id);
  }
}

/** Takes a bowl up that another bench began, or that was open before a reload. */
export async function takeUpBowl(id: string): Promise<Sheet> {
  const known = sheets.get(id);
  if (known) return known;
  const sheet = sheetOf(await readBowl(id));
  sheets.put(sheet);
  return sheet;
}

/** One bowl; without the service as it was when the open ones were kept. */
async function readBowl(id: string): Promise<BowlView> {
  try {
    return (await send('GET', `/bowls/${id}`)) as BowlView;
  } catch (error) {
    const { body, kept } = await askOrKept<{ items: BowlView[] }>(openBowlsPath);
    const found = kept ? body.items.find((bowl) => bowl.id === id) : undefined;
    if (!found) throw error;
    return found;
  }
}

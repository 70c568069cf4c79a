/** The people of the studio, and what an owner changes of them. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import type {
  BenchView,
  NewTokenView,
  PersonView,
  TokenView,
} from '../../../shared/contract/people.js';
import { send } from '../api/calls.js';

/** Roles a person can have. */
export const personRoles = ['stylist', 'manager', 'owner'] as const;
export const personKinds = ['employed', 'rents'] as const;

/** Somebody who starts, as it is typed. */
export interface NewPerson {
  readonly name: string;
  readonly role: (typeof personRoles)[number];
  readonly kind: (typeof personKinds)[number];
  readonly pin: string;
}

/** Everybody who has not left, by name; managers and owners may ask. */
export function usePeople(): readonly PersonView[] {
  const { data } = useQuery({
    queryKey: ['people'],
    staleTime: 30_000,
    queryFn: async () =>
      ((await send('GET', '/people?limit=500')) as { items: PersonView[] }).items,
  });
  return (data ?? []).toSorted((a, b) => a.name.localeCompare(b.name));
}

/** Tokens of devices and programs that still open something, the newest first; owners only. */
export function useTokens(isOwner: boolean): readonly TokenView[] {
  const { data } = useQuery({
    queryKey: ['tokens'],
    enabled: isOwner,
    queryFn: async () => ((await send('GET', '/tokens?limit=500')) as { items: TokenView[] }).items,
  });
  return (data ?? []).filter(({ revokedAt }) => revokedAt === null);
}

/** Benches of the studio. */
export function useBenches(): readonly BenchView[] {
  const { data } = useQuery({
    queryKey: ['benches'],
    queryFn: async () =>
      ((await send('GET', '/benches?limit=500')) as { items: BenchView[] }).items,
  });
  return (data ?? []).filter(({ retiredAt }) => retiredAt === null);
}

/** What an owner does; each is refused with the service's sentence. */
export function usePeopleChanges() {
  const queries = useQueryClient();
  const then = (keys: readonly string[]) =>
    Promise.all(keys.map((key) => queries.invalidateQueries({ queryKey: [key] })));
  const lists = ['people', 'session'];
  return {
    add: async ({ name, role, kind, pin }: NewPerson) => {
      await send('POST', '/people', { id: uuidv7(), name: name.trim(), role, kind, pin });
      await then(lists);
    },
    change: async (id: string, part: Partial<NewPerson>) => {
      await send('PATCH', `/people/${id}`, part);
      await then(lists);
    },
    retire: async (id: string) => {
      await send('POST', `/people/${id}/retire`);
      await then(lists);
    },
    revoke: async (id: string) => {
      await send('POST', `/tokens/${id}/revoke`);
      await then(['tokens']);
    },
    /** A bench of that name, and a token for its device; its text is told this once. */
    addDevice: async (name: string): Promise<NewTokenView> => {
      const benchId = uuidv7();
      await send('POST', '/benches', { id: benchId, name });
      const made = await send('POST', '/tokens', { name, role: 'bench', benchId });
      await then(['tokens', 'benches']);
      return made as NewTokenView;
    },
  };
}

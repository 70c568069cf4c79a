/** The menu that is there already. */
import { useQuery } from '@tanstack/react-query';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { send } from '../api/calls.js';

/** Services of the studio, as the first day needs them. */
export function useMenu(): readonly ServiceView[] {
  const { data } = useQuery({
    queryKey: ['services'],
    staleTime: 30_000,
    queryFn: async () =>
      ((await send('GET', '/services?limit=500')) as { items: ServiceView[] }).items,
  });
  return (data ?? []).toSorted((a, b) => a.name.localeCompare(b.name));
}

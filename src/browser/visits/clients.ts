/** A client who is here today, as little of her as a bench needs: bowls, formulas, one line. */
import { useQuery } from '@tanstack/react-query';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import type { BenchClientView, ClientBowlView } from '../../../shared/contract/clients.js';
import { bodyOf } from '../api/kept-answers.js';

const staleTime = 15_000;
const most = 60;

interface Items<T> {
  readonly items: T[];
}

/** Bowls of her visits, the latest visit first. */
export function useClientBowls(clientId: string | null): readonly ClientBowlView[] {
  const { data } = useQuery({
    queryKey: ['client-bowls', clientId],
    enabled: clientId !== null,
    refetchInterval: 10_000,
    queryFn: async () =>
      (await bodyOf<Items<ClientBowlView>>(`/clients/${clientId}/bowls?limit=${most}`)).items,
  });
  return data ?? [];
}

/** Her formulas, the newest first. */
export function useClientFormulas(clientId: string | null): readonly FormulaView[] {
  const { data } = useQuery({
    queryKey: ['formulas', clientId],
    enabled: clientId !== null,
    staleTime,
    queryFn: async () =>
      (await bodyOf<Items<FormulaView>>(`/formulas?limit=200&clientId=${clientId}`)).items,
  });
  return data ?? [];
}

/** The line that was left for this visit; undefined where there is none. */
export function useNextTime(clientId: string | null): string | undefined {
  const { data } = useQuery({
    queryKey: ['client', clientId],
    enabled: clientId !== null,
    staleTime,
    queryFn: () => bodyOf<Pick<BenchClientView, 'nextTime'>>(`/clients/${clientId}`),
  });
  return data?.nextTime ?? undefined;
}

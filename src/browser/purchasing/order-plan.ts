/** Asking for an order plan, with what is wished and what a person has changed. */
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { OrderPlanView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';

/** Packs of a product that a person has set. */
export interface KeptPacks {
  readonly productId: string;
  readonly packLabel: string;
  readonly packs: number;
}

export interface Wish {
  readonly orderDays: '1' | '2' | '3';
  readonly serviceLevel: 'own' | '0.9' | '0.95' | '0.98';
  /** Canonical amount; undefined: none. */
  readonly budget: string | undefined;
  readonly keep: readonly KeptPacks[];
}

export const firstWish: Wish = {
  orderDays: '1',
  serviceLevel: 'own',
  budget: undefined,
  keep: [],
};

/** The plan; while another is worked out, the one before stays in sight. */
export function useOrderPlan(wish: Wish) {
  return useQuery({
    queryKey: ['order-plan', wish],
    retry: false,
    staleTime: 60_000,
    placeholderData: keepPreviousData,
    queryFn: async () => {
      const { serviceLevel, budget, keep } = wish;
      return (await send('POST', '/order-plans', {
        orderDays: parseInt(wish.orderDays, 10),
        ...(serviceLevel === 'own' ? {} : { serviceLevel }),
        ...(budget === undefined ? {} : { budget }),
        keep,
      })) as OrderPlanView;
    },
  });
}

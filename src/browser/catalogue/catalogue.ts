/** Products, vessels, purposes and formulas as the bench needs them. */
import { useQuery } from '@tanstack/react-query';
import type {
  FormulaView,
  ProductView,
  PurposeView,
  VesselView,
} from '../../../shared/contract/catalogue.js';
import type { StudioView } from '../../../shared/contract/people.js';
import type { MixProduct } from '../../../shared/mix.js';
import { answer, calls } from '../api/calls.js';
import { mixProductOf } from './mix-product.js';

const query = { limit: 500 };
const staleTime = 30_000;

/** Products by id, as the arithmetic reads them, and in the order of their names. */
export interface Products {
  readonly byId: ReadonlyMap<string, MixProduct>;
  readonly inOrder: readonly ProductView[];
}

const none: Products = { byId: new Map(), inOrder: [] };

/** Every product that is not retired. */
export function useProducts(): Products {
  const { data } = useQuery({ queryKey: ['products'], queryFn: readProducts, staleTime });
  return data ?? none;
}

async function readProducts(): Promise<Products> {
  const page = await answer(calls.GET('/api/v1/products', { params: { query } }));
  const items = page.items as unknown as ProductView[];
  return {
    byId: new Map(items.map((product) => [product.id, mixProductOf(product)])),
    inOrder: items.toSorted((a, b) => a.name.localeCompare(b.name)),
  };
}

/** Vessels with their tares and marks. */
export function useVessels(): readonly VesselView[] {
  const { data } = useQuery({
    queryKey: ['vessels'],
    staleTime,
    queryFn: async () => {
      const page = await answer(calls.GET('/api/v1/vessels', { params: { query } }));
      return page.items as unknown as VesselView[];
    },
  });
  return data ?? [];
}

/** Purposes of the studio: front, roots, gloss. */
export function usePurposes(): readonly PurposeView[] {
  const { data } = useQuery({
    queryKey: ['purposes'],
    staleTime,
    queryFn: async () =>
      (await answer(calls.GET('/api/v1/purposes', { params: { query } }))).items as PurposeView[],
  });
  return data ?? [];
}

/** Formulas: the studio's own, and those of clients. */
export function useFormulas(): readonly FormulaView[] {
  const { data } = useQuery({
    queryKey: ['formulas'],
    staleTime,
    queryFn: async () => {
      const page = await answer(calls.GET('/api/v1/formulas', { params: { query } }));
      return page.items;
    },
  });
  return data ?? [];
}

/** The studio and its settings. */
export function useStudio(): StudioView | undefined {
  const { data } = useQuery({
    queryKey: ['studio'],
    staleTime,
    queryFn: async () => (await answer(calls.GET('/api/v1/studio'))) as StudioView,
  });
  return data;
}

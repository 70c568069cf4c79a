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
import { bodyOf } from '../api/kept-answers.js';
import { mixProductOf } from './mix-product.js';

const staleTime = 30_000;

/** What the bench asks of the catalogue. */
export const cataloguePaths = {
  products: '/products?limit=500',
  vessels: '/vessels?limit=500',
  purposes: '/purposes?limit=500',
  formulas: '/formulas?limit=500',
  studio: '/studio',
} as const;

interface Items<T> {
  readonly items: T[];
}

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
  const { items } = await bodyOf<Items<ProductView>>(cataloguePaths.products);
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
    queryFn: async () => (await bodyOf<Items<VesselView>>(cataloguePaths.vessels)).items,
  });
  return data ?? [];
}

/** Purposes of the studio: front, roots, gloss. */
export function usePurposes(): readonly PurposeView[] {
  const { data } = useQuery({
    queryKey: ['purposes'],
    staleTime,
    queryFn: async () => (await bodyOf<Items<PurposeView>>(cataloguePaths.purposes)).items,
  });
  return data ?? [];
}

/** Formulas: the studio's own, and those of clients. */
export function useFormulas(): readonly FormulaView[] {
  const { data } = useQuery({
    queryKey: ['formulas'],
    staleTime,
    queryFn: async () => (await bodyOf<Items<FormulaView>>(cataloguePaths.formulas)).items,
  });
  return data ?? [];
}

/** The studio and its settings. */
export function useStudio(): StudioView | undefined {
  const { data } = useQuery({
    queryKey: ['studio'],
    staleTime,
    queryFn: () => bodyOf<StudioView>(cataloguePaths.studio),
  });
  return data;
}

/** A small shelf for stories: one lightener, developers by strength, a toner, all in stock. */
import type { TestStudio } from './studio.js';

/** Ids of what is on the shelf. */
export interface Shelf {
  /** 500 g for 15.00: 0.03 a gram. */
  readonly powder: string;
  /** 1000 ml for 6.00 each: 0.006 a millilitre. */
  readonly vol6: string;
  readonly vol20: string;
  readonly vol30: string;
  /** 3 tubes of 60 g for 27.00: 0.15 a gram. */
  readonly toner: string;
}

const products = {
  powder: { name: 'Tide lightener', kind: 'lightener', unit: 'g', line: 'Tide', quantity: '500' },
  vol6: { name: 'Tide developer 6', kind: 'developer', unit: 'ml', line: 'Tide', strength: '6' },
  vol20: { name: 'Tide developer 20', kind: 'developer', unit: 'ml', line: 'Tide', strength: '20' },
  vol30: { name: 'Tide developer 30', kind: 'developer', unit: 'ml', line: 'Tide', strength: '30' },
  toner: { name: 'Dune toner 9', kind: 'toner', unit: 'g', line: 'Tide', quantity: '60' },
} as const;

const costs: Record<keyof Shelf, { quantity: string; cost: string }> = {
  powder: { quantity: '500', cost: '15' },
  vol6: { quantity: '1000', cost: '6' },
  vol20: { quantity: '1000', cost: '6' },
  vol30: { quantity: '1000', cost: '6' },
  toner: { quantity: '180', cost: '27' },
};

/** Enters the products and their opening stock, over HTTP, as the owner. */
export async function aShelf(studio: TestStudio): Promise<Shelf> {
  const shelf: Record<string, string> = {};
  for (const [key, { ...product }] of Object.entries(products)) {
    const { quantity = '1000', ...facts } = product as typeof product & { quantity?: string };
    const made = await studio.owner.post<{ id: string }>('/products', {
      ...facts,
      density: '1',
      packs: [{ label: 'pack', quantity }],
    });
    shelf[key] = made.id;
  }
  await studio.owner.post('/openings', {
    lines: Object.entries(costs).map(([key, line]) => ({ productId: shelf[key], ...line })),
  });
  return shelf as unknown as Shelf;
}

/** What is on hand of a product, by the shelf. */
export async function onHandOf(studio: TestStudio, productId: string): Promise<string> {
  const shelf = await studio.owner.get<{
    items: { productId: string; onHand: { quantity: string } }[];
  }>('/shelf');
  return shelf.items.find((item) => item.productId === productId)?.onHand.quantity ?? 'none';
}

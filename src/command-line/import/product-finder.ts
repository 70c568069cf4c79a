/** Finds products by the names that a file gives them. */
import { productLabel, type NamedProduct } from '../../studio/catalogue/bulk.service.js';

/** Words between which a cell lists several things. */
export const between = ' | ';

/** The parts of a cell such as "Shade 6 x 2 | Shade 7". */
export function partsOf(cell: string): string[] {
  return cell
    .split('|')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** Products by name, or by name and line, "Shade 6 (Tidewater)", in any case of letters. */
export class ProductFinder {
  private readonly byName = new Map<string, NamedProduct[]>();

  constructor(products: readonly NamedProduct[]) {
    for (const product of products.filter(({ retired }) => !retired)) {
      for (const name of new Set([product.name, productLabel(product)])) {
        const key = name.toLowerCase();
        this.byName.set(key, [...(this.byName.get(key) ?? []), product]);
      }
    }
  }

  /** The product, or a sentence why there is none. */
  find(name: string): NamedProduct | string {
    const [found, another] = this.byName.get(name.toLowerCase()) ?? [];
    if (!found) return `There is no product called "${name}". Import products first.`;
    if (!another) return found;
    return `Several products are called "${name}". Write one as ${productLabel(found)}.`;
  }

  /** The shortest name that finds a product again. */
  nameOf(product: NamedProduct): string {
    const same = this.byName.get(product.name.toLowerCase()) ?? [];
    return same.length > 1 ? productLabel(product) : product.name;
  }
}

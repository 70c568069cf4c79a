/** How far the first day has come, read from the service: nothing of it is only on this device. */
import { useProducts } from '../catalogue/catalogue.js';
import { words } from './texts.js';

/** The steps with their figures, as words. */
export function useProgress() {
  const products = useProducts().inOrder;
  return {
    products: words.parts.products(products.length),
  };
}

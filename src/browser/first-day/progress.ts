/** How far the first day has come, read from the service: nothing of it is only on this device. */
import { useProducts } from '../catalogue/catalogue.js';
import { usePeople } from '../people/people-list.js';
import { useMenu } from './menu-there.js';
import { useShelf } from './shelf.js';
import { words } from './texts.js';

/** The steps with their figures, as words. */
export function useProgress() {
  const products = useProducts().inOrder.filter(({ kind }) => kind !== 'water');
  const shelf = useShelf() ?? [];
  const done = shelf.filter(({ entered }) => entered).length;
  return {
    products: words.parts.products(products.length),
    shelf: words.parts.shelf(done, products.length),
    menu: words.parts.menu(useMenu().length),
    people: words.parts.people(usePeople().length),
  };
}

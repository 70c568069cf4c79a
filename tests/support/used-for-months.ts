/** A studio that has used its shelf for months, entered day by day over HTTP. */
import { aShelf, type Shelf } from './saltmarsh.js';
import type { TestStudio } from './studio.js';
import { monthAfter } from '../../shared/ordering/studio-periods.js';

/** What is used on the 3rd, 10th, 17th and 24th of every month. */
export type Use = (month: number) => Partial<Record<keyof Shelf, string>>;

/** Opens the shelf on the first day of `from` and uses it for so many months. */
export async function usedForMonths(
  studio: TestStudio,
  from: string,
  months: number,
  use: Use,
): Promise<Shelf> {
  studio.clock.set(`${from}-01T08:00:00Z`);
  const shelf = await aShelf(studio);
  for (let index = 0; index < months; index += 1) {
    const month = monthAfter(from, index);
    for (const day of ['03', '10', '17', '24']) {
      studio.clock.set(`${month}-${day}T12:00:00Z`);
      const lines = Object.entries(use(index)).map(([key, quantity]) => ({
        productId: shelf[key as keyof Shelf],
        quantity,
        unit: key.startsWith('vol') ? 'ml' : 'g',
      }));
      await studio.owner.post('/uses', { usedAt: `${month}-${day}T11:00:00Z`, lines });
    }
  }
  studio.clock.set(`${monthAfter(from, months)}-01T09:00:00Z`);
  return shelf;
}

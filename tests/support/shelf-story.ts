/** The shelf as stories speak of it: products, what is on hand, uses, counts. */
import type {
  ArrivalAnswer,
  CountAnswer,
  ShelfItemView,
  TakenAnswer,
} from '../../shared/contract/stock.js';
import type { TestStudio } from './studio.js';

/** A product with what was delivered of it; short forms of what happens to it. */
export class ShelfStory {
  constructor(
    readonly studio: TestStudio,
    readonly productId: string,
    readonly unit: 'g' | 'ml' | 'piece',
  ) {}

  static async of(studio: TestStudio, facts: Record<string, unknown> = {}): Promise<ShelfStory> {
    const body = { name: `Toner ${names.next()}`, kind: 'toner', unit: 'g', ...facts };
    const { id } = await studio.manager.post<{ id: string }>('/products', body);
    return new ShelfStory(studio, id, body.unit as 'g');
  }

  /** How the shelf shows it to a manager. */
  async shown(): Promise<ShelfItemView> {
    const { items } = await this.studio.manager.get<{ items: ShelfItemView[] }>('/shelf');
    const item = items.find(({ productId }) => productId === this.productId);
    if (!item) throw new Error('It is not on the shelf.');
    return item;
  }

  /** On hand and its value: "80 for 8.000000". */
  async holds(): Promise<string> {
    const { onHand, value } = await this.shown();
    return `${onHand.quantity} for ${value}`;
  }

  deliver(quantity: string, cost: string | undefined, deliveredOn: string, more = {}) {
    const line = { productId: this.productId, quantity, ...(cost ? { cost } : {}), ...more };
    return this.studio.manager.post<ArrivalAnswer>('/deliveries', { deliveredOn, lines: [line] });
  }

  use(quantity: string, usedAt: string, more = {}) {
    const line = { productId: this.productId, quantity, unit: this.unit };
    return this.studio.manager.post<TakenAnswer>('/uses', { usedAt, lines: [line], ...more });
  }

  count(quantity: string, countedAt: string) {
    const line = { productId: this.productId, counted: { quantity, unit: this.unit } };
    return this.studio.manager.post<CountAnswer>('/counts', { countedAt, lines: [line] });
  }

  undo(id: string) {
    return this.studio.manager.post(`/movements/${id}/reversal`, {});
  }
}

const names = {
  made: 0,
  next(): number {
    return (this.made += 1);
  },
};

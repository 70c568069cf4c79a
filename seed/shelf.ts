/** The shelf as the story sees it: what there is, what is used a week, what has run out of time. */
import type { LotBalance } from '../shared/costing.js';
import { onHand, type ProductStock } from '../shared/moving/stock.js';
import type { Catalogue, DemoProduct } from './catalogue.js';
import type { Swift } from './happenings.js';

/** How quickly the habit of a product's use follows the last week's. */
const follows = 0.12;

export class Shelf {
  private readonly weekly = new Map<string, number>();
  private readonly thisWeek = new Map<string, number>();

  /** @param stockOf a product's shelf as it is at this moment of the story */
  constructor(
    readonly catalogue: Catalogue,
    private readonly stockOf: (productId: string) => ProductStock,
  ) {
    for (const { id, openingPacks, packHolds } of catalogue.products) {
      this.weekly.set(id, (openingPacks * packHolds) / 7);
    }
  }

  /** How much the book has, in the product's unit. */
  onHand(productId: string): number {
    return onHand(this.stockOf(productId)).toNumber();
  }

  /** What is used in a usual week, in the product's unit. */
  usedWeekly({ id }: DemoProduct): number {
    return this.weekly.get(id) ?? 0;
  }

  /** Lots whose last good day is past. */
  expired(productId: string, day: string): LotBalance[] {
    return this.stockOf(productId).lots.filter(
      ({ expiresOn }) => expiresOn !== null && expiresOn < day,
    );
  }

  /** Takes note of what a day used. */
  learn(happenings: readonly Swift[]): void {
    for (const happening of happenings) {
      if (happening.what === 'a bowl is mixed') this.add(happening.body.pours);
      if (happening.what === 'a visit closes') this.add(happening.uses);
    }
  }

  /** A week is over: the habit follows it. */
  weekIsOver(): void {
    for (const { id } of this.catalogue.products) {
      const used = this.thisWeek.get(id) ?? 0;
      const before = this.weekly.get(id) ?? used;
      this.weekly.set(id, before + follows * (used - before));
    }
    this.thisWeek.clear();
  }

  private add(lines: readonly { readonly productId: string; readonly quantity: string }[]): void {
    for (const { productId, quantity } of lines) {
      this.thisWeek.set(productId, (this.thisWeek.get(productId) ?? 0) + +quantity);
    }
  }
}

/** Many entries decided one after the other in memory, each as if those before were recorded. */
import type { Decimal } from '../../../shared/decimal.js';
import { onHand, type ProductStock } from '../../../shared/moving/stock.js';
import { Posting, type Entry } from './posting.js';

/** A posting with whose hands booked it and when. */
export interface Decided {
  readonly posting: Posting;
  readonly entry: Entry;
}

/** What the product drawn last cost, and when that was. */
interface LastCost {
  readonly at: string;
  readonly unitCost: Decimal;
}

/**
 * For loading a history in its own order: `LedgerService.appendAll` writes the batch in one
 * statement. Entries that come days late, counts and reversals read what is recorded, and are
 * left to their services, between batches.
 */
export class PostingBatch {
  readonly decided: Decided[] = [];
  private readonly lastCosts = new Map<string, LastCost>();

  /** @param last a posting on every product of the batch, as the ledger has them */
  constructor(private last: Posting) {}

  /** The shelf of a product as the batch has left it so far. */
  stock(productId: string): ProductStock {
    return this.last.stock(productId);
  }

  /** The posting of the next entry: it knows all that it would have read, had it waited. */
  next(entry: Entry): Posting {
    const { studio, facts, shelves, withoutShortfallLot } = this.last;
    const made = this.learn();
    const without = new Set([...withoutShortfallLot].filter((id) => !made.has(id)));
    const stocks = new Map(shelves);
    for (const stock of this.last.changedStocks) {
      stocks.set(stock.productId, { ...stock, fallbackUnitCost: this.cost(stock) });
    }
    const posting = new Posting(studio, facts, stocks, without);
    this.decided.push({ posting, entry });
    this.last = posting;
    return posting;
  }

  /** Takes note of what the last posting drew; the products whose shortfall lot it made. */
  private learn(): Set<string> {
    const made = new Set<string>();
    for (const { happenedAt, movements } of this.last.journals) {
      for (const { productId, from, to, quantity, value, reason, happened } of movements) {
        if (reason === 'shortfall') made.add(productId);
        if (from !== 'shelf' || to === 'correction' || value.isZero()) continue;
        const at = happened?.at ?? happenedAt;
        const known = this.lastCosts.get(productId);
        if (known && known.at > at) continue;
        this.lastCosts.set(productId, { at, unitCost: value.dividedBy(quantity) });
      }
    }
    return made;
  }

  /** An empty shelf is worth what was drawn last; a full one tells by its lots. */
  private cost(stock: ProductStock): Decimal | null {
    if (!onHand(stock).isZero()) return null;
    return this.lastCosts.get(stock.productId)?.unitCost ?? stock.fallbackUnitCost;
  }
}

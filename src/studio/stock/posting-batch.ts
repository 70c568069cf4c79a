/** Many entries decided one after the other in memory, each as if those before were recorded. */
import type { Decimal } from '../../../shared/decimal.js';
import { onHand, type ProductStock } from '../../../shared/moving/stock.js';
import { AppendRows } from './posting-rows.js';
import { Posting, type Entry } from './posting.js';

/** What the product drawn last cost, and when that was. */
interface LastCost {
  readonly at: string;
  readonly unitCost: Decimal;
}

/**
 * For loading a history in its own order: `LedgerService.appendRows` writes the batch in one
 * statement. Entries that come days late, counts and reversals read what is recorded, and are
 * left to their services, between batches.
 */
export class PostingBatch {
  private readonly rows = new AppendRows();
  private readonly lastCosts = new Map<string, LastCost>();
  private newest: Posting;
  private entry: Entry | undefined;

  /** @param first a posting on every product of the batch, or the last one of a batch before */
  constructor(first: Posting) {
    this.newest = first;
  }

  /** The entry decided last: the next batch may go on from it. */
  get last(): Posting {
    return this.newest;
  }

  /** The shelf of a product as the batch has left it so far. */
  stock(productId: string): ProductStock {
    return this.newest.stock(productId);
  }

  /** The posting of the next entry: it knows all that it would have read, had it waited. */
  next(entry: Entry): Posting {
    const { studio, facts, shelves, withoutShortfallLot } = this.newest;
    const made = this.learn();
    const without = new Set([...withoutShortfallLot].filter((id) => !made.has(id)));
    const stocks = new Map(shelves);
    for (const stock of this.newest.changedStocks) {
      stocks.set(stock.productId, { ...stock, fallbackUnitCost: this.cost(stock) });
    }
    const posting = new Posting(studio, facts, stocks, without);
    this.finish();
    this.newest = posting;
    this.entry = entry;
    return posting;
  }

  /** All entries as they will be written. */
  finish(): AppendRows {
    if (this.entry) this.rows.add(this.newest, this.entry);
    this.entry = undefined;
    return this.rows;
  }

  /** Takes note of what the last posting drew; the products whose shortfall lot it made. */
  private learn(): Set<string> {
    const made = new Set<string>();
    for (const { happenedAt, movements } of this.newest.journals) {
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

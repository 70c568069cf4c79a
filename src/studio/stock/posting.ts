/** A posting in the making: what was locked and read, and what it will append, in memory. */
import { dayIn } from '../../../shared/calendar.js';
import type { MovementDraft, LotDraft, StockFlag } from '../../../shared/moving/movement.js';
import { draw, type DrawOrder, type DrawResult } from '../../../shared/moving/drawing.js';
import type { ProductStock } from '../../../shared/moving/stock.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { ProductFacts } from './product-facts.js';

/** Kinds of journal, as ledger rows name them. */
export type JournalKind =
  | 'opening'
  | 'delivery'
  | 'pour'
  | 'scooped back'
  | 'division'
  | 'weighing'
  | 'settlement'
  | 'use'
  | 'discard'
  | 'count'
  | 'cost correction'
  | 'supplier return'
  | 'transfer'
  | 'reversal';

/** What is true of every movement of one journal. */
export interface JournalHead {
  readonly id: string;
  readonly kind: JournalKind;
  /** When it happened: RFC 3339 in UTC. */
  readonly happenedAt: string;
  readonly visitId?: string | null;
  readonly bowlId?: string | null;
  readonly reversesId?: string;
  readonly note?: string;
}

/** A journal with what it moves. */
export interface JournalDraft extends JournalHead {
  readonly happenedOn: string;
  readonly flags: Set<string>;
  readonly movements: MovementDraft[];
  readonly lots: LotDraft[];
}

/** Whose hands booked it, and when the service heard of it (RFC 3339 in UTC). */
export interface Entry {
  readonly personId: string | null;
  readonly benchId: string | null;
  readonly recordedAt: string;
}

/** The studio as a posting needs it. */
export interface StudioFacts {
  readonly currency: string;
  /** ISO 3166-1, two letters; null where it was not said. */
  readonly country: string | null;
  readonly timeZone: string;
  readonly lockedBefore: string | null;
  /** The invented studio; the only one in which a practice scale books. */
  readonly demo: boolean;
}

/**
 * Holds the locked products of one transaction. Every step works on the shelf as the steps
 * before left it, so that a whole bowl is decided in memory and written once.
 */
export class Posting {
  readonly journals: JournalDraft[] = [];
  private readonly changed = new Set<string>();
  private readonly before: ReadonlyMap<string, ProductStock>;

  constructor(
    readonly studio: StudioFacts,
    readonly facts: ReadonlyMap<string, ProductFacts>,
    private readonly stocks: Map<string, ProductStock>,
    /** Products whose shortfall lot is not recorded yet. */
    readonly withoutShortfallLot: ReadonlySet<string>,
  ) {
    this.before = new Map(stocks);
  }

  /** Opens a journal; its movements are booked in the order in which they are added. */
  journal(head: JournalHead): JournalDraft {
    const happenedOn = dayIn(this.studio.timeZone, head.happenedAt);
    const flags = new Set<string>();
    if (this.studio.lockedBefore !== null && happenedOn < this.studio.lockedBefore) {
      flags.add('after closing');
    }
    const journal: JournalDraft = { ...head, happenedOn, flags, movements: [], lots: [] };
    this.journals.push(journal);
    return journal;
  }

  /** @throws Problem `not_found` for a product this posting did not lock, or nobody has */
  product(productId: string): ProductFacts {
    const facts = this.facts.get(productId);
    if (!facts) throw new Problem('not_found', { what: 'product', id: productId });
    return facts;
  }

  /** The shelf of a product as this posting has left it so far. */
  stock(productId: string): ProductStock {
    this.product(productId);
    return this.stocks.get(productId) as ProductStock;
  }

  /** The shelf of a product as it was before this posting. */
  stockBefore(productId: string): ProductStock {
    this.product(productId);
    return this.before.get(productId) as ProductStock;
  }

  /** Draws a product off the shelf into the journal; flags go on the journal too. */
  draw(
    journal: JournalDraft,
    productId: string,
    order: Omit<DrawOrder, 'happenedAt' | 'day'>,
  ): DrawResult {
    const result = draw(this.stock(productId), {
      ...order,
      happenedAt: journal.happenedAt,
      day: journal.happenedOn,
    });
    this.book(journal, result);
    return result;
  }

  /** Books what a step of the ledger's law decided. */
  book(
    journal: JournalDraft,
    result: {
      readonly stock?: ProductStock;
      readonly movements: readonly MovementDraft[];
      readonly lots?: readonly LotDraft[];
      readonly flags?: readonly StockFlag[];
    },
  ): void {
    if (result.stock) {
      this.stocks.set(result.stock.productId, result.stock);
      this.changed.add(result.stock.productId);
    }
    journal.movements.push(...result.movements);
    journal.lots.push(...(result.lots ?? []));
    for (const flag of result.flags ?? []) journal.flags.add(flag);
  }

  /** The shelves of all products of this posting, as it has left them so far. */
  get shelves(): ReadonlyMap<string, ProductStock> {
    return this.stocks;
  }

  /** Products whose shelf this posting changed. */
  get changedStocks(): ProductStock[] {
    return [...this.changed].map((productId) => this.stock(productId));
  }
}

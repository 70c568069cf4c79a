/** Decides what happens in memory, by the ledger's own law, and writes it a batch at a time. */
import { amount } from '../shared/amount.js';
import { deliveryLineCosts } from '../shared/costing.js';
import { decimal } from '../shared/decimal.js';
import type { ProductStock } from '../shared/moving/stock.js';
import type { Transaction } from '../src/platform/database/transaction.js';
import { newBowl, pourDraft, settlementDraft } from '../src/studio/bowls/bowl-steps.js';
import { BowlRows, putBackRows } from '../src/studio/bowls/bowl-store.js';
import type { PourRequest, SettlementRequest } from '../src/studio/bowls/bowls.requests.js';
import type { Terms } from '../src/studio/pricing/terms.js';
import { stockQuantity } from '../src/studio/stock/entries.js';
import type { LedgerService, Posting } from '../src/studio/stock/ledger.service.js';
import type { Entry, JournalHead } from '../src/studio/stock/posting.js';
import { PostingBatch } from '../src/studio/stock/posting-batch.js';
import { arrivalsOf, bookArrivals, deliveryRows } from '../src/studio/stock/receiving-steps.js';
import { WRITE_DELIVERY } from '../src/studio/stock/receiving.queries.js';
import type { DeliveryRequest } from '../src/studio/stock/stock.requests.js';
import type {
  BowlIsMixed,
  DeliveryArrives,
  DeliveryBody,
  PourBody,
  SettlementBody,
  Swift,
  TakenLine,
} from './happenings.js';
import type { Plans } from './plans.js';
import { VisitRows } from './visits.js';

/** What a batch begins with. */
export interface BatchParts {
  readonly posting: Posting;
  readonly plans: Plans;
  readonly terms: Terms;
  readonly benchId: string;
  /** The own weight of each vessel, g. */
  readonly tares: ReadonlyMap<string, string>;
}

export class SwiftBatch {
  private readonly ledger: PostingBatch;
  private readonly visits: VisitRows;
  private readonly people = new Map<string, string>();
  private readonly bowls = new BowlRows();
  private entries = 0;
  private readonly deliveries: string[][] = [];

  constructor(private readonly parts: BatchParts) {
    this.ledger = new PostingBatch(parts.posting);
    this.visits = new VisitRows(parts.terms);
  }

  /** How many entries it holds. */
  get size(): number {
    return this.entries;
  }

  stock(productId: string): ProductStock {
    return this.ledger.stock(productId);
  }

  book(happening: Swift): void {
    this.entries += 1;
    switch (happening.what) {
      case 'a visit begins':
        this.visits.begin(happening);
        this.people.set(happening.visit.id, happening.visit.personId);
        return;
      case 'a visit closes':
        this.visits.close(happening);
        if (happening.uses.length === 0) return;
        this.take(happening, { id: happening.useId, kind: 'use', visitId: happening.visitId }, [
          ...happening.uses,
        ]);
        return;
      case 'a bowl is mixed':
        this.bowl(happening);
        return;
      case 'a delivery arrives':
        this.delivery(happening);
        return;
      case 'a lot is thrown away': {
        const { id, line, lotId, why } = happening;
        this.take(happening, { id, kind: 'discard' }, [line], { lotId, reason: why });
      }
    }
  }

  /** Writes all of it; a batch is written once. */
  async write(tx: Transaction, ledger: LedgerService): Promise<void> {
    const visits = this.visits.write(tx);
    putBackRows(tx, this.bowls);
    ledger.appendRows(tx, this.ledger.finish());
    for (const rows of this.deliveries) tx.write(WRITE_DELIVERY, rows);
    await visits;
  }

  /** The posting with which the next batch goes on. */
  get last(): Posting {
    return this.ledger.last;
  }

  private entry({ at, personId }: Swift): Entry {
    return { personId, benchId: this.parts.benchId, recordedAt: at };
  }

  private take(
    happening: Swift,
    head: Omit<JournalHead, 'happenedAt'>,
    lines: readonly TakenLine[],
    only: { readonly lotId?: string; readonly reason?: 'expired' | 'damaged' } = {},
  ): void {
    const posting = this.ledger.next(this.entry(happening));
    const journal = posting.journal({ ...head, happenedAt: happening.at });
    for (const { productId, quantity, unit } of lines) {
      const taken = stockQuantity(posting.product(productId), decimal(quantity), unit);
      const to = head.kind === 'use' ? 'head' : 'bin';
      posting.draw(journal, productId, { quantity: taken.quantity, to, ...only });
    }
  }

  private bowl(happening: BowlIsMixed): void {
    const { body, variant } = happening;
    const entry = this.entry(happening);
    const posting = this.ledger.next(entry);
    const { plan, ...head } = body.bowl;
    const size = plan['size'] as { total: { quantity: string } };
    const { ready } = this.parts.plans.of(variant, parseInt(size.total.quantity, 10));
    const visit = { person_id: this.people.get(body.bowl.visitId) ?? null, closed: false };
    const tare = this.parts.tares.get(head.vesselId);
    const backing = { visit, vesselTare: tare === undefined ? null : decimal(tare) };
    const bowl = newBowl(head, entry, backing, ready, head.plannedAt);
    const [weighing] = body.weighings;
    for (const pour of body.pours) {
      if (weighing && weighing.at < pour.pouredAt && bowl.weighings.length === 0) {
        bowl.weigh(posting, {
          id: weighing.id,
          net: decimal(weighing.net.quantity),
          at: weighing.at,
        });
      }
      bowl.pour(posting, pourDraft(posting, bowl, pourOf(pour), pour.pouredAt));
    }
    const { settlement } = body;
    bowl.settle(posting, settlementDraft(bowl, settlementOf(settlement), settlement.settledAt));
    this.bowls.add(bowl, entry);
  }

  private delivery(happening: DeliveryArrives): void {
    const posting = this.ledger.next(this.entry(happening));
    const request = deliveryOf(happening.body);
    const arrivals = arrivalsOf(posting, request.lines);
    const costs = deliveryLineCosts(arrivals, request);
    const head = { id: happening.body.id, kind: 'delivery' as const, happenedAt: happening.at };
    const journal = posting.journal(head);
    const arrived = bookArrivals(posting, journal, request.lines, arrivals, costs, {
      delivery: request,
    });
    this.deliveries.push(deliveryRows(journal.id, request, arrived));
  }
}

/** A delivery as the service reads it. */
export function deliveryOf(body: DeliveryBody): DeliveryRequest {
  const { freight, discount, lines, ...rest } = body;
  return {
    ...rest,
    freight: decimal(freight),
    ...(discount === undefined ? {} : { discount: decimal(discount) }),
    lines: lines.map(({ packPrice, ...line }) => ({ ...line, packPrice: decimal(packPrice) })),
  };
}

/** A pour as the service reads it. */
export function pourOf({ quantity, scale, estimated = false, ...pour }: PourBody): PourRequest {
  const weighed = scale ? { scale: { ...scale, interval: decimal(scale.interval) } } : {};
  const said = { estimated, finished: false, ranOut: false };
  return { ...pour, ...said, ...weighed, quantity: decimal(quantity) };
}

/** A settlement as the service reads it. */
export function settlementOf(body: SettlementBody): SettlementRequest {
  const { leftover, leftoverShare, why = 'left over', ...rest } = body;
  return {
    ...rest,
    why,
    estimated: false,
    ...(leftover ? { leftover: amount(leftover.quantity, 'g') } : {}),
    ...(leftoverShare === undefined ? {} : { leftoverShare: decimal(leftoverShare) }),
  };
}

/** What every entry on the shelf has in common: who books it, its lines' products, its answer. */
import type { StockUnit } from '../../../shared/amount.js';
import type { EntryView } from '../../../shared/contract/stock.js';
import type { Decimal } from '../../../shared/decimal.js';
import { inStockUnit, type Weighable } from '../../../shared/units.js';
import { deviceTimes, type Happened } from '../../platform/clock.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import type { ProductFacts } from './product-facts.js';
import type { Entry, JournalDraft, JournalHead, Posting } from './posting.js';
import type { RaisedFlag } from './stock-flags.service.js';

/** Who acts on the shelf, when the service heard of it, and whether they may see money. */
export interface StockActing extends Entry {
  readonly money: boolean;
  /** Undoes only what is their own, on the same day. */
  readonly ownOnly: boolean;
  /** When something happened, by the device's clock set right. */
  readonly when: (written: string) => Happened;
}

/**
 * @param recordedAt the service's clock, RFC 3339 in UTC
 * @param sentAt the device's clock when it sent the request
 */
export function actingOn(caller: Caller, recordedAt: string, sentAt?: string): StockActing {
  const manages = mayAct(caller, 'manager');
  return {
    personId: caller.personId ?? null,
    benchId: caller.benchId ?? null,
    recordedAt,
    money: manages,
    ownOnly: !manages,
    when: deviceTimes(sentAt, recordedAt),
  };
}

/** A product as conversions between grams, millilitres and pieces need it. */
export function weighable(facts: ProductFacts): Weighable {
  return {
    id: facts.id,
    name: facts.name,
    unit: facts.unit,
    density: facts.density_g_per_ml ?? undefined,
    gramsPerPiece: facts.grams_per_piece ?? undefined,
  };
}

/** A quantity in the unit in which the product is kept. @throws as `inStockUnit` */
export function stockQuantity(
  facts: ProductFacts,
  quantity: Decimal,
  unit: StockUnit,
): { quantity: Decimal; assumedDensity: boolean } {
  const converted = inStockUnit(quantity, unit, weighable(facts));
  const byWeight = unit !== facts.unit && unit !== 'piece' && facts.unit !== 'piece';
  return { quantity: converted, assumedDensity: byWeight && facts.density_g_per_ml === null };
}

const stockFlags: ReadonlySet<string> = new Set(['expired', 'recount', 'no_cost']);

/** The common part of an answer. `raised` are flags by product, repeated ones told once. */
export function entryView(
  journal: JournalDraft,
  raised: readonly RaisedFlag[],
): Omit<EntryView, 'dry'> {
  const flags = new Map(raised.map((each) => [`${each.productId} ${each.flag}`, each]));
  return {
    id: journal.id,
    happenedAt: journal.happenedAt,
    flags: [...flags.values()],
    marks: [...journal.flags].filter((flag) => !stockFlags.has(flag)),
  };
}

/** Opens a journal at the time that was written down for it; none: now. */
export function journalAt(
  posting: Posting,
  head: Omit<JournalHead, 'happenedAt'>,
  written: string | undefined,
  by: StockActing,
): JournalDraft {
  const happened = written === undefined ? { at: by.recordedAt, flags: [] } : by.when(written);
  const journal = posting.journal({ ...head, happenedAt: happened.at });
  for (const flag of happened.flags) journal.flags.add(flag);
  return journal;
}

/** Product ids of lines, each once. */
export function productIdsOf(lines: readonly { readonly productId: string }[]): string[] {
  return [...new Set(lines.map((line) => line.productId))];
}

/** How much a posting changed what a product's shelf is worth. */
export function valueChange(posting: Posting, productId: string): Decimal {
  return posting.stock(productId).value.minus(posting.stockBefore(productId).value);
}

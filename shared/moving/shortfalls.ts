/** Which pours beyond the book are still unexplained, worked out anew from what was recorded. */
import { valueOfPart } from '../costing.js';
import { smaller, zero, type Decimal } from '../decimal.js';
import { oldestFirst, type OpenShortfall } from './stock.js';

/** A recorded shortfall, or what a lot gave back for one; quantity in stock unit. */
export interface ShortfallEntry {
  readonly kind: 'short' | 'given' | 'taken again';
  /** Instant (UTC, ISO 8601) and studio day (YYYY-MM-DD) of the pour that it is about. */
  readonly at: string;
  readonly on: string;
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/** What a lot gave back for pours that were undone since. */
export interface GivenTooMuch {
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
}

/**
 * Replays shortfalls and what was given back, in the order of recording.
 * Example: 30 short, 20 given by a delivery -> 10 open; the pour undone -> nothing open, 20
 * given too much.
 */
export function openShortfalls(entries: readonly ShortfallEntry[]): {
  open: OpenShortfall[];
  tooMuch: GivenTooMuch[];
} {
  let open: OpenShortfall[] = [];
  const tooMuch = new Map<string, GivenTooMuch>();
  for (const entry of entries) {
    if (entry.kind === 'short') {
      open = [...open, { at: entry.at, on: entry.on, quantity: entry.quantity }];
      continue;
    }
    const known = tooMuch.get(entry.lotId) ?? nothing(entry.lotId);
    if (entry.kind === 'taken again') {
      tooMuch.set(entry.lotId, less(known, entry.quantity, entry.value));
      continue;
    }
    const { rest, left } = explained(open, entry);
    open = rest;
    const value = valueOfPart(entry.value, left, entry.quantity);
    tooMuch.set(entry.lotId, less(known, left.negated(), value.negated()));
  }
  return {
    open,
    tooMuch: [...tooMuch.values()].filter((each) => each.quantity.greaterThan(zero)),
  };
}

/** The oldest shortfalls are explained first; `left` is what explains none. */
function explained(
  open: readonly OpenShortfall[],
  entry: ShortfallEntry,
): { rest: OpenShortfall[]; left: Decimal } {
  let left = entry.quantity;
  const rest: OpenShortfall[] = [];
  for (const shortfall of oldestFirst(open)) {
    const part = entry.at <= shortfall.at ? smaller(left, shortfall.quantity) : zero;
    left = left.minus(part);
    const quantity = shortfall.quantity.minus(part);
    if (!quantity.isZero()) rest.push({ ...shortfall, quantity });
  }
  return { rest, left };
}

const nothing = (lotId: string): GivenTooMuch => ({ lotId, quantity: zero, value: zero });

function less(known: GivenTooMuch, quantity: Decimal, value: Decimal): GivenTooMuch {
  return {
    lotId: known.lotId,
    quantity: known.quantity.minus(quantity),
    value: known.value.minus(value),
  };
}

/** What of a visit and of a quote a client may see: no cost, no margin, nothing that was left. */
import type { PriceSheetView } from '../../../shared/contract/pricing.js';
import type { ClientQuoteView } from '../../../shared/contract/quotes.js';
import type { VisitView } from '../../../shared/contract/visits.js';
import { decimal } from '../../../shared/decimal.js';
import { money } from './money.js';
import type { ClientFacts } from './showing.js';
import { texts } from './texts.js';

const { client: words } = texts;

/** A visit with its price. */
export function visitToShow(visit: VisitView, { totals, currency }: PriceSheetView): ClientFacts {
  const { chairMinutes: minutes } = visit;
  const paidBefore = decimal(totals.gross).minus(totals.due);
  const tip = decimal(totals.tip);
  const isPlain = paidBefore.isZero() && tip.isZero() && decimal(totals.cashRounding).isZero();
  return {
    currency,
    services: visit.services.map(({ name }) => name),
    minutes: { from: minutes, to: minutes },
    price: { from: totals.gross, to: totals.gross },
    inThePrice: [],
    promise: null,
    validUntil: null,
    expired: false,
    more: [
      ...(paidBefore.isZero() ? [] : [{ label: words.paidBefore, amount: paidBefore.toFixed() }]),
      ...(tip.isZero() ? [] : [{ label: words.tip, amount: totals.tip }]),
      ...(isPlain ? [] : [{ label: words.due, amount: totals.toTheTill }]),
    ],
  };
}

/** A quote, its money as this device writes it. */
export function quoteToShow(quote: ClientQuoteView): ClientFacts {
  const promise = words.promise(money(quote.price.to, quote.currency));
  return { ...quote, promise, more: [] };
}

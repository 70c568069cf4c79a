/** Quotes as they travel, and as a client sees them. */
import { minorDigits } from '../../../shared/currency.js';
import type { InThePriceItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting, PricingSettings } from '../../../shared/contract/pricing.js';
import type { ClientQuoteView, PointsView, QuoteView } from '../../../shared/contract/quotes.js';
import { canonical, count, decimal, fixed, roundToStep, sum } from '../../../shared/decimal.js';
import { moneyText } from '../../../shared/money-text.js';
import type { Points, Quote } from '../../../shared/quoting.js';

type Pointed = 'menu' | 'price' | 'grams' | 'bowls' | 'minutes' | 'handsOnMinutes';

/** The figures of a quote; amounts in the currency's minor digits. */
export function quotedFigures(
  { menu, price, visits, enough, held, ...taken }: Quote,
  currency: string,
): Pick<QuoteView, Pointed | 'visits' | 'enough' | 'held'> {
  const places = minorDigits(currency);
  const amounts = { low: menu.gross, likely: menu.gross, high: menu.gross };
  const { low, likely, high } = price ?? amounts;
  return {
    menu: {
      net: fixed(menu.net, places),
      tax: fixed(menu.tax, places),
      gross: fixed(menu.gross, places),
    },
    price: { low: fixed(low, places), likely: fixed(likely, places), high: fixed(high, places) },
    grams: points(taken.grams),
    bowls: points(taken.bowls),
    minutes: points(taken.minutes),
    handsOnMinutes: points(taken.handsOnMinutes),
    ...{ visits, enough, held: { ...held } },
  };
}

function points(found: Points | null): PointsView | null {
  if (!found) return null;
  const { low, likely, high } = found;
  return { low: canonical(low), likely: canonical(likely), high: canonical(high) };
}

/** How product beyond what is in the price is charged, in words. */
export function onTopWords({ onTop }: PricingSettings, currency: string): string[] {
  return onTop.map((rule) => `${rule.label ?? rule.kind}: ${rateWords(rule, currency)}`);
}

function rateWords({ by, rate }: OnTopSetting, currency: string): string {
  switch (by) {
    case 'bowl':
      return `${moneyText(rate, currency)} for each further bowl, without tax`;
    case 'gram':
      return `${moneyText(rate, currency)} for each further gram, without tax`;
    case 'cost':
      return 'by what is used beyond';
  }
}

/** What a client may see: service, time, price, what is in it, how long it holds. */
export function clientQuote(quote: QuoteView): ClientQuoteView {
  const { currency, price, services, validUntil, expired } = quote;
  const menu = canonical(sum(services.map((service) => count(service.chairMinutes))));
  const { low, high } = quote.minutes ?? { low: menu, high: menu };
  return {
    currency,
    services: services.map((service) => service.name),
    minutes: { from: minutesUp(low), to: minutesUp(high) },
    price: { from: price.low, to: price.high },
    inThePrice: inThePriceWords(quote),
    promise: `We ask you before going above ${moneyText(price.high, currency)}.`,
    ...{ validUntil, expired },
  };
}

/** Nobody is told 87 minutes: rounded up to 5. */
function minutesUp(minutes: string): number {
  return parseInt(roundToStep(decimal(minutes), count(5), 'ceiling').toFixed(), 10);
}

/** Pooled over the services; all of it where nothing is charged on top. */
function inThePriceWords({ services, onTop }: QuoteView): string[] {
  if (onTop.length === 0) return ['all product'];
  const pooled = new Map<string, { item: InThePriceItem; all: string }>();
  for (const item of services.flatMap((service) => service.inThePrice)) {
    const unit = item.grams === undefined ? 'bowls' : 'grams';
    const key = `${item.kind} ${unit}`;
    const more = decimal(item.grams ?? item.bowls ?? '0');
    const all = canonical(more.plus(decimal(pooled.get(key)?.all ?? '0')));
    pooled.set(key, { item, all });
  }
  return [...pooled.values()].map(({ item, all }) => {
    if (item.grams !== undefined) return `${item.kind}, up to ${all} g`;
    return `${item.kind}, ${all} ${all === '1' ? 'bowl' : 'bowls'}`;
  });
}

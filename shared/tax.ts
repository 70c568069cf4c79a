/** Taxes on a price: on top of it or within it, rounded per line or per invoice. */
import { Decimal, one, round, sum, zero, type Rounding } from './decimal.js';

/** `inclusive`: prices have the tax within them; `exclusive`: the tax comes on top. */
export type PriceMode = 'inclusive' | 'exclusive';

/** What is rounded: the tax of every line, or the tax of all lines together. */
export type TaxBasis = 'line' | 'invoice';

/** A rate as a share: 0.19 for 19 per cent. */
export interface TaxRate {
  readonly label: string;
  readonly rate: Decimal;
}

export interface TaxRule {
  readonly mode: PriceMode;
  readonly rates: readonly Decimal[];
  readonly basis: TaxBasis;
  readonly places: number;
  readonly rounding: Rounding;
}

/** Net, tax and gross of a price; `taxes` in the order of the rates. */
export interface Taxed {
  readonly net: Decimal;
  readonly taxes: readonly Decimal[];
  readonly tax: Decimal;
  readonly gross: Decimal;
}

/** Tax on top of a net price, unrounded: net x rate. */
export function taxOn(net: Decimal, rate: Decimal): Decimal {
  return net.times(rate);
}

/** Tax within a gross price, unrounded; taxes share one base: gross x rate / (1 + all rates). */
export function taxWithin(gross: Decimal, rate: Decimal, allRates: Decimal = rate): Decimal {
  return gross.times(rate).dividedBy(one.plus(allRates));
}

/** Price with its tax, unrounded: net x (1 + rate). */
export function grossOf(net: Decimal, rate: Decimal): Decimal {
  return net.times(one.plus(rate));
}

/** Price without its tax, unrounded: gross / (1 + rate). */
export function netOf(gross: Decimal, rate: Decimal): Decimal {
  return gross.dividedBy(one.plus(rate));
}

/** The rate that makes one of the other, unrounded: gross / net - 1. */
export function taxRateBetween(net: Decimal, gross: Decimal): Decimal {
  return gross.dividedBy(net).minus(one);
}

/**
 * Taxes of priced lines under one rule. Each tax is rounded by itself: once for the invoice, or
 * on every line and then added. Inclusive: gross is what the lines add up to, net = gross -
 * taxes; exclusive: net is what they add up to, gross = net + taxes.
 * Source: Streamlined Sales and Use Tax Agreement s. 324 (item or invoice basis); HMRC
 * VATREC12030. Example: three lines of 0.10 at 5 %, half_up -> 0.03 per line, 0.02 per invoice.
 */
export function taxed(lines: readonly Decimal[], rule: TaxRule): Taxed {
  const all = sum(rule.rates);
  const exact = (base: Decimal, rate: Decimal): Decimal =>
    rule.mode === 'inclusive' ? taxWithin(base, rate, all) : taxOn(base, rate);
  const rounded = (base: Decimal, rate: Decimal): Decimal =>
    round(exact(base, rate), rule.places, rule.rounding);
  const base = sum(lines);
  const taxes = rule.rates.map((rate) =>
    rule.basis === 'line' ? sum(lines.map((line) => rounded(line, rate))) : rounded(base, rate),
  );
  const tax = taxes.reduce<Decimal>((total, each) => total.plus(each), zero);
  return rule.mode === 'inclusive'
    ? { net: base.minus(tax), taxes, tax, gross: base }
    : { net: base, taxes, tax, gross: base.plus(tax) };
}

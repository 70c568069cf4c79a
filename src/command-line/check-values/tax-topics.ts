/** Published taxes and their rounding, against shared/tax.ts. */
import { minorDigits } from '../../../shared/currency.js';
import { decimal, one, round, sum, zero, type Decimal } from '../../../shared/decimal.js';
import {
  netOf,
  taxRateBetween,
  taxed,
  type PriceMode,
  type TaxBasis,
} from '../../../shared/tax.js';
import { asFigure, figure, figures, needed, shareOf, text, whole } from './inputs.js';
import { roundingOf } from './rounding-topics.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

/** Places of the amounts in a row: what it states, its currency's, else two. */
function placesOf(row: ValueRow): number {
  const currency = text(row.inputs, 'currency');
  const stated = whole(row.inputs, 'decimals', 'places');
  return stated ?? (currency === undefined ? 2 : minorDigits(currency));
}

/** The rates of a row, as shares: one, a list, or one for each authority ("state_percent"). */
function ratesOf(row: ValueRow): Decimal[] {
  const listed = figures(row.inputs, 'rates_percent', 'rate_percent', 'tax_percent', 'vat_percent');
  const found =
    listed ??
    Object.entries(row.inputs).flatMap(([name, value]) => {
      const rate = name.endsWith('_percent') ? asFigure(value) : undefined;
      return rate ? [rate] : [];
    });
  return found.map((rate) => rate.dividedBy(100));
}

function taxOf(row: ValueRow, lines: readonly Decimal[], mode: PriceMode, basis: TaxBasis) {
  const rounding = roundingOf(row.inputs);
  return taxed(lines, { mode, basis, rates: ratesOf(row), places: placesOf(row), rounding });
}

function linesOf(row: ValueRow): Decimal[] | undefined {
  return figures(row.inputs, 'lines', 'items', 'prices', 'amounts');
}

/** Any two of price, total and rate give the third; tax is between price and total. */
function salesTax(row: ValueRow): Answer {
  const lines = linesOf(row);
  const price = figure(row.inputs, 'price', 'net') ?? (lines ? sum(lines) : undefined);
  const total = figure(row.inputs, 'total', 'gross');
  if (price && total) {
    const rate = taxRateBetween(price, total);
    return { rate_percent: rate.times(100), rate, tax: total.minus(price) };
  }
  const tax = figure(row.inputs, 'tax');
  if (tax) {
    const rate = sum(ratesOf(row));
    if (price) return { rate_percent: tax.dividedBy(price).times(100), total: price.plus(tax) };
    return { price: tax.dividedBy(rate), total: tax.dividedBy(rate).plus(tax) };
  }
  if (ratesOf(row).length === 0) throw new NotYetSupported('no rate');
  const base = lines ?? [price ?? needed(row.inputs, 'total', 'gross')];
  const answer = taxOf(row, base, total ? 'inclusive' : 'exclusive', 'invoice');
  return {
    price: answer.net,
    net: answer.net,
    tax: answer.tax,
    total: answer.gross,
    gross: answer.gross,
    ...(total ? { unrounded_price: netOf(total, sum(ratesOf(row))) } : {}),
  };
}

/** Which way a fraction of a minor unit goes: "0.5", or "<0.5" for anything below it. */
function fraction(row: ValueRow, printed: string): Answer {
  const below = printed.trim().startsWith('<');
  const above = printed.trim().startsWith('>');
  const value = decimal(printed.replace(/[<>=\s]/g, ''));
  const nudge = decimal('0.000001');
  const sample = below ? value.minus(nudge) : above ? value.plus(nudge) : value;
  const rounded = round(sample, 0, roundingOf(row.inputs));
  return { direction: rounded.greaterThanOrEqualTo(one) ? 'up' : 'down', rounded };
}

function taxRounding(row: ValueRow): Answer {
  const ofUnit = row.inputs['fraction_of_penny'] ?? row.inputs['fraction'];
  if (typeof ofUnit === 'string' || typeof ofUnit === 'number')
    return fraction(row, String(ofUnit));
  const unrounded = figure(row.inputs, 'unrounded', 'unrounded_tax', 'tax', 'value');
  if (unrounded) {
    const rounded = round(unrounded, placesOf(row), roundingOf(row.inputs));
    return { tax: rounded, rounded, result: rounded };
  }
  if (ratesOf(row).length === 0) throw new NotYetSupported('no figures to run');
  const mode: PriceMode = row.inputs['mode_of_price'] === 'inclusive' ? 'inclusive' : 'exclusive';
  const lines = linesOf(row) ?? [needed(row.inputs, 'price', 'net', 'amount')];
  const perLine = taxOf(row, lines, mode, 'line');
  const perInvoice = taxOf(row, lines, mode, 'invoice');
  const asked = text(row.inputs, 'basis') === 'line' ? perLine : perInvoice;
  return {
    per_line_tax: perLine.tax,
    per_item_tax: perLine.tax,
    per_invoice_tax: perInvoice.tax,
    difference: perLine.tax.minus(perInvoice.tax),
    line_taxes: lines.map((line) => taxOf(row, [line], mode, 'line').tax),
    tax: asked.tax,
    total: asked.gross,
    per_line_total: perLine.gross,
    per_invoice_total: perInvoice.gross,
    rate_percent: (shareOf(row.inputs, 'rate_percent') ?? zero).times(100),
  };
}

export const taxTopics: readonly Topic[] = [
  { name: 'sales-tax', answer: salesTax },
  { name: 'tax-rounding', answer: taxRounding },
];

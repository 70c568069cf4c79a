/** Price sheets as they travel. */
import { minorDigits } from '../../../shared/currency.js';
import { canonical, fixed, sum, type Decimal } from '../../../shared/decimal.js';
import type {
  SheetLedgerView,
  SheetLineView,
  SheetTotalsView,
  SheetView,
  TargetView,
} from '../../../shared/contract/pricing.js';
import type { VisitPrice } from '../../../shared/contract/visits.js';
import type { SheetInput } from '../../../shared/pricing-input.js';
import type { SheetLine } from '../../../shared/pricing-lines.js';
import type { TargetPrice } from '../../../shared/pricing-target.js';
import type { PriceSheet, SheetTotals } from '../../../shared/pricing.js';

type Note = SheetView['notes'][number];

/** Amounts in the currency's minor digits, shares as they are. */
function amountsIn(currency: string): (amount: Decimal) => string {
  const places = minorDigits(currency);
  return (amount) => fixed(amount, places);
}

const maybe = <T>(value: Decimal | null, show: (value: Decimal) => T): T | null =>
  value === null ? null : show(value);

/** @param more what else a reader should know */
export function sheetView(sheet: PriceSheet, input: SheetInput, more: readonly Note[]): SheetView {
  const amount = amountsIn(sheet.currency);
  return {
    currency: sheet.currency,
    ledger: ledgerView(input),
    lines: sheet.lines.map((line) => lineView(line, amount)),
    totals: totalsView(sheet.totals, amount),
    noCost: sheet.noCost.map(({ productId, label }) => ({ productId, label })),
    notes: [...sheet.notes.map(({ code, text }) => ({ code, text })), ...more],
  };
}

/** The exact values that product and sundries of a sheet are rounded from. */
function ledgerView({ products = [], sundries = [] }: SheetInput): SheetLedgerView {
  const value = (uses: readonly { readonly value: Decimal }[]) =>
    fixed(sum(uses.map((use) => use.value)), 6);
  const borne = products.filter((use) => use.borneBy !== 'studio');
  const applied = borne.map((use) => ({ value: use.appliedValue ?? use.value }));
  const left = sum(borne.map((use) => use.value)).minus(sum(applied.map((use) => use.value)));
  return {
    product: value(borne),
    leftOver: fixed(left, 6),
    sundries: value(sundries),
    notCharged: value(products.filter((use) => use.borneBy === 'studio')),
  };
}

function lineView(line: SheetLine, amount: (value: Decimal) => string): SheetLineView {
  const { kind, label, inputs, formula, replacementAmount } = line;
  return {
    kind,
    label,
    inputs: inputs.map(({ name, value, unit }) => ({ name, value, unit })),
    formula,
    amount: amount(line.amount),
    ...(replacementAmount === undefined
      ? {}
      : { replacementAmount: maybe(replacementAmount, amount) }),
  };
}

function totalsView(totals: SheetTotals, amount: (value: Decimal) => string): SheetTotalsView {
  const { margin, replacementProduct, ...amounts } = totals;
  const shown = Object.entries(amounts).map(([name, value]) => [name, amount(value)]);
  return {
    ...(Object.fromEntries(shown) as Record<keyof typeof amounts, string>),
    margin: maybe(margin, canonical),
    replacementProduct: maybe(replacementProduct, amount),
  };
}

export function targetView(target: TargetPrice, currency: string): TargetView {
  const amount = amountsIn(currency);
  return {
    price: amount(target.price),
    net: amount(target.net),
    tax: amount(target.tax),
    gross: amount(target.gross),
    contribution: amount(target.contribution),
    profit: amount(target.profit),
    margin: maybe(target.margin, canonical),
    contributionPerHour: maybe(target.contributionPerHour, amount),
    productMarkup: maybe(target.productMarkup, canonical),
  };
}

/** What the client pays, of a sheet as it is kept. */
export function priceView({ currency, totals }: SheetView): VisitPrice {
  const { net, tax, gross, due, cashRounding, tip, toTheTill } = totals;
  return { currency, net, tax, gross, due, cashRounding, tip, toTheTill };
}

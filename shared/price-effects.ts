/** What new prices of product do to services: cost, margin and the price that keeps the margin. */
import { minorUnit } from './currency.js';
import { count, round, sum, zero, type Decimal } from './decimal.js';
import { roundMoney } from './money.js';
import { priceSheet, type SheetTotals } from './pricing.js';
import type { SheetInput } from './pricing-input.js';
import { sharePlaces } from './pricing-outcome.js';
import { targetPrice, type TargetBasis } from './pricing-target.js';
import { Problem } from './problems/problem.js';

/** One visit with its product at the prices of before, and of after. */
export interface RepricedVisit {
  readonly before: SheetInput;
  readonly after: SheetInput;
}

export interface Effect {
  readonly visits: number;
  /** Product and sundries of a visit, the mean; in the currency's minor digits. */
  readonly product: Pair<Decimal>;
  /** Profit by net of all of them; null where nothing is charged, or a product has no cost. */
  readonly margin: Pair<Decimal | null>;
  /** The price on the menu that reaches the margin asked for; null where none does. */
  readonly price: Pair<Decimal | null>;
  /** The margin that the prices reach: as asked for, else that of before. */
  readonly target: Decimal | null;
  /** What product and sundries cost more a month at this volume. */
  readonly perMonth: Decimal;
}

export interface Pair<T> {
  readonly before: T;
  readonly after: T;
}

/** How it is looked at: months that the visits are of, the margin wanted, steps of prices. */
export interface EffectTerms {
  readonly months: Decimal;
  readonly margin?: Decimal;
  readonly step?: Decimal;
}

/**
 * The effect on visits of the same services. Product: mean of (product + sundries); margin: sum
 * of profit / sum of net; per month: (cost after - cost before) / months; price: the target price
 * of the mean visit for the margin, all rounded once. Undefined for no visits.
 * Example: a visit of 8.00, 4.00 of it a product that goes up by a tenth, 10 in 2 months: 8.40
 * a visit, 2.00 a month.
 * @throws Problem as `priceSheet` does
 */
export function effectOf(visits: readonly RepricedVisit[], terms: EffectTerms): Effect | undefined {
  const [first] = visits;
  if (!first) return undefined;
  const before = visits.map((visit) => priceSheet(visit.before));
  const after = visits.map((visit) => priceSheet(visit.after));
  const totals = {
    before: before.map((sheet) => sheet.totals),
    after: after.map((sheet) => sheet.totals),
  };
  const known = [...before, ...after].every((sheet) => sheet.noCost.length === 0);
  const margin = {
    before: known ? marginOf(totals.before) : null,
    after: known ? marginOf(totals.after) : null,
  };
  const target = terms.margin ?? margin.before;
  const priced = (of: readonly SheetTotals[], input: SheetInput) =>
    known && target ? reaching(meanBasis(of, visits, input, terms), target) : null;
  const more = costOf(totals.after).minus(costOf(totals.before));
  const { currency, rounding } = first.before.money;
  const money = (exact: Decimal) => roundMoney(exact, currency, rounding);
  const visitsCount = count(visits.length);
  return {
    visits: visits.length,
    product: {
      before: money(costOf(totals.before).dividedBy(visitsCount)),
      after: money(costOf(totals.after).dividedBy(visitsCount)),
    },
    margin,
    price: {
      before: priced(totals.before, first.before),
      after: priced(totals.after, first.after),
    },
    target,
    perMonth: money(more.dividedBy(terms.months)),
  };
}

function costOf(totals: readonly SheetTotals[]): Decimal {
  return sum(totals.map(({ product, sundries }) => product.plus(sundries)));
}

function marginOf(totals: readonly SheetTotals[]): Decimal | null {
  const net = sum(totals.map((each) => each.net));
  if (net.isZero()) return null;
  const profit = sum(totals.map((each) => each.profit));
  return round(profit.dividedBy(net), sharePlaces, 'half_even');
}

/** The mean visit, as the target price takes it; commissions are those of the visit given. */
function meanBasis(
  totals: readonly SheetTotals[],
  visits: readonly RepricedVisit[],
  { money, cardFee, commissions }: SheetInput,
  { step }: EffectTerms,
): TargetBasis {
  const mean = (values: readonly Decimal[]) =>
    roundMoney(sum(values).dividedBy(count(values.length)), money.currency, money.rounding);
  return {
    money,
    cost: {
      product: mean(totals.map((each) => each.product)),
      sundries: mean(totals.map((each) => each.sundries)),
      time: mean(totals.map((each) => each.time)),
      overhead: mean(totals.map((each) => each.overhead)),
    },
    chairMinutes: sum(visits.map((visit) => visit.before.chairMinutes ?? zero)).dividedBy(
      count(visits.length),
    ),
    step: step ?? minorUnit(money.currency),
    ...(cardFee ? { cardFee } : {}),
    ...(commissions ? { commissions } : {}),
  };
}

function reaching(basis: TargetBasis, margin: Decimal): Decimal | null {
  try {
    return targetPrice(basis, { margin }).price;
  } catch (error) {
    if (error instanceof Problem && error.code === 'margin_unreachable') return null;
    throw error;
  }
}

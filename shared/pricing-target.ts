/** The price that a target asks for: a margin, a contribution an hour of a chair, a markup. */
import { costs } from './pricing-costs.js';
import { minorDigits, minorUnit } from './currency.js';
import { larger, one, round, sum, zero, type Decimal } from './decimal.js';
import { roundMoney, roundUpToStep } from './money.js';
import {
  checkRates,
  taxRatesOf,
  type CardFee,
  type Commission,
  type MoneyRule,
  type SheetInput,
} from './pricing-input.js';
import { cardFeeOn, outcomeOf, sharePlaces, type CostTotals } from './pricing-outcome.js';
import { Problem } from './problems/problem.js';
import { taxed } from './tax.js';

/** What a price is worked out from: costs of a visit or a service, and what grows with a price. */
export interface TargetBasis {
  readonly money: MoneyRule;
  readonly cost: CostTotals;
  readonly cardFee?: CardFee;
  readonly commissions?: readonly Commission[];
  readonly chairMinutes?: Decimal;
  /** Prices are multiples of it, rounded up; the currency's minor unit by default. */
  readonly step?: Decimal;
  /** Names of products without a cost; a target is refused while there is one. */
  readonly noCost?: readonly string[];
}

/** One of the three; a margin and a markup as shares, the contribution in the currency an hour. */
export type Target =
  | { readonly margin: Decimal }
  | { readonly contributionPerHour: Decimal }
  | { readonly productMarkup: Decimal };

/** A price with what it comes to; always with all three measures beside each other. */
export interface TargetPrice {
  /** As the client sees it on the menu: gross or net, by the studio's price mode. */
  readonly price: Decimal;
  readonly net: Decimal;
  readonly tax: Decimal;
  readonly gross: Decimal;
  readonly fee: Decimal;
  readonly commission: Decimal;
  readonly contribution: Decimal;
  readonly profit: Decimal;
  readonly margin: Decimal | null;
  /** Null without chair minutes. */
  readonly contributionPerHour: Decimal | null;
  /** Null without product. */
  readonly productMarkup: Decimal | null;
}

/** The basis of a visit's own figures: what its sheet cost, at the studio's step of prices. */
export function targetBasisOf(input: SheetInput, step?: Decimal): TargetBasis {
  const cost = costs(input);
  return {
    money: input.money,
    cost,
    noCost: cost.noCost.map(({ label }) => label),
    ...(input.cardFee ? { cardFee: input.cardFee } : {}),
    ...(input.commissions ? { commissions: input.commissions } : {}),
    ...(input.chairMinutes ? { chairMinutes: input.chairMinutes } : {}),
    ...(step ? { step } : {}),
  };
}

/**
 * The lowest price in steps that reaches a target, all paid by card in one payment. Unrounded,
 * for a margin m: net = (cost + fixed - c product [where commission is on net less product]) /
 * (1 - m - f (1 + t) - c k), k = 1 + t where commission is on gross, else 1. For a contribution:
 * the same without m and overhead, plus rate of the hour x chair minutes / 60. For a markup:
 * product x (1 + markup). Then the price the client sees is rounded up to the step.
 * @throws Problem `margin_unreachable` with the highest margin there is, `no_cost_yet`,
 *   `contribution_unreachable`, `no_chair_time`, `no_product_to_mark_up`, `no_tax_rule`
 */
export function targetPrice(basis: TargetBasis, target: Target): TargetPrice {
  checkRates(basis);
  if (basis.noCost && basis.noCost.length > 0) {
    throw new Problem('no_cost_yet', { products: basis.noCost });
  }
  const net = larger(zero, exactNet(basis, target));
  const seen =
    basis.money.priceMode === 'inclusive' ? net.times(one.plus(taxShare(basis.money))) : net;
  const step = basis.step ?? minorUnit(basis.money.currency);
  // Noise of the division, far below a minor unit, must not add a step.
  const price = roundUpToStep(round(seen, 20, 'half_even'), step);
  return priceAt(basis, price);
}

/** What a price (gross or net, by the price mode) comes to, all paid by card in one payment. */
export function priceAt(basis: TargetBasis, price: Decimal): TargetPrice {
  const { money, cost } = basis;
  const charged = taxed([roundMoney(price, money.currency, money.rounding)], {
    mode: money.priceMode,
    basis: money.taxBasis,
    rates: taxRatesOf(money).map(({ rate }) => rate),
    places: minorDigits(money.currency),
    rounding: money.rounding,
  });
  const fee = cardFeeOn(charged.gross, charged.gross.isZero() ? zero : one, basis.cardFee, money);
  const outcome = outcomeOf(charged, cost, fee, basis.commissions ?? [], money);
  return {
    price,
    net: charged.net,
    tax: charged.tax,
    gross: charged.gross,
    fee,
    commission: outcome.commission,
    contribution: outcome.contribution,
    profit: outcome.profit,
    margin: outcome.margin,
    contributionPerHour: perHour(outcome.contribution, basis),
    productMarkup: cost.product.isZero()
      ? null
      : round(charged.net.dividedBy(cost.product).minus(one), sharePlaces, 'half_even'),
  };
}

function perHour(contribution: Decimal, basis: TargetBasis): Decimal | null {
  const minutes = basis.chairMinutes ?? zero;
  if (minutes.isZero()) return null;
  const exact = contribution.times(60).dividedBy(minutes);
  return roundMoney(exact, basis.money.currency, basis.money.rounding);
}

function taxShare(money: MoneyRule): Decimal {
  return sum(taxRatesOf(money).map(({ rate }) => rate));
}

/** What is left of each unit of net after fee and commission: 1 - f (1 + t) - c k. */
function leftOfNet(basis: TargetBasis): Decimal {
  const withTax = one.plus(taxShare(basis.money));
  const fee = (basis.cardFee?.share ?? zero).times(withTax);
  const commission = sum(
    (basis.commissions ?? []).map(({ rate, base }) =>
      base === 'gross' ? rate.times(withTax) : rate,
    ),
  );
  return one.minus(fee).minus(commission);
}

/** Costs that do not grow with the price: cost + fixed fee - c product. */
function fixedPart(basis: TargetBasis): Decimal {
  const { product, sundries, time } = basis.cost;
  const onProduct = sum(
    (basis.commissions ?? []).map(({ rate, base }) =>
      base === 'net_less_product' ? rate.times(product) : zero,
    ),
  );
  const fixed = basis.cardFee?.fixed ?? zero;
  return product.plus(sundries).plus(time).plus(fixed).minus(onProduct);
}

function exactNet(basis: TargetBasis, target: Target): Decimal {
  const { cost } = basis;
  if ('productMarkup' in target) {
    if (cost.product.isZero()) throw new Problem('no_product_to_mark_up', {});
    return cost.product.times(one.plus(target.productMarkup));
  }
  const left = leftOfNet(basis);
  if ('margin' in target) {
    const denominator = left.minus(target.margin);
    if (!denominator.greaterThan(zero)) {
      throw new Problem('margin_unreachable', {
        target: target.margin.toFixed(),
        highest: round(left, sharePlaces, 'floor').toFixed(),
      });
    }
    return fixedPart(basis).plus(cost.overhead).dividedBy(denominator);
  }
  const minutes = basis.chairMinutes ?? zero;
  if (minutes.isZero()) throw new Problem('no_chair_time', {});
  if (!left.greaterThan(zero)) {
    const highest = round(left, sharePlaces, 'floor').toFixed();
    throw new Problem('contribution_unreachable', { highest });
  }
  const wanted = target.contributionPerHour.times(minutes).dividedBy(60);
  return fixedPart(basis).plus(wanted).dividedBy(left);
}

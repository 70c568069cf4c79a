/** What is left of a price: fee, commission, contribution, profit, margin. */
import { larger, round, sum, zero, type Decimal } from './decimal.js';
import { roundMoney } from './money.js';
import type { CardFee, Commission, MoneyRule } from './pricing-input.js';

/** Decimals of a share such as a margin or a markup. */
export const sharePlaces = 6;

export interface Price {
  readonly net: Decimal;
  readonly gross: Decimal;
}

/** Totals of cost, in the currency's minor digits. */
export interface CostTotals {
  readonly product: Decimal;
  readonly sundries: Decimal;
  readonly time: Decimal;
  readonly overhead: Decimal;
}

export interface Outcome {
  readonly fee: Decimal;
  readonly commissions: readonly Decimal[];
  readonly commission: Decimal;
  readonly contribution: Decimal;
  readonly profit: Decimal;
  /** Null where there is no net price to take a share of. */
  readonly margin: Decimal | null;
}

/** Fee on card payments, rounded once: share x amount by card + fixed for each of them. */
export function cardFeeOn(
  byCard: Decimal,
  cardPayments: Decimal,
  fee: CardFee | undefined,
  money: MoneyRule,
): Decimal {
  if (!fee) return zero;
  const exact = fee.share.times(byCard).plus(fee.fixed.times(cardPayments));
  return roundMoney(exact, money.currency, money.rounding);
}

/** What a commission is a share of; never below zero. */
export function commissionBase(
  commission: Pick<Commission, 'base'>,
  price: Price,
  product: Decimal,
): Decimal {
  switch (commission.base) {
    case 'gross':
      return price.gross;
    case 'net':
      return price.net;
    case 'net_less_product':
      return larger(zero, price.net.minus(product));
  }
}

/**
 * Outcome of a price: commission = rate x gross, net, or net - product, each rounded itself;
 * contribution = net - product - sundries - time - fee - commission; profit = contribution -
 * overhead; margin = profit / net, half-even at 6 decimals.
 */
export function outcomeOf(
  price: Price,
  cost: CostTotals,
  fee: Decimal,
  commissions: readonly Commission[],
  money: MoneyRule,
): Outcome {
  const amounts = commissions.map((each) =>
    roundMoney(
      each.rate.times(commissionBase(each, price, cost.product)),
      money.currency,
      money.rounding,
    ),
  );
  const commission = sum(amounts);
  const contribution = price.net
    .minus(cost.product)
    .minus(cost.sundries)
    .minus(cost.time)
    .minus(fee)
    .minus(commission);
  const profit = contribution.minus(cost.overhead);
  return {
    fee,
    commissions: amounts,
    commission,
    contribution,
    profit,
    margin: price.net.isZero()
      ? null
      : round(profit.dividedBy(price.net), sharePlaces, 'half_even'),
  };
}

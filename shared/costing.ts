/** What goods cost: the lots drawn first, the value of a draw, the cost of a delivered line. */
import { shareOut } from './allocation.js';
import { round, smaller, sum, zero, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/** `fifo`: each lot keeps its own value; `average`: the product holds one value for all lots. */
export type CostingMethod = 'fifo' | 'average';

/** Decimal places of a value in the ledger, in the studio's currency. */
export const ledgerPlaces = 6;

/** What is left of one delivery; quantity in the product's stock unit, days as YYYY-MM-DD. */
export interface LotBalance {
  readonly id: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
  readonly expiresOn: string | null;
  readonly receivedOn: string;
}

/** One part of a draw: so much of one lot, at this value. */
export interface Draw {
  readonly lotId: string;
  readonly quantity: Decimal;
  readonly value: Decimal;
  readonly expired: boolean;
}

export interface DrawRule {
  readonly method: CostingMethod;
  /** The studio day on which it happened, YYYY-MM-DD. */
  readonly day: string;
  /** `average` only: value of the product's stock before the draw; default the lots' sum. */
  readonly productValue?: Decimal;
  /** `average` only: quantity of the product's stock before the draw; default the lots' sum. */
  readonly productQuantity?: Decimal;
}

/** True when a lot is past its day: the day printed on it is its last good one. */
export function isExpired(lot: Pick<LotBalance, 'expiresOn'>, day: string): boolean {
  return lot.expiresOn !== null && lot.expiresOn < day;
}

/**
 * Lots that hold something, in the order in which they are drawn on `day`: good ones before
 * expired ones; earliest expiry first, those without expiry last; then oldest delivery; then id.
 * Example: on 2026-03-10 lots due 2026-05-01, never, 2026-03-01 -> 05-01, never, 03-01.
 */
export function drawOrder(lots: readonly LotBalance[], day: string): LotBalance[] {
  return lots
    .filter((lot) => lot.quantity.greaterThan(zero))
    .sort(
      (a, b) =>
        compare(isExpired(a, day) ? 1 : 0, isExpired(b, day) ? 1 : 0) ||
        compare(a.expiresOn ?? '9999-99-99', b.expiresOn ?? '9999-99-99') ||
        compare(a.receivedOn, b.receivedOn) ||
        compare(a.id, b.id),
    );
}

function compare<T extends string | number>(a: T, b: T): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * Value of a part of something: value x part / whole, half-even at 6 decimals; taking the whole
 * takes all of the value, so that nothing is ever left behind without a quantity.
 * Example: (10, 1, 3) -> 3.333333; (10, 3, 3) -> 10.
 */
export function valueOfPart(value: Decimal, part: Decimal, whole: Decimal): Decimal {
  if (part.greaterThanOrEqualTo(whole)) return value;
  return round(value.times(part).dividedBy(whole), ledgerPlaces, 'half_even');
}

/**
 * Draws `quantity` (stock unit) from lots in their order. Under `fifo` a part's value is its
 * share of what the lot has left; under `average` its share of what the product has left; the
 * draw that empties the lot, or the product, takes all that is left. No lot goes below zero:
 * what the lots do not have comes back as `short`.
 * Example: 7 of lots 5 worth 10 and 5 worth 20 -> 5 worth 10 and 2 worth 8; short 0.
 */
export function drawLots(
  lots: readonly LotBalance[],
  quantity: Decimal,
  rule: DrawRule,
): { draws: Draw[]; short: Decimal } {
  let productValue = rule.productValue ?? sum(lots.map((lot) => lot.value));
  let productQuantity = rule.productQuantity ?? sum(lots.map((lot) => lot.quantity));
  let short = quantity;
  const draws: Draw[] = [];
  for (const lot of drawOrder(lots, rule.day)) {
    if (!short.greaterThan(zero)) break;
    const part = smaller(lot.quantity, short);
    const value =
      rule.method === 'average'
        ? valueOfPart(productValue, part, productQuantity)
        : valueOfPart(lot.value, part, lot.quantity);
    draws.push({ lotId: lot.id, quantity: part, value, expired: isExpired(lot, rule.day) });
    productValue = productValue.minus(value);
    productQuantity = productQuantity.minus(part);
    short = short.minus(part);
  }
  return { draws, short };
}

/** What one line of a delivery brings: its price before the delivery's discount, its quantity. */
export interface DeliveredLine {
  readonly price: Decimal;
  /** All that arrived, free packs included, in the product's stock unit. */
  readonly quantity: Decimal;
}

/** What stands on the invoice beside its lines; none of it by default. */
export interface DeliveryExtras {
  readonly discount?: Decimal;
  readonly freight?: Decimal;
  readonly otherCost?: Decimal;
  readonly nonRecoverableTax?: Decimal;
}

/** A line stated in packs: the price of the paid ones, the quantity of all of them. */
export function lineOfPacks(line: {
  readonly packs: Decimal;
  readonly packPrice: Decimal;
  readonly freePacks?: Decimal;
  readonly packQuantity: Decimal;
}): DeliveredLine {
  return {
    price: line.packs.times(line.packPrice),
    quantity: line.packs.plus(line.freePacks ?? zero).times(line.packQuantity),
  };
}

/**
 * Cost of every line of a delivery: its price, less its share of the discount, plus its share
 * of freight, other cost and tax that is not recovered. Shared by price, or by quantity if all
 * lines are free; largest remainder at 6 decimals, so that the costs add up to the invoice.
 * Example: lines of 60 and 30, freight 9.99 -> 66.66 and 33.33.
 * @throws Problem `discount_above_price` when the discount is more than the lines cost
 */
export function deliveryLineCosts(
  lines: readonly DeliveredLine[],
  extras: DeliveryExtras = {},
): Decimal[] {
  const prices = lines.map((line) => round(line.price, ledgerPlaces, 'half_even'));
  const goods = sum(prices);
  const discount = extras.discount ?? zero;
  if (discount.greaterThan(goods)) {
    throw new Problem('discount_above_price', {
      discount: discount.toFixed(),
      price: goods.toFixed(),
    });
  }
  const toShare = [extras.freight, extras.otherCost, extras.nonRecoverableTax]
    .reduce<Decimal>((total, each) => total.plus(each ?? zero), zero)
    .minus(discount);
  const rest = round(toShare, ledgerPlaces, 'half_even');
  if (rest.isZero()) return prices;
  const weights = goods.isZero() ? lines.map((line) => line.quantity) : prices;
  const shares = shareOut(rest, weights, ledgerPlaces);
  return prices.map((price, index) => price.plus(shares[index] ?? zero));
}

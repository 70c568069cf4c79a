/** What a price sheet is worked out from: plain data of one visit, and the checks it must pass. */
import { minorDigits } from './currency.js';
import { one, zero, type Decimal } from './decimal.js';
import type { MoneyRounding } from './money.js';
import { Problem } from './problems/problem.js';
import type { PriceMode, TaxBasis, TaxRate } from './tax.js';

/** How the studio counts money. Rates are shares: 0.19 for 19 per cent. */
export interface MoneyRule {
  /** ISO 4217 code. */
  readonly currency: string;
  readonly rounding: MoneyRounding;
  readonly priceMode: PriceMode;
  /** None where no tax is due; null where nobody has said so yet. */
  readonly taxes: readonly TaxRate[] | null;
  readonly taxBasis: TaxBasis;
}

/** So much of one kind of product that is in a menu price: grams, or a number of bowls. */
export interface InThePrice {
  readonly kind: string;
  readonly grams?: Decimal;
  readonly bowls?: Decimal;
}

/** A service of the menu at its price, in the studio's price mode. */
export interface SheetService {
  readonly id: string;
  readonly label: string;
  readonly price: Decimal;
  readonly inThePrice?: readonly InThePrice[];
}

/** How product of a kind beyond what is in the price is charged; amounts are net. */
export type OnTopRule = { readonly kind: string; readonly label?: string } & (
  | { readonly by: 'bowl'; readonly ratePerBowl: Decimal }
  | { readonly by: 'gram'; readonly ratePerGram: Decimal }
  | { readonly by: 'cost'; readonly markup: Decimal }
);

/** Something off the price: a share of what it applies to, or an amount; of the menu by default. */
export interface Discount {
  readonly label: string;
  readonly of?: 'menu' | 'all';
  readonly share?: Decimal;
  readonly amount?: Decimal;
}

/** Who bears what went to the bin; the studio's part is shown and not charged. */
export type BorneBy = 'visit' | 'studio';

/** What one product of one bowl (or use) came to: all of it to head and bin of this visit. */
export interface ProductUse {
  readonly productId: string;
  readonly label: string;
  readonly kind: string;
  readonly bowlId?: string | null;
  /** In the product's stock unit. */
  readonly quantity: Decimal;
  readonly unit: string;
  /** The ledger's value to head and bin, 6 decimals. */
  readonly value: Decimal;
  /** What the same quantity would cost now; null where nothing is known. */
  readonly replacementValue?: Decimal | null;
  /** Grams that went in, and the part of them that was applied; for what is charged on top. */
  readonly grams?: Decimal;
  readonly appliedGrams?: Decimal;
  readonly appliedValue?: Decimal;
  /** True while any of it has no cost: then no margin is shown. */
  readonly noCost?: boolean;
  readonly borneBy?: BorneBy;
}

/** A bowl that was started for the visit, by the kind of its powder side. */
export interface StartedBowl {
  readonly id: string;
  readonly kind: string;
  readonly borneBy?: BorneBy;
}

/** Foils, gloves, capes: counted, not weighed. */
export interface SundryUse {
  readonly productId?: string;
  readonly label: string;
  readonly quantity: Decimal;
  readonly unit: string;
  readonly value: Decimal;
  readonly replacementValue?: Decimal | null;
  readonly noCost?: boolean;
}

/** Hands-on minutes of one person, at what an hour of hers costs. */
export interface HandsOnTime {
  readonly label: string;
  readonly minutes: Decimal;
  readonly ratePerHour: Decimal;
}

/** What a card payment costs: a share of it and a fixed amount for each payment. */
export interface CardFee {
  readonly share: Decimal;
  readonly fixed: Decimal;
  /** Who bears the fee on a tip; the studio by default. */
  readonly onTip?: 'studio' | 'person';
}

export type CommissionBase = 'gross' | 'net' | 'net_less_product';

/** A share of the price that goes to a person. */
export interface Commission {
  readonly label: string;
  readonly rate: Decimal;
  readonly base: CommissionBase;
}

export type PaymentMethod = 'card' | 'cash' | 'other';

export interface Payment {
  readonly method: PaymentMethod;
  readonly amount: Decimal;
}

/** All that a price sheet is worked out from; what is left out is none of it. */
export interface SheetInput {
  readonly money: MoneyRule;
  readonly services: readonly SheetService[];
  readonly discounts?: readonly Discount[];
  readonly products?: readonly ProductUse[];
  readonly bowls?: readonly StartedBowl[];
  readonly onTop?: readonly OnTopRule[];
  /** Grams on top are counted as applied, unless the studio counts them as mixed. */
  readonly measuredOn?: 'applied' | 'mixed';
  readonly sundries?: readonly SundryUse[];
  readonly time?: readonly HandsOnTime[];
  readonly chairMinutes?: Decimal;
  /** What an hour of a chair costs. */
  readonly overheadPerHour?: Decimal;
  readonly cardFee?: CardFee;
  readonly commissions?: readonly Commission[];
  /** Not known yet: all that is due is taken to be paid by card, in one payment. */
  readonly payments?: readonly Payment[];
  /** Deposits, vouchers, courses: they lower what is due, not the price. */
  readonly deposits?: readonly { readonly label: string; readonly amount: Decimal }[];
  readonly tip?: Payment;
}

/** Tax rates of a money rule. @throws Problem `no_tax_rule` where none are stated */
export function taxRatesOf(money: MoneyRule): readonly TaxRate[] {
  if (!money.taxes) throw new Problem('no_tax_rule', {}, '/money/taxes');
  return money.taxes;
}

/**
 * Checks what cannot be meant: an unknown currency, prices, minutes or rates below zero, shares
 * above one.
 * @throws Problem `unknown_currency`, `no_tax_rule`, `negative_amount`, `rate_out_of_range`
 */
export function checkSheetInput(input: SheetInput): void {
  minorDigits(input.money.currency);
  taxRatesOf(input.money).forEach(({ rate }, i) => notNegative(rate, `/money/taxes/${i}/rate`));
  input.services.forEach(({ price }, i) => notNegative(price, `/services/${i}/price`));
  input.discounts?.forEach(({ share, amount }, i) => {
    within01(share ?? zero, `/discounts/${i}/share`);
    notNegative(amount ?? zero, `/discounts/${i}/amount`);
  });
  input.onTop?.forEach((rule, i) => notNegative(onTopRate(rule), `/onTop/${i}`));
  input.time?.forEach(({ minutes, ratePerHour }, i) => {
    notNegative(minutes, `/time/${i}/minutes`);
    notNegative(ratePerHour, `/time/${i}/ratePerHour`);
  });
  notNegative(input.chairMinutes ?? zero, '/chairMinutes');
  notNegative(input.overheadPerHour ?? zero, '/overheadPerHour');
  checkRates(input);
  input.payments?.forEach(({ amount }, i) => notNegative(amount, `/payments/${i}/amount`));
  input.deposits?.forEach(({ amount }, i) => notNegative(amount, `/deposits/${i}/amount`));
  notNegative(input.tip?.amount ?? zero, '/tip/amount');
}

/**
 * Checks the rates of fee and commission.
 * @throws Problem `negative_amount`, `rate_out_of_range`
 */
export function checkRates(input: Pick<SheetInput, 'cardFee' | 'commissions'>): void {
  within01(input.cardFee?.share ?? zero, '/cardFee/share');
  notNegative(input.cardFee?.fixed ?? zero, '/cardFee/fixed');
  input.commissions?.forEach(({ rate }, i) => within01(rate, `/commissions/${i}/rate`));
}

function onTopRate(rule: OnTopRule): Decimal {
  switch (rule.by) {
    case 'bowl':
      return rule.ratePerBowl;
    case 'gram':
      return rule.ratePerGram;
    case 'cost':
      return rule.markup;
  }
}

function notNegative(value: Decimal, pointer: string): void {
  if (value.lessThan(zero)) {
    throw new Problem('negative_amount', { field: pointer, value: value.toFixed() }, pointer);
  }
}

function within01(value: Decimal, pointer: string): void {
  if (value.lessThan(zero) || value.greaterThan(one)) {
    throw new Problem('rate_out_of_range', { field: pointer, value: value.toFixed() }, pointer);
  }
}

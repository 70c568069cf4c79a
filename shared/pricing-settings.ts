/** The studio's rules of price: what they are unless told, and as the arithmetic takes them. */
import type { OnTopSetting, PricingSettings } from './contract/pricing.js';
import { decimal, type Decimal } from './decimal.js';
import type { CardFee, MoneyRule, OnTopRule } from './pricing-input.js';

/**
 * What holds until the studio says otherwise: prices include their taxes, nobody has said which;
 * taxes rounded once an invoice, halves up; prices to the smallest amount; no overhead, no rate of
 * the hour, no commission, no card fee; nothing charged on top; grams counted as applied.
 */
export const usualPricing: PricingSettings = {
  priceMode: 'inclusive',
  taxes: null,
  taxBasis: 'invoice',
  rounding: 'half_up',
  priceStep: null,
  overheadPerChairMinute: '0',
  hourRate: null,
  commission: null,
  cardFee: null,
  onTop: [],
  measuredOn: 'applied',
};

/** The rules in force: what is stored over what is usual. */
export function pricingInForce(stored: Partial<PricingSettings> | null): PricingSettings {
  return { ...usualPricing, ...stored };
}

/** How the studio counts money, in its currency. */
export function moneyRuleOf(settings: PricingSettings, currency: string): MoneyRule {
  const { rounding, priceMode, taxBasis } = settings;
  const taxes = settings.taxes?.map(({ label, rate }) => ({ label, rate: decimal(rate) })) ?? null;
  return { currency, rounding, priceMode, taxes, taxBasis };
}

/**
 * How product on top is charged, kind by kind: the studio's rules, in place of which those of a
 * visit's services stand; of two services with a rule for one kind, that of the earlier.
 */
export function onTopInForce(
  settings: Pick<PricingSettings, 'onTop'>,
  services: readonly { readonly onTop?: readonly OnTopSetting[] }[] = [],
): OnTopSetting[] {
  const all = [...services.flatMap(({ onTop = [] }) => onTop), ...settings.onTop];
  return all.filter(({ kind }, index) => all.findIndex((rule) => rule.kind === kind) === index);
}

/** The same as the arithmetic takes it. */
export function onTopRulesOf(
  settings: Pick<PricingSettings, 'onTop'>,
  services: readonly { readonly onTop?: readonly OnTopSetting[] }[] = [],
): OnTopRule[] {
  return onTopInForce(settings, services).map(onTopRule);
}

function onTopRule({ kind, label, by, rate }: OnTopSetting): OnTopRule {
  const what = { kind, ...(label === undefined ? {} : { label }) };
  switch (by) {
    case 'bowl':
      return { ...what, by, ratePerBowl: decimal(rate) };
    case 'gram':
      return { ...what, by, ratePerGram: decimal(rate) };
    case 'cost':
      return { ...what, by, markup: decimal(rate) };
  }
}

/** What a card payment costs; undefined where it costs nothing. */
export function cardFeeOf({ cardFee }: PricingSettings): CardFee | undefined {
  if (!cardFee) return undefined;
  const { share, fixed, onTip } = cardFee;
  return { share: decimal(share), fixed: decimal(fixed), onTip };
}

/** What an hour of a chair costs: 60 x that of a minute. (0.25) -> 15. */
export function overheadPerHourOf({ overheadPerChairMinute }: PricingSettings): Decimal {
  return decimal(overheadPerChairMinute).times(60);
}

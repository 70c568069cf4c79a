/** What a client of the demo owes: the menu, and bowls beyond those that are in the price. */
import type { InThePriceItem } from '../shared/contract/catalogue.js';
import type { PricingSettings } from '../shared/contract/pricing.js';
import { decimal, type Decimal } from '../shared/decimal.js';
import { charges } from '../shared/pricing-charges.js';
import { moneyRuleOf, onTopRulesOf } from '../shared/pricing-settings.js';

/** How prices are worked out there; invented, like all of it. */
export const pricing: PricingSettings = {
  priceMode: 'inclusive',
  taxes: [{ label: 'VAT', rate: '0.23' }],
  taxBasis: 'invoice',
  rounding: 'half_up',
  priceStep: '1',
  overheadPerChairMinute: '0.22',
  hourRate: '14',
  commission: null,
  cardFee: { share: '0.0135', fixed: '0.05', onTip: 'person' },
  onTop: [
    { kind: 'lightener', by: 'bowl', rate: '9.50' },
    { kind: 'toner', by: 'bowl', rate: '7.00' },
    { kind: 'direct', by: 'bowl', rate: '8.50' },
  ],
  measuredOn: 'applied',
};

/** A service as it was charged. */
export interface ChargedService {
  readonly id: string;
  readonly price: string;
  readonly inThePrice: readonly InThePriceItem[];
}

/** Gross, in euros; `kinds` is what each bowl of the visit is of. */
export function dueOf(services: readonly ChargedService[], kinds: readonly string[]): Decimal {
  return charges({
    money: moneyRuleOf(pricing, 'EUR'),
    services: services.map(({ id, price, inThePrice }) => ({
      ...{ id, label: '', price: decimal(price) },
      inThePrice: inThePrice.map(({ kind, bowls = '0' }) => ({ kind, bowls: decimal(bowls) })),
    })),
    bowls: kinds.map((kind, index) => ({ id: String(index), kind })),
    onTop: onTopRulesOf(pricing),
  }).gross;
}

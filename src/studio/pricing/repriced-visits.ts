/** Visits as they would be charged today, their product bought again at one price and another. */
import type { InThePriceItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting, PricingSettings } from '../../../shared/contract/pricing.js';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import type { ProductUse, SheetInput, SundryUse } from '../../../shared/pricing-input.js';
import type { RepricedVisit } from '../../../shared/price-effects.js';
import { sheetInputOf, type SheetRows } from './sheet-input.js';

/** A service as the menu has it. */
export interface MenuService {
  readonly id: string;
  readonly price: string;
  readonly inThePrice: readonly InThePriceItem[];
  readonly onTop: readonly OnTopSetting[];
}

/** The rules and the menu of today. */
export interface Today {
  readonly settings: PricingSettings;
  /** Services by id. */
  readonly menu: ReadonlyMap<string, MenuService>;
}

type UnitCosts = SheetRows['unitCosts'];

/**
 * By visit, what it would come to today without discounts, all paid by card, with product at the
 * unit costs its rows have, and at those given. Where nobody knows a price, its cost stays.
 */
export function repricedVisits(
  all: readonly SheetRows[],
  today: Today,
  after: UnitCosts,
): Map<string, RepricedVisit> {
  return new Map(
    all.map((rows) => {
      const now = asOfToday(rows, today);
      return [
        rows.visit.id,
        { before: boughtAgain(now, rows.unitCosts), after: boughtAgain(now, after) },
      ];
    }),
  );
}

/** The visit under the rules of today, as long as it took and with what it used. */
function asOfToday(rows: SheetRows, { settings, menu }: Today): SheetInput {
  const { visit, terms } = rows;
  const services = visit.services.map(({ serviceId, inThePrice, onTop }) => {
    const now = menu.get(serviceId) ?? { inThePrice, onTop };
    return { serviceId, inThePrice: now.inThePrice, onTop: now.onTop };
  });
  const input = sheetInputOf({
    ...rows,
    terms: { ...terms, pricing: settings, services },
    visit: { ...visit, discount: null, payments: [], deposits: [], tip: null },
  });
  return {
    ...input,
    services: input.services.map((service) => {
      const now = menu.get(service.id);
      return now ? { ...service, price: decimal(now.price) } : service;
    }),
  };
}

function boughtAgain(input: SheetInput, costs: UnitCosts): SheetInput {
  const value = (productId: string | undefined, quantity: Decimal) =>
    costs.get(productId ?? '')?.times(quantity);
  const product = ({ appliedValue, ...use }: ProductUse): ProductUse => {
    const again = value(use.productId, use.quantity);
    if (again) return { ...use, value: again, noCost: false };
    return { ...use, ...(appliedValue ? { appliedValue } : {}) };
  };
  const sundry = (use: SundryUse): SundryUse => {
    const again = value(use.productId, use.quantity);
    return again ? { ...use, value: again, noCost: false } : use;
  };
  return {
    ...input,
    products: (input.products ?? []).map(product),
    sundries: (input.sundries ?? []).map(sundry),
  };
}

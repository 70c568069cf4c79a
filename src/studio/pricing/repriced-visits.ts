/** Visits as they would be charged today, their product bought again at one price and another. */
import type { PricingSettings } from '../../../shared/contract/pricing.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { ProductUse, SheetInput, SundryUse } from '../../../shared/pricing-input.js';
import type { RepricedVisit } from '../../../shared/price-effects.js';
import { sheetInputOf, type SheetRows } from './sheet-input.js';

/** The rules and the menu of today. */
export interface Today {
  readonly settings: PricingSettings;
  /** Prices of services by id. */
  readonly menu: ReadonlyMap<string, Decimal>;
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
  const services = visit.services.map(({ serviceId, inThePrice }) => ({ serviceId, inThePrice }));
  const input = sheetInputOf({
    ...rows,
    terms: { ...terms, pricing: settings, services },
    visit: { ...visit, discount: null, payments: [], deposits: [], tip: null },
  });
  return {
    ...input,
    services: input.services.map((service) => ({
      ...service,
      price: menu.get(service.id) ?? service.price,
    })),
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

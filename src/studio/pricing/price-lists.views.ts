/** The effect of a price list as it travels. */
import { minorDigits } from '../../../shared/currency.js';
import type { ChangedPriceView, PriceEffectView } from '../../../shared/contract/price-lists.js';
import { canonical, count, decimal, fixed, round, sum } from '../../../shared/decimal.js';
import type { Effect } from '../../../shared/price-effects.js';
import type { NewPrice } from './price-list-reading.js';

type ServiceEffect = PriceEffectView['services'][number];

export function changedPrice({ pack, price }: NewPrice): ChangedPriceView {
  const before = pack.price === null ? null : decimal(pack.price);
  const change =
    before === null || before.isZero()
      ? null
      : canonical(round(price.dividedBy(before).minus(1), 6, 'half_even'));
  return {
    ...{ packId: pack.id, productId: pack.productId, product: pack.product, pack: pack.label },
    ...{ before: pack.price, after: canonical(price), change },
  };
}

export function effectView(
  { key, label, menu }: { readonly key: string; readonly label: string; readonly menu: string },
  effect: Effect,
  { months, currency }: { readonly months: number; readonly currency: string },
): ServiceEffect {
  const places = minorDigits(currency);
  const { visits, product, margin, price, target, perMonth } = effect;
  const amount = (value: typeof perMonth) => fixed(value, places);
  const perMonthVisits = round(count(visits).dividedBy(count(months)), 2, 'half_even');
  return {
    ...{ key, label, visits, visitsPerMonth: canonical(perMonthVisits) },
    product: { before: amount(product.before), after: amount(product.after) },
    margin: {
      before: margin.before && canonical(margin.before),
      after: margin.after && canonical(margin.after),
    },
    target: target && canonical(target),
    price: {
      menu: amount(decimal(menu)),
      before: price.before && amount(price.before),
      after: price.after && amount(price.after),
    },
    perMonth: amount(perMonth),
  };
}

/** What costs the most more a month first; what becomes cheaper last. */
export function inOrderOfMoney(services: readonly ServiceEffect[]): ServiceEffect[] {
  return [...services].sort(
    (a, b) => decimal(b.perMonth).comparedTo(decimal(a.perMonth)) || (a.label < b.label ? -1 : 1),
  );
}

/** All services together, a month. */
export function totalOf(services: readonly ServiceEffect[], currency: string): string {
  const all = sum(services.map((service) => decimal(service.perMonth)));
  return fixed(all, minorDigits(currency));
}

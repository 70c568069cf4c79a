/** What of a service may differ from version to version, as it was sent. */
import type { InThePriceItem, KitItem } from '../../../shared/contract/catalogue.js';
import type { ServiceTermsView } from '../../../shared/contract/menu.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import { canonical, type Decimal } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { MalformedRequest } from '../../platform/http/unreadable.js';
import { givenFields } from './given-fields.js';
import type {
  InThePriceRequest,
  KitItemRequest,
  ServiceOnTopRequest,
} from './services.requests.js';

/** The fields of a request that say what a service is; what is missing stays. */
export interface SentTerms {
  readonly price?: Decimal | undefined;
  readonly handsOnMinutes?: number | undefined;
  readonly chairMinutes?: number | undefined;
  readonly kit?: readonly KitItemRequest[] | undefined;
  readonly inThePrice?: readonly InThePriceRequest[] | undefined;
  readonly onTop?: readonly ServiceOnTopRequest[] | undefined;
}

/** As it is stored. */
export function kitOf(kit: readonly KitItemRequest[]): KitItem[] {
  return kit.map(({ productId, quantity, unit }) => ({
    ...{ productId, quantity: canonical(quantity), unit },
  }));
}

/** @throws Problem `one_of_two` unless either grams or bowls are given */
export function inThePriceOf(items: readonly InThePriceRequest[]): InThePriceItem[] {
  return items.map(({ kind, grams, bowls }, index) =>
    within(`/inThePrice/${index}`, () => {
      if (grams && !bowls) return { kind, grams: canonical(grams) };
      if (bowls && !grams) return { kind, bowls: canonical(bowls) };
      throw new Problem('one_of_two', { one: 'grams', other: 'bowls' });
    }),
  );
}

/** @throws MalformedRequest for two rules of one kind */
export function onTopOf(rules: readonly ServiceOnTopRequest[]): OnTopSetting[] {
  const kinds = rules.map(({ kind }) => kind);
  const twice = kinds.findIndex((kind, place) => kinds.indexOf(kind) !== place);
  if (twice >= 0) {
    const detail = `"${String(kinds[twice])}" is there already. Give it once.`;
    throw new MalformedRequest([{ pointer: `/onTop/${twice}/kind`, code: 'twice', detail }]);
  }
  return rules.map(({ kind, label, by, rate }) => ({
    ...{ kind, by, rate: canonical(rate) },
    ...(label === undefined ? {} : { label }),
  }));
}

/** What was sent, as it is stored; what is missing stays out. @throws Problem as the parts do */
export function termsSent(sent: SentTerms): Partial<ServiceTermsView> {
  const { price, handsOnMinutes, chairMinutes, kit, inThePrice, onTop } = sent;
  return givenFields({
    price: price && canonical(price),
    handsOnMinutes,
    chairMinutes,
    kit: kit && kitOf(kit),
    inThePrice: inThePrice && inThePriceOf(inThePrice),
    onTop: onTop && onTopOf(onTop),
  });
}

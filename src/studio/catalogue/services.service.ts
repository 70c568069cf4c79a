/** What the studio offers: the menu with its minutes, kits and what is in the price. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { InThePriceItem, KitItem, ServiceView } from '../../../shared/contract/catalogue.js';
import { canonical } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import type { Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { CatalogueList } from './catalogue-list.service.js';
import type {
  InThePriceRequest,
  KitItemRequest,
  NewServiceRequest,
  ServiceChangesRequest,
} from './catalogue.requests.js';
import { serviceView } from './catalogue.views.js';
import { MISSING_PRODUCTS } from './products.queries.js';
import { givenFields } from './given-fields.js';
import type { NewRow } from './records.queries.js';
import { ServiceEntity } from './service.entity.js';

@Injectable()
export class ServicesService extends CatalogueList<
  ServiceEntity,
  NewServiceRequest,
  ServiceChangesRequest,
  ServiceView
> {
  constructor(
    @Inject(DataSource) dataSource: DataSource,
    @Inject(Once) once: Once,
    @Inject(Clock) clock: Clock,
  ) {
    super({ dataSource, once, clock }, ServiceEntity, 'service');
  }

  protected override rowOf(request: NewServiceRequest) {
    const { name, price, handsOnMinutes = 0, chairMinutes = 0, kit, inThePrice } = request;
    return {
      name,
      price,
      handsOnMinutes,
      chairMinutes,
      kit: (kit ?? []).map(kitItem),
      inThePrice: (inThePrice ?? []).map(inThePriceItem),
    };
  }

  protected override changesOf(request: ServiceChangesRequest): Partial<ServiceEntity> {
    const { name, price, handsOnMinutes, chairMinutes } = request;
    const kit = request.kit?.map(kitItem);
    const inThePrice = request.inThePrice?.map(inThePriceItem);
    return givenFields({ name, price, handsOnMinutes, chairMinutes, kit, inThePrice });
  }

  /** @throws Problem `product_not_given` for a kit with a product that this studio has not */
  protected override async check(tx: Transaction, row: Partial<ServiceEntity>): Promise<void> {
    const { kit = [] } = row;
    if (kit.length === 0) return;
    const ids = kit.map(({ productId }) => productId);
    const [missing] = await tx.query<{ id: string }>(MISSING_PRODUCTS, [ids]);
    if (!missing) return;
    const pointer = `/kit/${ids.indexOf(missing.id)}/productId`;
    throw new Problem('product_not_given', { id: missing.id }, pointer);
  }

  protected override view(service: NewRow<ServiceEntity>, caller: Caller): ServiceView {
    return serviceView(service, caller.role);
  }
}

function kitItem({ productId, quantity, unit }: KitItemRequest): KitItem {
  return { productId, quantity: canonical(quantity), unit };
}

/** @throws Problem `one_of_two` unless either grams or bowls are given */
function inThePriceItem({ kind, grams, bowls }: InThePriceRequest, index: number): InThePriceItem {
  return within(`/inThePrice/${index}`, () => {
    if (grams && !bowls) return { kind, grams: canonical(grams) };
    if (bowls && !grams) return { kind, bowls: canonical(bowls) };
    throw new Problem('one_of_two', { one: 'grams', other: 'bowls' });
  });
}

/** What the studio offers: the menu with its minutes, kits and what is in the price. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import type { Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { CatalogueList } from './catalogue-list.service.js';
import { serviceView } from './catalogue.views.js';
import { givenFields } from './given-fields.js';
import { MenuService } from './menu.service.js';
import type { NewRow } from './records.queries.js';
import { ServiceEntity } from './service.entity.js';
import { inThePriceOf, kitOf, onTopOf } from './service-terms.js';
import type { NewServiceRequest, ServiceChangesRequest } from './services.requests.js';

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
    @Inject(MenuService) private readonly menu: MenuService,
  ) {
    super({ dataSource, once, clock }, ServiceEntity, 'service');
  }

  protected override rowOf(request: NewServiceRequest) {
    const { name, price, handsOnMinutes = 0, chairMinutes = 0, kit, inThePrice, onTop } = request;
    return {
      name,
      price,
      handsOnMinutes,
      chairMinutes,
      kit: kitOf(kit),
      inThePrice: inThePriceOf(inThePrice),
      onTop: onTopOf(onTop),
    };
  }

  protected override changesOf(request: ServiceChangesRequest): Partial<ServiceEntity> {
    const { name, price, handsOnMinutes, chairMinutes } = request;
    const kit = request.kit && kitOf(request.kit);
    const inThePrice = request.inThePrice && inThePriceOf(request.inThePrice);
    const onTop = request.onTop && onTopOf(request.onTop);
    return givenFields({ name, price, handsOnMinutes, chairMinutes, kit, inThePrice, onTop });
  }

  /** @throws Problem `product_not_given` for a kit with a product that this studio has not */
  protected override check(tx: Transaction, { kit = [] }: Partial<ServiceEntity>): Promise<void> {
    return this.menu.checkKit(tx, kit);
  }

  /** Once a visit has had the service, other terms of it start today as a version. */
  protected override async inTheRow(
    tx: Transaction,
    id: string,
    changes: Partial<ServiceEntity>,
    caller: Caller,
  ): Promise<Partial<ServiceEntity>> {
    const { name, retiredAt, price, ...others } = changes;
    const terms = { ...others, ...(price ? { price: canonical(price) } : {}) };
    if (Object.keys(terms).length === 0) return changes;
    if ((await this.menu.changeNow(tx, id, terms, caller)) === 'in the row') return changes;
    return givenFields({ name, retiredAt });
  }

  protected override async asOfNow(
    studioId: string,
    rows: ServiceEntity[],
  ): Promise<ServiceEntity[]> {
    const now = await this.menu.termsNow(
      studioId,
      rows.map(({ id }) => id),
    );
    return rows.map((row) => {
      const terms = now.get(row.id);
      return terms ? Object.assign(row, { ...terms, price: decimal(terms.price) }) : row;
    });
  }

  protected override view(service: NewRow<ServiceEntity>, caller: Caller): ServiceView {
    return serviceView(service, caller.role);
  }
}

/** Whom the studio buys from. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { SupplierView } from '../../../shared/contract/catalogue.js';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { CatalogueList } from './catalogue-list.service.js';
import type { NewSupplierRequest, SupplierChangesRequest } from './catalogue.requests.js';
import { supplierView } from './catalogue.views.js';
import { givenFields } from './given-fields.js';
import type { NewRow } from './records.queries.js';
import { SupplierEntity } from './supplier.entity.js';

@Injectable()
export class SuppliersService extends CatalogueList<
  SupplierEntity,
  NewSupplierRequest,
  SupplierChangesRequest,
  SupplierView
> {
  constructor(
    @Inject(DataSource) dataSource: DataSource,
    @Inject(Once) once: Once,
    @Inject(Clock) clock: Clock,
  ) {
    super({ dataSource, once, clock }, SupplierEntity, 'supplier');
  }

  protected override rowOf(request: NewSupplierRequest) {
    return {
      name: request.name,
      leadTimeDays: request.leadTimeDays ?? null,
      minimumOrder: request.minimumOrder ?? null,
      freight: request.freight ?? null,
      freeFreightFrom: request.freeFreightFrom ?? null,
      orderDay: request.orderDay ?? null,
    };
  }

  protected override changesOf(request: SupplierChangesRequest): Partial<SupplierEntity> {
    const { name, leadTimeDays, minimumOrder, freight, freeFreightFrom, orderDay } = request;
    return givenFields({ name, leadTimeDays, minimumOrder, freight, freeFreightFrom, orderDay });
  }

  protected override view(supplier: NewRow<SupplierEntity>): SupplierView {
    return supplierView(supplier);
  }
}

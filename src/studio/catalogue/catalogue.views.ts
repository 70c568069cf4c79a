/** Rows of suppliers, services, vessels and purposes as they travel. */
import type {
  PurposeView,
  ServiceView,
  SupplierView,
  VesselView,
} from '../../../shared/contract/catalogue.js';
import type { Q } from '../../../shared/contract/quantity.js';
import { canonical, type Decimal } from '../../../shared/decimal.js';
import { mayAct, type Role } from '../../platform/http/rights.js';
import type { NewRow } from './records.queries.js';
import type { PurposeEntity } from './purpose.entity.js';
import type { ServiceEntity } from './service.entity.js';
import type { SupplierEntity } from './supplier.entity.js';
import type { VesselEntity } from './vessel.entity.js';

const textOf = (value: Decimal | null) => value && canonical(value);
const gramsOf = (value: Decimal): Q<'g'> => ({ quantity: canonical(value), unit: 'g' });

export function supplierView(supplier: NewRow<SupplierEntity>): SupplierView {
  return {
    id: supplier.id,
    name: supplier.name,
    leadTimeDays: supplier.leadTimeDays,
    minimumOrder: textOf(supplier.minimumOrder),
    freight: textOf(supplier.freight),
    freeFreightFrom: textOf(supplier.freeFreightFrom),
    orderDay: supplier.orderDay,
    retiredAt: supplier.retiredAt,
  };
}

/** A service; its price is not shown to a bench. */
export function serviceView(service: NewRow<ServiceEntity>, role: Role): ServiceView {
  const money = mayAct({ role }, 'stylist');
  return {
    id: service.id,
    name: service.name,
    ...(money ? { price: canonical(service.price) } : {}),
    handsOnMinutes: service.handsOnMinutes,
    chairMinutes: service.chairMinutes,
    kit: service.kit,
    inThePrice: service.inThePrice,
    ...(money ? { onTop: service.onTop } : {}),
    retiredAt: service.retiredAt,
  };
}

export function vesselView(vessel: NewRow<VesselEntity>): VesselView {
  return {
    id: vessel.id,
    label: vessel.label,
    mark: vessel.mark,
    tare: gramsOf(vessel.tare_g),
    brush: vessel.brush_g && gramsOf(vessel.brush_g),
    retiredAt: vessel.retiredAt,
  };
}

export function purposeView(purpose: NewRow<PurposeEntity>): PurposeView {
  return { id: purpose.id, name: purpose.name, retiredAt: purpose.retiredAt };
}

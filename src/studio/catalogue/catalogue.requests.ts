/** What may be sent about suppliers, vessels and purposes, and to read a list. */
import type { Amount } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import { DecimalNumber, Flag, Quantity, Text, Whole } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

/** Money fits numeric(18,6). */
export const mostMoney = '999999999';

export class CatalogueListRequest extends PageRequest {
  @Flag({ optional: true, description: 'Also what has been retired.' })
  retired: boolean = false;
}

export class NewSupplierRequest extends PostingRequest {
  @Text({ max: 120, example: 'Harbour Wholesale' })
  name!: string;

  @Whole({ optional: true, nullable: true, max: 365 })
  leadTimeDays?: number | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  minimumOrder?: Decimal | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  freight?: Decimal | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  freeFreightFrom?: Decimal | null;

  @Whole({ optional: true, nullable: true, min: 1, max: 7, description: '1 Monday … 7 Sunday.' })
  orderDay?: number | null;
}

export class SupplierChangesRequest {
  @Text({ optional: true, max: 120 })
  name?: string;

  @Whole({ optional: true, nullable: true, max: 365 })
  leadTimeDays?: number | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  minimumOrder?: Decimal | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  freight?: Decimal | null;

  @DecimalNumber({ optional: true, nullable: true, min: '0', max: mostMoney })
  freeFreightFrom?: Decimal | null;

  @Whole({ optional: true, nullable: true, min: 1, max: 7 })
  orderDay?: number | null;

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

export class NewVesselRequest extends PostingRequest {
  @Text({ max: 80, example: 'black bowl' })
  label!: string;

  @Text({ optional: true, nullable: true, max: 40, example: 'triangle' })
  mark?: string | null;

  @Quantity({ units: ['g'], min: '0', max: '20000', example: { quantity: '112', unit: 'g' } })
  tare!: Amount<'g'>;

  @Quantity({ optional: true, nullable: true, units: ['g'], min: '0', max: '5000' })
  brush?: Amount<'g'> | null;
}

export class VesselChangesRequest {
  @Text({ optional: true, max: 80 })
  label?: string;

  @Text({ optional: true, nullable: true, max: 40 })
  mark?: string | null;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  tare?: Amount<'g'>;

  @Quantity({ optional: true, nullable: true, units: ['g'], min: '0', max: '5000' })
  brush?: Amount<'g'> | null;

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

export class NewPurposeRequest extends PostingRequest {
  @Text({ max: 60, example: 'front' })
  name!: string;
}

export class PurposeChangesRequest {
  @Text({ optional: true, max: 60 })
  name?: string;

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

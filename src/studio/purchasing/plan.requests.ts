/** What may be asked of an order plan, and terms of buying one product. */
import type { Decimal } from '../../../shared/decimal.js';
import { DecimalNumber, Id, Parts, Text, Whole } from '../../platform/http/fields.js';

const mostMoney = '999999999';

export class OrderPlanRequest {
  @Whole({ optional: true, min: 1, max: 3, description: 'The next 1 to 3 order days.' })
  orderDays: number = 1;

  @DecimalNumber({
    optional: true,
    description: 'Of every product, instead of its own: 0.95 is short about one order in 20.',
    example: '0.95',
  })
  serviceLevel?: Decimal;

  @DecimalNumber({ optional: true, min: '0', max: mostMoney, description: 'Freight included.' })
  budget?: Decimal;
}

export class KeepPacksRequest {
  @Id()
  productId!: string;

  @Text({ optional: true, max: 80, description: 'The first pack, unless told.' })
  packLabel?: string;

  @Whole({ max: 1000, example: 3 })
  packs!: number;
}

export class EditedPlanRequest extends OrderPlanRequest {
  @Parts(() => KeepPacksRequest, {
    optional: true,
    min: 0,
    description: 'Packs of the first order day that stay; the rest is worked out anew.',
  })
  keep: KeepPacksRequest[] = [];
}

export class PriceBreakRequest {
  @Text({ optional: true, max: 80, description: 'The first pack, unless told.' })
  packLabel?: string;

  @Whole({ min: 2, max: 100_000, example: 6 })
  fromPacks!: number;

  @DecimalNumber({ min: '0', max: mostMoney, example: '13.80' })
  packPrice!: Decimal;
}

export class OrderTermsRequest {
  @Whole({
    optional: true,
    nullable: true,
    min: 1,
    max: 100_000,
    description: 'Room on the shelf.',
  })
  mostPacks?: number | null;

  @Parts(() => PriceBreakRequest, { optional: true, min: 0, max: 50 })
  priceBreaks: PriceBreakRequest[] = [];
}

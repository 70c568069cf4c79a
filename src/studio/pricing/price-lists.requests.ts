/** What may be sent about a supplier's new prices. */
import type { Decimal } from '../../../shared/decimal.js';
import { Day, DecimalNumber, Id, Parts, Text, Whole } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

export class PriceLineRequest {
  @Id({ optional: true })
  packId?: string;

  @Text({ optional: true, max: 40, description: 'Digits under the bar code of the pack.' })
  gtin?: string;

  @Text({ optional: true, max: 60, description: 'The supplier’s number for the pack.' })
  orderCode?: string;

  @Text({ optional: true, max: 120, description: 'Name of the product, where no number is known.' })
  product?: string;

  @Text({ optional: true, max: 80, description: 'Which pack, where the product has several.' })
  pack?: string;

  @DecimalNumber({ min: '0', max: '999999999', places: 6, description: 'Price of the pack.' })
  listPrice!: Decimal;
}

class PriceListRequest extends PostingRequest {
  @Id({ optional: true, description: 'Only packs of this supplier are looked at.' })
  supplierId?: string;

  @Parts(() => PriceLineRequest, { optional: true, max: 500 })
  lines?: PriceLineRequest[];

  @Text({
    optional: true,
    max: 500_000,
    description: 'The same as CSV: gtin, order_code, product, pack, list_price.',
  })
  csv?: string;
}

export class PriceEffectRequest extends PriceListRequest {
  @Whole({ optional: true, min: 1, max: 24, description: 'Months that show the volume; 3.' })
  months: number = 3;

  @DecimalNumber({
    optional: true,
    min: '-10',
    max: '10',
    description: 'The margin that target prices reach, a share; that of before, unless told.',
  })
  margin?: Decimal;
}

export class AcceptedPricesRequest extends PriceListRequest {
  @Day({ optional: true, description: 'Since when they hold; today, unless told.' })
  startsOn?: string;
}

export type { PriceListRequest };

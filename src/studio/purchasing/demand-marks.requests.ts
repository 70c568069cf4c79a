/** What may be marked of demand. */
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { Day, DecimalNumber, Id } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

export class OutOfStockRequest extends PostingRequest {
  @Id()
  productId!: string;

  @Day({ description: 'The first day without it.' })
  from!: string;

  @Day({ optional: true, description: 'The last day without it; the first one unless told.' })
  to?: string;
}

export class OutOfStockListRequest {
  @Id({ optional: true, description: 'Only of this product.' })
  productId?: string;
}

export class ReplacesRequest {
  @Id({ nullable: true, description: 'The product that it replaces; null: none.' })
  replacesId!: string | null;

  @DecimalNumber({
    optional: true,
    above: '0',
    max: '1000',
    places: 6,
    description: 'So much of this one is used where one of the old one was; 1 unless told.',
  })
  factor: Decimal = decimal('1');
}

/** What may be sent about orders. */
import type { Decimal } from '../../../shared/decimal.js';
import type { OrderState } from '../../../shared/contract/purchasing.js';
import { Day, DecimalNumber, Id, OneOf, Parts, Text, Whole } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

const mostMoney = '999999999';

export class OrderLineRequest {
  @Id()
  productId!: string;

  @Text({ optional: true, max: 80, description: 'Which pack; not needed where there is one.' })
  packLabel?: string;

  @Whole({ min: 1, max: 100_000, example: 2 })
  packs!: number;

  @DecimalNumber({
    optional: true,
    min: '0',
    max: mostMoney,
    description: 'By the list, unless told.',
  })
  packPrice?: Decimal;
}

export class OrderRequest extends PostingRequest {
  @Id({ optional: true, description: 'The one that all products name, unless told.' })
  supplierId?: string;

  @Day({ optional: true, description: 'Today, unless told.' })
  orderedOn?: string;

  @Text({ optional: true, max: 400 })
  note?: string;

  @Parts(() => OrderLineRequest, { max: 500 })
  lines!: OrderLineRequest[];
}

export class OrderListRequest extends PageRequest {
  @OneOf(['sent', 'partly received', 'received', 'cancelled'], { optional: true })
  state?: OrderState;

  @Id({ optional: true })
  supplierId?: string;
}

export class SlipRequest {
  @OneOf(['csv', 'pdf'], { optional: true, description: 'pdf unless told.' })
  format: 'csv' | 'pdf' = 'pdf';
}

export class CancelRequest extends PostingRequest {}

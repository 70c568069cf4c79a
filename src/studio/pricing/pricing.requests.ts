/** What may be sent at the closing of a visit and asked of its sheet. */
import type { StockUnit } from '../../../shared/amount.js';
import type { PaidBy } from '../../../shared/contract/visits.js';
import type { Decimal } from '../../../shared/decimal.js';
import {
  DecimalNumber,
  Field,
  Id,
  Instant,
  OneOf,
  Parts,
  Text,
  Whole,
} from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { readDecimal } from '../../platform/http/reading.js';
import type { RequestClass } from '../../platform/http/request-class.js';
import { readRequest } from '../../platform/http/request-pipe.js';
import { MalformedRequest, Unreadable } from '../../platform/http/unreadable.js';

const amount = { min: '0', max: '9999999', places: 4 } as const;
const methods: readonly PaidBy[] = ['card', 'cash', 'other'];

export class MinutesRequest {
  @Id()
  personId!: string;

  @Whole({ max: 1440 })
  minutes!: number;
}

export class UsedRequest {
  @Id()
  productId!: string;

  @DecimalNumber({ above: '0', max: '99999999', places: 3 })
  quantity!: Decimal;

  @OneOf(['g', 'ml', 'piece'])
  unit!: StockUnit;
}

export class DiscountRequest {
  @Text({ optional: true, max: 60 })
  label: string = 'Discount';

  @OneOf(['menu', 'all'], { optional: true, description: 'Menu prices, or what is on top too.' })
  of: 'menu' | 'all' = 'menu';

  @DecimalNumber({ optional: true, min: '0', max: '1', example: '0.1' })
  share?: Decimal;

  @DecimalNumber({ optional: true, ...amount })
  amount?: Decimal;
}

export class PaymentRequest {
  @OneOf(methods)
  method!: PaidBy;

  @DecimalNumber(amount)
  amount!: Decimal;
}

export class DepositRequest {
  @Text({ optional: true, max: 60, description: 'Deposit, voucher, course.' })
  label: string = 'Deposit';

  @DecimalNumber(amount)
  amount!: Decimal;
}

export class TipRequest {
  @DecimalNumber(amount)
  amount!: Decimal;

  @OneOf(methods, { optional: true, description: 'As the first payment, unless told.' })
  method?: PaidBy;

  @Id({ optional: true, description: 'Whose it is; who serves, unless told.' })
  personId?: string;
}

/** An object of the class, or a bare amount. */
function amountOr<T extends object>(type: RequestClass<T>) {
  return (value: unknown): T | Unreadable => {
    const bare = typeof value === 'string' || typeof value === 'number';
    if (bare) {
      const read = readDecimal(value, amount);
      return read instanceof Unreadable ? read : Object.assign(new type(), { amount: read });
    }
    try {
      return readRequest(type, value);
    } catch (error) {
      const wrong = error instanceof MalformedRequest ? error.errors[0] : undefined;
      if (!wrong) throw error;
      return new Unreadable(wrong.code, wrong.detail, wrong.pointer);
    }
  };
}

const decimalSchema = { type: 'string', pattern: '^(0|[1-9]\\d*)(\\.\\d+)?$' };
const amountOrObject = (properties: object) => ({
  oneOf: [decimalSchema, { type: 'object', additionalProperties: false, properties }],
});
const discountSchema = amountOrObject({
  label: { type: 'string' },
  of: { type: 'string', enum: ['menu', 'all'] },
  share: decimalSchema,
  amount: decimalSchema,
});
const tipSchema = amountOrObject({
  amount: decimalSchema,
  method: { type: 'string', enum: methods },
  personId: { type: 'string', format: 'uuid' },
});

export class ClosingRequest extends PostingRequest {
  @Instant()
  closedAt!: string;

  @Parts(() => MinutesRequest, {
    optional: true,
    max: 20,
    description: 'Hands-on; what the services take of who serves, unless told.',
  })
  minutes?: MinutesRequest[];

  @Whole({ optional: true, max: 1440, description: 'What the services take, unless told.' })
  chairMinutes?: number;

  @Parts(() => UsedRequest, {
    optional: true,
    min: 0,
    max: 100,
    description: 'Sundries and care; the kits of the services, unless something is booked already.',
  })
  uses?: UsedRequest[];

  @Field(amountOr(DiscountRequest), discountSchema, {
    optional: true,
    description: 'An amount, or `{share}` or `{amount}` with what it is of.',
  })
  discount?: DiscountRequest;

  @Parts(() => PaymentRequest, { optional: true, min: 0, max: 20, description: 'Without the tip.' })
  payments: PaymentRequest[] = [];

  @Parts(() => DepositRequest, {
    optional: true,
    min: 0,
    max: 20,
    description: 'Paid before: it lowers what is due, not the price.',
  })
  deposits: DepositRequest[] = [];

  @Field(amountOr(TipRequest), tipSchema, { optional: true })
  tip?: TipRequest;

  @OneOf(['refuse', 'all-applied'], {
    optional: true,
    description: 'Open bowls: refuse to close, or count them as used up, not weighed.',
  })
  openBowls: 'refuse' | 'all-applied' = 'refuse';
}

export class PriceSheetRequest {
  @DecimalNumber({ optional: true, max: '10', min: '-10', description: 'A share of net.' })
  margin?: Decimal;

  @DecimalNumber({ optional: true, min: '0', max: '99999', description: 'Of a chair.' })
  contributionPerHour?: Decimal;

  @DecimalNumber({ optional: true, min: '0', max: '9999', description: 'A share of product cost.' })
  productMarkup?: Decimal;
}

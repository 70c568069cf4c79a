/** What may be sent about services of the menu and their versions. */
import { stockUnits, type StockUnit } from '../../../shared/amount.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import { productKinds } from '../../../shared/product-card.js';
import {
  Day,
  DecimalNumber,
  Flag,
  Id,
  Instant,
  OneOf,
  Parts,
  Text,
  Whole,
} from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { mostMoney } from './catalogue.requests.js';

const minutesOfDay = 1440;

export class KitItemRequest {
  @Id()
  productId!: string;

  @DecimalNumber({ above: '0', max: '100000', places: 3, example: '30' })
  quantity!: Decimal;

  @OneOf(stockUnits, { example: 'piece' })
  unit!: StockUnit;
}

/** Grams, or a number of bowls. */
export class InThePriceRequest {
  @OneOf(productKinds, { example: 'lightener' })
  kind!: ProductKind;

  @DecimalNumber({ optional: true, above: '0', max: '100000', places: 3, example: '60' })
  grams?: Decimal;

  @DecimalNumber({ optional: true, above: '0', max: '100', places: 0 })
  bowls?: Decimal;
}

/** In place of the studio's rule for this kind. */
export class ServiceOnTopRequest {
  @OneOf(productKinds, { example: 'lightener' })
  kind!: ProductKind;

  @Text({ optional: true, max: 60 })
  label?: string;

  @OneOf(['bowl', 'gram', 'cost'], { optional: true })
  by: OnTopSetting['by'] = 'bowl';

  @DecimalNumber({
    min: '0',
    max: '999999',
    description: 'A bowl, a gram, or a markup on its cost (a share); always without tax.',
  })
  rate!: Decimal;
}

export class NewServiceRequest extends PostingRequest {
  @Text({ max: 120, example: 'Half head of lights' })
  name!: string;

  @DecimalNumber({ min: '0', max: mostMoney, example: '85.00' })
  price!: Decimal;

  @Whole({ optional: true, max: minutesOfDay })
  handsOnMinutes: number = 0;

  @Whole({ optional: true, max: minutesOfDay })
  chairMinutes: number = 0;

  @Parts(() => KitItemRequest, { optional: true, min: 0, max: 50 })
  kit: KitItemRequest[] = [];

  @Parts(() => InThePriceRequest, { optional: true, min: 0, max: 50 })
  inThePrice: InThePriceRequest[] = [];

  @Parts(() => ServiceOnTopRequest, { optional: true, min: 0, max: 20 })
  onTop: ServiceOnTopRequest[] = [];
}

/** What is sent changes; the rest stays as it is on that day. */
class ChangedTermsRequest {
  @DecimalNumber({ optional: true, min: '0', max: mostMoney })
  price?: Decimal;

  @Whole({ optional: true, max: minutesOfDay })
  handsOnMinutes?: number;

  @Whole({ optional: true, max: minutesOfDay })
  chairMinutes?: number;

  @Parts(() => KitItemRequest, { optional: true, min: 0, max: 50 })
  kit?: KitItemRequest[];

  @Parts(() => InThePriceRequest, { optional: true, min: 0, max: 50 })
  inThePrice?: InThePriceRequest[];

  @Parts(() => ServiceOnTopRequest, { optional: true, min: 0, max: 20 })
  onTop?: ServiceOnTopRequest[];
}

export class ServiceChangesRequest extends ChangedTermsRequest {
  @Text({ optional: true, max: 120 })
  name?: string;

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

export class ServiceVersionRequest extends ChangedTermsRequest {
  @Id({ optional: true, description: 'Made by the caller; the same id is answered once.' })
  id?: string;

  @Instant({ optional: true, description: 'The device’s clock when it sent this.' })
  sentAt?: string;

  @Day({ description: 'From which day on; today or later.' })
  startsOn!: string;
}

export class MenuRequest {
  @Day({ optional: true, description: 'The menu of this day; today, unless told.' })
  on?: string;
}

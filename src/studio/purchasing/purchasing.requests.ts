/** What may be sent about forecasts, plans and orders. */
import { Day, Id, OneOf, Whole } from '../../platform/http/fields.js';

export class ForecastRequest {
  @Whole({ optional: true, min: 1, max: 12, description: 'Months, this one first; 3 unless told.' })
  horizon: number = 3;

  @OneOf(['product', 'strength'], { optional: true, description: 'strength: developers.' })
  by: 'product' | 'strength' = 'product';

  @Id({ optional: true, description: 'Only this product.' })
  productId?: string;
}

export class DemandRequest {
  @OneOf(['day', 'week', 'month'], { optional: true, description: 'month unless told.' })
  every: 'day' | 'week' | 'month' = 'month';

  @Day({ optional: true, description: 'A year before `to`, unless told.' })
  from?: string;

  @Day({ optional: true, description: 'Exclusive; tomorrow unless told.' })
  to?: string;

  @Id({ optional: true })
  productId?: string;
}

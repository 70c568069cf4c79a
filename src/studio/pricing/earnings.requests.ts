/** What may be asked about earnings, and about the product of people who rent a chair. */
import type { EarningsKey } from '../../../shared/contract/earnings.js';
import type { Decimal } from '../../../shared/decimal.js';
import { Day, DecimalNumber, Id, Month, OneOf } from '../../platform/http/fields.js';

const keys: readonly EarningsKey[] = ['service', 'person', 'month'];

export class EarningsRequest {
  @Day({ optional: true, description: 'Twelve months before `to`, unless told.' })
  from?: string;

  @Day({ optional: true, description: 'Exclusive; tomorrow, unless told.' })
  to?: string;

  @OneOf(keys, { optional: true, description: 'By person for the owner only.' })
  by: EarningsKey = 'service';
}

export class StatementRequest {
  @Id()
  personId!: string;

  @Month()
  month!: string;

  @DecimalNumber({
    optional: true,
    min: '0',
    max: '10',
    description: 'A share of cost that comes on top of it; none unless told.',
  })
  markup?: Decimal;
}

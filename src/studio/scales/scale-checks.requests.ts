/** What is sent about the daily check of a scale. */
import type { Amount } from '../../../shared/amount.js';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { DecimalNumber, Instant, Quantity, Text } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

export class ScaleCheckRequest extends PostingRequest {
  @Text({ max: 80, example: 'Tidewater lightener, sealed tub' })
  what!: string;

  @Quantity({ units: ['g'], above: '0', max: '20000' })
  weight!: Amount<'g'>;

  @DecimalNumber({ optional: true, above: '0', max: '100', description: 'g', example: '1' })
  interval: Decimal = decimal('1');

  @Instant()
  at!: string;
}

/** What may be asked about what was left over, and about sizes. */
import type { HairDensity, HairLength } from '../../../shared/contract/clients.js';
import type { WasteKey } from '../../../shared/contract/waste.js';
import type { Decimal } from '../../../shared/decimal.js';
import { Day, DecimalNumber, Id, OneOf, Text } from '../../platform/http/fields.js';

const keys: readonly WasteKey[] = ['person', 'service', 'purpose', 'product', 'month', 'hair'];

export class WasteRequest {
  @Day({ optional: true, description: 'Twelve months before `to`, unless told.' })
  from?: string;

  @Day({ optional: true, description: 'Exclusive; tomorrow, unless told.' })
  to?: string;

  @OneOf(keys, { optional: true })
  by: WasteKey = 'purpose';
}

export class SizeRequest {
  @Text({ max: 60, example: 'front' })
  purpose!: string;

  @Id({ optional: true })
  serviceId?: string;

  @Id({ optional: true, description: 'A visit that does not count: the one it is planned for.' })
  visitId?: string;

  @OneOf(['short', 'medium', 'long', 'very long'], { optional: true })
  hairLength?: HairLength;

  @OneOf(['fine', 'medium', 'thick'], { optional: true })
  hairDensity?: HairDensity;

  @DecimalNumber({
    optional: true,
    min: '0.5',
    max: '0.99',
    description: 'The share of heads that it should be enough for; 0.9 unless told.',
  })
  point?: Decimal;
}

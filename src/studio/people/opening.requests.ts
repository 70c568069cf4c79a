/** What may be sent to open the first studio of one's own. */
import { Field, Part, Text } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import {
  pinSchema,
  readCountry,
  readCurrency,
  readPin,
  readTimeZone,
  SupplierPricesRequest,
} from './people.requests.js';

export class FirstOwnerRequest {
  @Text({ max: 120, example: 'Marlow Teasel' })
  name!: string;

  @Field(readPin, pinSchema, { example: '2580' })
  pin!: string;
}

export class FirstStudioRequest extends PostingRequest {
  @Text({ optional: true, max: 40, description: 'Printed at the start; not on that computer.' })
  code?: string;

  @Text({ max: 120, example: 'Saltmarsh Row' })
  name!: string;

  @Field(readCurrency, { type: 'string', pattern: '^[A-Z]{3}$', example: 'EUR' })
  currency!: string;

  @Field(readTimeZone, { type: 'string', example: 'Europe/Lisbon' })
  timeZone!: string;

  @Field(readCountry, { type: 'string', pattern: '^[A-Z]{2}$' }, { optional: true, nullable: true })
  country?: string | null;

  @Part(() => SupplierPricesRequest)
  supplierPrices!: SupplierPricesRequest;

  @Part(() => FirstOwnerRequest)
  owner!: FirstOwnerRequest;

  @Text({ optional: true, max: 120, description: 'Name of the bench where this device stands.' })
  bench: string = 'Bench';
}

/** What may be sent about people, benches, tokens, signing in and the studio. */
import type { Decimal } from '../../../shared/decimal.js';
import { currencyCodes } from '../../../shared/currency.js';
import { supplierPriceKinds, type SupplierPrices } from '../../../shared/supplier-prices.js';
import {
  Day,
  DecimalNumber,
  Field,
  Flag,
  Id,
  OneOf,
  Part,
  Text,
} from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { Unreadable } from '../../platform/http/unreadable.js';
import type { CommissionOn, PersonRole } from './people.entity.js';
import { PricingChangesRequest } from './pricing-settings.requests.js';

const personRoles = ['owner', 'manager', 'stylist'] as const;
export const pinSchema = { type: 'string', pattern: '^\\d{4,8}$' };

export function readPin(value: unknown): string | Unreadable {
  if (typeof value === 'string' && /^\d{4,8}$/.test(value)) return value;
  return new Unreadable('not_a_pin', 'A PIN is text of 4 to 8 digits.');
}

export function readTimeZone(value: unknown): string | Unreadable {
  try {
    if (typeof value !== 'string' || !/^[A-Za-z_]+(\/[\w+-]+)*$/.test(value)) throw new Error();
    return new Intl.DateTimeFormat('en', { timeZone: value }).resolvedOptions().timeZone && value;
  } catch {
    return new Unreadable('unknown_time_zone', 'Give a name such as Europe/Lisbon.');
  }
}

export function readCountry(value: unknown): string | Unreadable {
  if (typeof value === 'string' && /^[A-Z]{2}$/.test(value)) return value;
  return new Unreadable('not_a_country', 'Give two capital letters (ISO 3166-1), such as PT.');
}

export function readCurrency(value: unknown): string | Unreadable {
  if (typeof value === 'string' && currencyCodes().includes(value)) return value;
  return new Unreadable('unknown_currency', 'Give three capital letters (ISO 4217), such as EUR.');
}

export class CommissionRequest {
  @DecimalNumber({ min: '0', max: '1', description: 'A share, 0.4 for 40 %.', example: '0.4' })
  share!: Decimal;

  @OneOf(['gross', 'net', 'net_less_product'])
  on!: CommissionOn;
}

export class NewPersonRequest extends PostingRequest {
  @Text({ max: 120, example: 'Wren Tallis' })
  name!: string;

  @OneOf(personRoles)
  role!: PersonRole;

  @OneOf(['employed', 'rents'], { optional: true })
  kind: 'employed' | 'rents' = 'employed';

  @Field(readPin, pinSchema, { optional: true, example: '2580' })
  pin?: string;

  @DecimalNumber({ optional: true, min: '0', description: 'Cost of an hour at the chair.' })
  hourRate?: Decimal;

  @Part(() => CommissionRequest, { optional: true })
  commission?: CommissionRequest;
}

export class PersonChangesRequest {
  @Text({ optional: true, max: 120 })
  name?: string;

  @OneOf(personRoles, { optional: true })
  role?: PersonRole;

  @OneOf(['employed', 'rents'], { optional: true })
  kind?: 'employed' | 'rents';

  @Field(readPin, pinSchema, { optional: true, description: 'A new PIN; it ends a lock.' })
  pin?: string;

  @DecimalNumber({ optional: true, nullable: true, min: '0' })
  hourRate?: Decimal | null;

  @Part(() => CommissionRequest, { optional: true, nullable: true })
  commission?: CommissionRequest | null;
}

export class PeopleListRequest extends PageRequest {
  @Flag({ optional: true, description: 'Also those who have left.' })
  retired: boolean = false;
}

export class NewBenchRequest extends PostingRequest {
  @Text({ max: 120, example: 'Bench by the window' })
  name!: string;
}

export class BenchChangesRequest {
  @Text({ optional: true, max: 120 })
  name?: string;
}

export class NewTokenRequest {
  @Text({ max: 120, example: 'Tablet by the window' })
  name!: string;

  @OneOf(['bench', 'stylist', 'manager', 'owner'], { optional: true })
  role: 'bench' | 'stylist' | 'manager' | 'owner' = 'bench';

  @Id({ optional: true, description: 'The bench where the device stands.' })
  benchId?: string;
}

export class SignInRequest {
  @Id()
  personId!: string;

  @Field(readPin, pinSchema, { example: '2580' })
  pin!: string;
}

export class DeviceRequest {
  @Text({ max: 200, description: 'The text of a token made for this device.' })
  token!: string;
}

export class NewPinRequest {
  @Field(readPin, pinSchema, { description: 'The PIN until now.' })
  pin!: string;

  @Field(readPin, pinSchema)
  newPin!: string;
}

export class SupplierPricesRequest {
  @OneOf(supplierPriceKinds, { description: 'What the prices that are typed from invoices are.' })
  are!: SupplierPrices['are'];

  @DecimalNumber({ optional: true, min: '0', max: '1', description: '0.23 for 23 %.' })
  taxRate?: Decimal;
}

export class StudioChangesRequest {
  @Text({ optional: true, max: 120 })
  name?: string;

  @Field(readCurrency, { type: 'string', pattern: '^[A-Z]{3}$' }, { optional: true })
  currency?: string;

  @Field(readTimeZone, { type: 'string', example: 'Europe/Lisbon' }, { optional: true })
  timeZone?: string;

  @Field(readCountry, { type: 'string', pattern: '^[A-Z]{2}$' }, { optional: true, nullable: true })
  country?: string | null;

  @OneOf(['fifo', 'average'], { optional: true })
  costingMethod?: 'fifo' | 'average';

  @Day({ optional: true, nullable: true, description: 'Days before this one are closed.' })
  lockedBefore?: string | null;

  @Part(() => SupplierPricesRequest, { optional: true })
  supplierPrices?: SupplierPricesRequest;

  @Part(() => PricingChangesRequest, { optional: true })
  pricing?: PricingChangesRequest;
}

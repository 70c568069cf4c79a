/** What a mix plan is asked with. */
import type { Amount, StockUnit } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { Contact, MixRequest, PercentOf, RatioBasis } from '../../../shared/mix.js';
import { MalformedRequest } from '../../platform/http/unreadable.js';
import {
  DecimalNumber,
  Field,
  Flag,
  Id,
  OneOf,
  Part,
  Parts,
  Quantity,
  Text,
} from '../../platform/http/fields.js';
import { readDecimal, readId } from '../../platform/http/reading.js';
import { Unreadable } from '../../platform/http/unreadable.js';

class PowderRequest {
  @Id()
  productId!: string;

  @DecimalNumber({ optional: true, min: '0', max: '100000' })
  share?: Decimal;
}

class AdditiveRequest {
  @Id()
  productId!: string;

  @OneOf(['powder', 'developer', 'total'], { optional: true })
  of?: PercentOf;

  @DecimalNumber({ optional: true, min: '0', max: '100' })
  percent?: Decimal;

  @DecimalNumber({ optional: true, above: '0', max: '5000', places: 3 })
  grams?: Decimal;

  @DecimalNumber({ optional: true, above: '0', max: '5000', description: 'g of powder a dose' })
  dosesPer?: Decimal;

  @Flag({ optional: true, description: 'Its weight is part of the size.' })
  counted?: boolean;
}

class SizeRequest {
  @Quantity({ optional: true, units: ['g'] })
  total?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'] })
  powder?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g', 'ml'] })
  developer?: Amount<StockUnit>;
}

/** A developer by its id, or by id and share. */
export interface DeveloperPart {
  readonly productId: string;
  readonly share?: Decimal;
}

function readDevelopers(value: unknown): DeveloperPart[] | Unreadable {
  if (!Array.isArray(value)) {
    return new Unreadable('not_a_list', 'Give a list in square brackets.');
  }
  if (value.length > 20) return new Unreadable('too_many', 'Give at most 20 at once.');
  const parts: DeveloperPart[] = [];
  for (const [index, each] of value.entries()) {
    const part = readDeveloper(each);
    if (part instanceof Unreadable) {
      return new Unreadable(part.code, part.detail, `/${index}${part.pointer}`);
    }
    parts.push(part);
  }
  return parts;
}

function readDeveloper(value: unknown): DeveloperPart | Unreadable {
  if (typeof value === 'string') {
    const id = readId(value);
    return id instanceof Unreadable ? id : { productId: id };
  }
  if (typeof value !== 'object' || value === null) {
    return new Unreadable('not_a_developer', 'Give a product id, or {"productId", "share"}.');
  }
  const { productId, share, ...others } = value as Record<string, unknown>;
  const strange = Object.keys(others)[0];
  if (strange !== undefined) {
    return new Unreadable('unknown_field', 'Only productId and share belong here.', `/${strange}`);
  }
  const id = readId(productId);
  if (id instanceof Unreadable) return new Unreadable(id.code, id.detail, '/productId');
  if (share === undefined) return { productId: id };
  const read = readDecimal(share, { min: '0', max: '100000' });
  return read instanceof Unreadable
    ? new Unreadable(read.code, read.detail, '/share')
    : { productId: id, share: read };
}

const developersSchema = {
  type: 'array',
  maxItems: 20,
  items: {
    anyOf: [
      { type: 'string', format: 'uuid' },
      {
        type: 'object',
        required: ['productId'],
        properties: {
          productId: { type: 'string', format: 'uuid' },
          share: { type: 'string' },
        },
        additionalProperties: false,
      },
    ],
  },
};

export class MixPlanRequest {
  @Text({ optional: true, max: 20, example: '1:2', description: 'powder to developer' })
  ratio?: string;

  @OneOf(['weight', 'volume'], { optional: true })
  basis?: RatioBasis;

  @Parts(() => PowderRequest, { max: 12 })
  powders!: PowderRequest[];

  @DecimalNumber({ optional: true, min: '0', max: '1000', description: 'vol', example: '13' })
  strength?: Decimal;

  @Field(readDevelopers, developersSchema, { optional: true })
  developers?: DeveloperPart[];

  @Parts(() => AdditiveRequest, { optional: true, min: 0, max: 12 })
  additives?: AdditiveRequest[];

  @Part(() => SizeRequest)
  size!: SizeRequest;

  @OneOf(['scalp', 'off-scalp'], { optional: true })
  contact?: Contact;
}

/**
 * The request as the arithmetic reads it.
 * @throws MalformedRequest where a size or an additive is stated in no way or in two
 */
export function mixRequestOf(request: MixPlanRequest): MixRequest {
  const { ratio, basis, powders, strength, developers, contact } = request;
  return {
    ratio,
    basis,
    powders,
    strength,
    developers,
    additives: request.additives?.map((additive, index) => additiveOf(additive, index)),
    size: sizeOf(request.size),
    contact,
  };
}

function sizeOf({ total, powder, developer }: SizeRequest): MixRequest['size'] {
  const stated = [
    ...(total ? [{ total }] : []),
    ...(powder ? [{ powder }] : []),
    ...(developer ? [{ developer }] : []),
  ];
  const [size, another] = stated;
  if (size && !another) return size;
  throw new MalformedRequest([
    {
      pointer: '/size',
      code: 'one_size',
      detail: 'Give one size: total, powder or developer.',
    },
  ]);
}

function additiveOf(
  { productId, of, percent, grams, dosesPer, counted }: AdditiveRequest,
  index: number,
): NonNullable<MixRequest['additives']>[number] {
  const base = { productId, counted };
  if (of && percent && !grams && !dosesPer) return { ...base, of, percent };
  if (grams && !percent && !of && !dosesPer) return { ...base, grams };
  if (dosesPer && !percent && !of && !grams) return { ...base, dosesPer };
  throw new MalformedRequest([
    {
      pointer: `/additives/${index}`,
      code: 'one_measure',
      detail: 'Give of and percent, or grams, or dosesPer.',
    },
  ]);
}

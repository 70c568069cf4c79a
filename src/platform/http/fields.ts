/** Decorators for the fields of a request: read strictly, checked, and shown in the OpenAPI. */
import { applyDecorators } from '@nestjs/common';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsObject,
  ValidateBy,
  ValidateIf,
  ValidateNested,
} from 'class-validator';
import type { StockUnit } from '../../../shared/amount.js';
import * as reading from './reading.js';
import type { DecimalBounds } from './reading.js';
import { enterField, type FieldRule, type RequestClass } from './request-class.js';
import { Unreadable } from './unreadable.js';

/** What every field may be besides what it says. */
export interface FieldOptions {
  /** May be left out; give the property an initial value where there is a default. */
  readonly optional?: boolean;
  /** May be null, which empties it (PATCH). */
  readonly nullable?: boolean;
  readonly description?: string;
  readonly example?: unknown;
}

type Bounds = { min?: number; max?: number };

/**
 * Any field: `read` turns the JSON value into what the property holds, or into an Unreadable.
 * @param schema JSON Schema of the field, for the OpenAPI
 */
export function Field(
  read: (value: unknown) => unknown,
  schema: Readonly<Record<string, unknown>>,
  options: FieldOptions = {},
): PropertyDecorator {
  return entered({ value: read }, schema, options, [isReadable()]);
}

/** Text; blanks around it are taken off. */
export function Text(options: FieldOptions & Bounds = {}): PropertyDecorator {
  const { min = 1, max = 200 } = options;
  const schema = { type: 'string', minLength: min, maxLength: max };
  return Field((value) => reading.readText(value, min, max), schema, options);
}

/** A UUID: property of type `string`. */
export function Id(options: FieldOptions = {}): PropertyDecorator {
  return Field(reading.readId, { type: 'string', format: 'uuid' }, options);
}

/** A decimal: property of type `Decimal`. */
export function DecimalNumber(options: FieldOptions & DecimalBounds = {}): PropertyDecorator {
  return Field((value) => reading.readDecimal(value, options), decimalSchema, options);
}

/** A quantity with its unit: property of type `Amount<StockUnit>`. */
export function Quantity(
  options: FieldOptions & DecimalBounds & { units?: StockUnit[] } = {},
): PropertyDecorator {
  const { units = ['g', 'ml', 'piece'], ...others } = options;
  const schema = {
    type: 'object',
    required: ['quantity', 'unit'],
    additionalProperties: false,
    properties: { quantity: decimalSchema, unit: { type: 'string', enum: units } },
    example: { quantity: '60.5', unit: units[0] },
  };
  return Field((value) => reading.readQuantity(value, options, units), schema, others);
}

/** RFC 3339 with offset: property of type `string`, the instant in UTC. */
export function Instant(options: FieldOptions = {}): PropertyDecorator {
  const schema = { type: 'string', format: 'date-time', example: '2026-03-02T09:15:00+00:00' };
  return Field(reading.readInstant, schema, options);
}

/** A day: property of type `string`, "2026-03-02". */
export function Day(options: FieldOptions = {}): PropertyDecorator {
  return Field(reading.readDay, { type: 'string', format: 'date', example: '2026-03-02' }, options);
}

/** A month: property of type `string`, "2026-03". */
export function Month(options: FieldOptions = {}): PropertyDecorator {
  const schema = { type: 'string', pattern: '^\\d{4}-(0[1-9]|1[0-2])$', example: '2026-03' };
  return Field(reading.readMonth, schema, options);
}

/** A whole number: property of type `number`. */
export function Whole(options: FieldOptions & Bounds = {}): PropertyDecorator {
  const { min = 0, max = 1_000_000 } = options;
  const schema = { type: 'integer', minimum: min, maximum: max };
  return Field((value) => reading.readWhole(value, min, max), schema, options);
}

/** True or false: property of type `boolean`. */
export function Flag(options: FieldOptions = {}): PropertyDecorator {
  return Field(reading.readFlag, { type: 'boolean' }, options);
}

/** One of some words: property of their union. */
export function OneOf(words: readonly string[], options: FieldOptions = {}): PropertyDecorator {
  const schema = { type: 'string', enum: [...words] };
  return Field((value) => reading.readOneOf(value, words), schema, options);
}

/** An object of another request class. */
export function Part(type: () => RequestClass, options: FieldOptions = {}): PropertyDecorator {
  return entered({ part: type }, {}, options, [
    IsObject({ message: anObject }),
    ValidateNested({ message: anObject }),
  ]);
}

/** A list of objects of another request class; 1 to 500 unless told. */
export function Parts(
  type: () => RequestClass,
  options: FieldOptions & Bounds = {},
): PropertyDecorator {
  const { min = 1, max = 500 } = options;
  return entered({ parts: type, min, max }, { minItems: min, maxItems: max }, options, [
    IsArray({ message: aList }),
    ArrayMinSize(min, { message: `Give at least ${min}.` }),
    ArrayMaxSize(max, { message: `Give at most ${max} at once.` }),
    ValidateNested({ each: true, message: anObject }),
  ]);
}

/** A list of single values, each read by `read`; 1 to 500 unless told. */
export function Values(
  read: (value: unknown) => unknown,
  items: Readonly<Record<string, unknown>>,
  options: FieldOptions & Bounds = {},
): PropertyDecorator {
  const { min = 1, max = 500 } = options;
  const schema = { type: 'array', items, minItems: min, maxItems: max };
  return Field((value) => readEach(value, read, min, max), schema, options);
}

const decimalSchema = {
  type: 'string',
  pattern: '^-?(0|[1-9]\\d*)(\\.\\d+)?$',
  example: '60.5',
};

const anObject = 'Give an object in braces.';
const aList = 'Give a list in square brackets.';

/** What its reader could make something of. */
function isReadable(): PropertyDecorator {
  return ValidateBy({
    name: 'readable',
    validator: {
      validate: (value: unknown) => value !== undefined && !(value instanceof Unreadable),
      defaultMessage: () => 'This field is needed.',
    },
  });
}

function readEach(value: unknown, read: (one: unknown) => unknown, min: number, max: number) {
  if (!Array.isArray(value)) return new Unreadable('not_a_list', aList);
  if (value.length < min) return new Unreadable('too_few', `Give at least ${min}.`);
  if (value.length > max) return new Unreadable('too_many', `Give at most ${max} at once.`);
  const all: unknown[] = value.map(read);
  const index = all.findIndex((one) => one instanceof Unreadable);
  if (index < 0) return all;
  const bad = all[index] as Unreadable;
  return new Unreadable(bad.code, bad.detail, `/${index}${bad.pointer}`);
}

function entered(
  holds: FieldRule['holds'],
  schema: FieldRule['schema'],
  { optional = false, nullable = false, description, example }: FieldOptions,
  checks: readonly PropertyDecorator[],
): PropertyDecorator {
  const told = {
    ...(description === undefined ? {} : { description }),
    ...(example === undefined ? {} : { example }),
    ...(nullable && schema['type'] ? { type: [schema['type'], 'null'] } : {}),
  };
  return applyDecorators(
    (prototype: object, name: string | symbol) => {
      const rule = { name: String(name), optional, nullable, holds };
      enterField(prototype, { ...rule, schema: { ...schema, ...told } });
    },
    ValidateIf((_, value) => !(optional && value === undefined) && !(nullable && value === null)),
    ...checks,
  );
}

/** Reads the plan of a formula: a request to plan a mix, kept as plain text numbers. */
import { canonical } from '../../../shared/decimal.js';
import { parseRatio } from '../../../shared/ratio.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { DecimalBounds } from '../../platform/http/reading.js';
import {
  readDecimal,
  readFlag,
  readId,
  readOneOf,
  readQuantity,
} from '../../platform/http/reading.js';
import { Unreadable } from '../../platform/http/unreadable.js';

/** A request to plan a mix, as it is stored. */
export type FormulaPlan = Record<string, unknown>;

type Read = (value: unknown) => unknown;

/** For the OpenAPI: the shape is that of a mix-plans request. */
export const planSchema = {
  type: 'object',
  description: 'A request to plan a mix: ratio, powders, strength, developers, additives, size.',
  required: ['powders', 'size'],
  additionalProperties: true,
  example: {
    ratio: '1:2',
    powders: [{ productId: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70' }],
    strength: '13',
    size: { total: { quantity: '60', unit: 'g' } },
  },
} as const;

const share: DecimalBounds = { min: '0', max: '100000' };

const text = (bounds: DecimalBounds): Read => {
  return (value) => {
    const read = readDecimal(value, bounds);
    return read instanceof Unreadable ? read : canonical(read);
  };
};

const part = fields({ productId: readId }, { share: text(share) });

const additive = fields(
  { productId: readId },
  {
    of: (value) => readOneOf(value, ['powder', 'developer', 'total']),
    percent: text({ above: '0', max: '100' }),
    grams: text({ above: '0', max: '5000', places: 3 }),
    dosesPer: text({ above: '0', max: '5000' }),
    counted: readFlag,
  },
);

const readPlanFields = fields(
  { powders: list(part, 1, 12), size: oneSize },
  {
    ratio: readRatioText,
    basis: (value) => readOneOf(value, ['weight', 'volume']),
    strength: text({ min: '0', max: '100' }),
    developers: list((value) => (typeof value === 'string' ? readId(value) : part(value)), 0, 12),
    additives: list(oneMeasure, 0, 12),
    contact: (value) => readOneOf(value, ['scalp', 'off-scalp']),
  },
);

/** A formula's plan, or where in it something cannot be read. */
export function readFormulaPlan(value: unknown): FormulaPlan | Unreadable {
  return readPlanFields(value) as FormulaPlan | Unreadable;
}

/** Ids of all products that a plan names, with their pointers. */
export function productsOfPlan(plan: FormulaPlan): { id: string; pointer: string }[] {
  return ['powders', 'developers', 'additives'].flatMap((side) =>
    ((plan[side] ?? []) as (string | { productId: string })[]).map((each, index) =>
      typeof each === 'string'
        ? { id: each, pointer: `/${side}/${index}` }
        : { id: each.productId, pointer: `/${side}/${index}/productId` },
    ),
  );
}

function oneSize(value: unknown): unknown {
  const size = fields(
    {},
    { total: quantity(['g']), powder: quantity(['g']), developer: quantity(['g', 'ml']) },
  )(value);
  if (size instanceof Unreadable || Object.keys(size as object).length === 1) return size;
  return new Unreadable('one_size', 'Give one size: total, powder or developer.');
}

function oneMeasure(value: unknown): unknown {
  const read = additive(value);
  if (read instanceof Unreadable) return read;
  const { of, percent, grams, dosesPer } = read as Record<string, unknown>;
  const stated = [percent, grams, dosesPer].filter((each) => each !== undefined).length;
  if (stated === 1 && (of === undefined) === (percent === undefined)) return read;
  return new Unreadable('one_measure', 'Give of and percent, or grams, or dosesPer.');
}

function quantity(units: ('g' | 'ml')[]): Read {
  return (value) => {
    const read = readQuantity(value, { above: '0', max: '5000' }, units);
    return read instanceof Unreadable ? read : { quantity: canonical(read.value), unit: read.unit };
  };
}

function readRatioText(value: unknown): string | Unreadable {
  try {
    parseRatio(String(value));
    return String(value);
  } catch (error) {
    if (error instanceof Problem) return new Unreadable(error.code as string, error.message);
    throw error;
  }
}

function list(read: Read, min: number, max: number): Read {
  return (value) => {
    if (!Array.isArray(value) || value.length < min || value.length > max) {
      return new Unreadable('not_a_list', `Give a list of ${min} to ${max} in square brackets.`);
    }
    const all: unknown[] = value.map(read);
    const bad = all.findIndex((each) => each instanceof Unreadable);
    return bad < 0 ? all : further(all[bad] as Unreadable, `/${bad}`);
  };
}

function fields(needed: Record<string, Read>, optional: Record<string, Read>): Read {
  const known = { ...needed, ...optional };
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      return new Unreadable('not_an_object', 'Give an object in braces.');
    }
    const missing = Object.keys(needed).find((name) => !(name in value));
    if (missing) return new Unreadable('missing', 'This field is needed.', `/${missing}`);
    const read: Record<string, unknown> = {};
    for (const [name, given] of Object.entries(value)) {
      const reader = Object.hasOwn(known, name) ? known[name] : undefined;
      if (!reader)
        return new Unreadable('unknown_field', `There is no "${name}" here.`, `/${name}`);
      const one = reader(given);
      if (one instanceof Unreadable) return further(one, `/${name}`);
      read[name] = one;
    }
    return read;
  };
}

function further({ code, detail, pointer }: Unreadable, step: string): Unreadable {
  return new Unreadable(code, detail, `${step}${pointer}`);
}

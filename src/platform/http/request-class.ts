/** Request classes: which fields they have, and reading JSON into them, strictly. */
import { pointerStep, Unreadable, type FieldError } from './unreadable.js';

/** One field of a request class. */
export interface FieldRule {
  readonly name: string;
  readonly optional: boolean;
  readonly nullable: boolean;
  /** How its value is read: as one value, as an object of a class, or as a list of those. */
  readonly holds:
    | { readonly value: (value: unknown) => unknown }
    | { readonly part: () => RequestClass }
    | { readonly parts: () => RequestClass; readonly min: number; readonly max: number };
  /** JSON Schema of the field, where it is one value. */
  readonly schema: Readonly<Record<string, unknown>>;
}

export type RequestClass<T extends object = object> = new () => T;

const ownRules = new Map<object, FieldRule[]>();
const allRules = new Map<object, ReadonlyMap<string, FieldRule>>();

/** Enters a field of the class with this prototype; what the decorators of fields.ts do. */
export function enterField(prototype: object, rule: FieldRule): void {
  ownRules.set(prototype, [...(ownRules.get(prototype) ?? []), rule]);
}

/** Every class that has fields, with those of its own. */
export function requestClasses(): ReadonlyMap<object, readonly FieldRule[]> {
  return ownRules;
}

/** The fields of a class, those of the classes it extends first; none for other classes. */
export function rulesOf(type: RequestClass): ReadonlyMap<string, FieldRule> {
  const known = allRules.get(type);
  if (known) return known;
  const rules = new Map<string, FieldRule>();
  const line: object[] = [];
  for (let at: unknown = type.prototype; isObject(at); at = Object.getPrototypeOf(at))
    line.push(at);
  for (const prototype of line.reverse()) {
    for (const rule of ownRules.get(prototype) ?? []) rules.set(rule.name, rule);
  }
  allRules.set(type, rules);
  return rules;
}

/**
 * Reads a JSON object into a request class: unknown fields, missing ones and unreadable ones are
 * all added to `errors`, and then what is returned is not to be used.
 */
export function readObject<T extends object>(
  type: RequestClass<T>,
  value: unknown,
  at: string,
  errors: FieldError[],
): T {
  const request = new type();
  if (!isObject(value) || Array.isArray(value)) {
    errors.push({ pointer: at, code: 'not_an_object', detail: 'Give an object in braces.' });
    return request;
  }
  const rules = rulesOf(type);
  for (const name of Object.keys(value)) {
    if (!rules.has(name)) errors.push(unknownField(name, at));
  }
  const fields = value as Record<string, unknown>;
  for (const rule of rules.values()) {
    const given = Object.hasOwn(fields, rule.name) ? fields[rule.name] : undefined;
    const pointer = at + pointerStep(rule.name);
    if (given !== undefined) {
      (request as Record<string, unknown>)[rule.name] = readField(rule, given, pointer, errors);
    } else if (!rule.optional) {
      errors.push({ pointer, code: 'missing', detail: 'This field is needed.' });
    }
  }
  return request;
}

function readField(rule: FieldRule, given: unknown, pointer: string, errors: FieldError[]) {
  if (given === null && rule.nullable) return null;
  const { holds } = rule;
  if ('part' in holds) return readObject(holds.part(), given, pointer, errors);
  if ('parts' in holds) {
    const wrong = lengthError(given, holds.min, holds.max);
    if (wrong) return void errors.push({ pointer, ...wrong });
    const type = holds.parts();
    return (given as unknown[]).map((one, index) =>
      readObject(type, one, `${pointer}/${index}`, errors),
    );
  }
  const read = holds.value(given);
  if (!(read instanceof Unreadable)) return read;
  return void errors.push({
    pointer: pointer + read.pointer,
    code: read.code,
    detail: read.detail,
  });
}

/** What is wrong with a list as such; undefined when nothing is. */
export function lengthError(
  given: unknown,
  min: number,
  max: number,
): Omit<FieldError, 'pointer'> | undefined {
  if (!Array.isArray(given)) {
    return { code: 'not_a_list', detail: 'Give a list in square brackets.' };
  }
  if (given.length < min) return { code: 'too_few', detail: `Give at least ${min}.` };
  if (given.length > max) return { code: 'too_many', detail: `Give at most ${max} at once.` };
  return undefined;
}

function unknownField(name: string, at: string): FieldError {
  return {
    pointer: at + pointerStep(name),
    code: 'unknown_field',
    detail: `There is no field "${name}" here. Leave it out, or look at /api for its name.`,
  };
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

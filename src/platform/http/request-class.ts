/** Request classes: which fields they have, and reading JSON into them, strictly. */

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
 * A JSON object as its request class: every field read, what cannot be read in its place as an
 * Unreadable, what does not belong there left as it is. Whether it may stand is judged by the
 * class's decorators; what is no object, or no list, is handed through for them to say so.
 */
export function readObject<T extends object>(type: RequestClass<T>, value: unknown): unknown {
  if (!isObject(value) || Array.isArray(value)) return value;
  const rules = rulesOf(type);
  const request = new type() as Record<string, unknown>;
  for (const [name, given] of Object.entries(value)) {
    if (given === undefined) continue;
    const rule = rules.get(name);
    request[name] = rule ? readField(rule, given) : given;
  }
  return request;
}

function readField({ holds, nullable }: FieldRule, given: unknown): unknown {
  if (given === null && nullable) return null;
  if ('part' in holds) return readObject(holds.part(), given);
  if ('parts' in holds) {
    return Array.isArray(given) ? given.map((one) => readObject(holds.parts(), one)) : given;
  }
  return holds.value(given);
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

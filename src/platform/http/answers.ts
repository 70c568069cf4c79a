/** Describes a call's answer in the OpenAPI from one full example of it. */

/** How a call is shown in the OpenAPI. */
export interface CallDescription {
  /** What it does, in a few words. */
  readonly summary: string;
  /** 200 unless told; POST that creates: 201. */
  readonly status?: number;
  /**
   * A full answer: every field that there can be, and at least one item in every list. Left out
   * where there is no content (204).
   */
  readonly example?: unknown;
  /** Pointers of fields that may be missing, such as "/cost" or "/items/reorderPoint". */
  readonly optional?: readonly string[];
  /** Pointers of fields that may be null. */
  readonly nullable?: readonly string[];
  /** Where it answers as CSV too when asked so: such an answer. */
  readonly csv?: string;
  /** Where it answers as PDF too, or only so. */
  readonly pdf?: true;
  /** Pointers of objects whose fields are not known beforehand. */
  readonly free?: readonly string[];
}

/** A described call: the method of a controller. */
export interface DescribedCall {
  readonly prototype: object;
  readonly method: string;
  readonly description: CallDescription;
}

const calls: DescribedCall[] = [];
const tags = new Map<object, string>();

/** Shows a call in the OpenAPI; the schema of its answer is worked out from the example. */
export function Call(description: CallDescription): MethodDecorator {
  return (prototype, method) => {
    calls.push({ prototype, method: String(method), description });
  };
}

/** The heading under which the calls of a controller are shown. */
export function Tag(name: string): ClassDecorator {
  return (type) => {
    tags.set(type, name);
  };
}

/** Everything described so far, for the OpenAPI. */
export function describedCalls(): {
  readonly calls: readonly DescribedCall[];
  readonly tags: ReadonlyMap<object, string>;
} {
  return { calls, tags };
}

type Schema = Record<string, unknown>;

/** JSON Schema of everything shaped like the example; list items share their first one's shape. */
export function schemaOf(description: CallDescription): Schema {
  return shape(description.example, '', description);
}

function shape(value: unknown, at: string, description: CallDescription): Schema {
  const plain = plainShape(value, at, description);
  if (!description.nullable?.includes(at)) return plain;
  return { ...plain, type: [plain['type'], 'null'] };
}

function plainShape(value: unknown, at: string, description: CallDescription): Schema {
  if (value === null) return { type: 'null' };
  if (Array.isArray(value)) {
    return { type: 'array', items: value.length > 0 ? shape(value[0], at, description) : {} };
  }
  if (typeof value === 'object') return objectShape(value as Schema, at, description);
  if (typeof value === 'number') return { type: Number.isInteger(value) ? 'integer' : 'number' };
  return { type: typeof value };
}

function objectShape(value: Schema, at: string, description: CallDescription): Schema {
  if (description.free?.includes(at)) return { type: 'object', additionalProperties: true };
  const names = Object.keys(value);
  return {
    type: 'object',
    additionalProperties: false,
    required: names.filter((name) => !description.optional?.includes(`${at}/${name}`)),
    properties: Object.fromEntries(
      names.map((name) => [name, shape(value[name], `${at}/${name}`, description)]),
    ),
  };
}

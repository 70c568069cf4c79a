/** Holds every answer of the running service against its own OpenAPI document. */
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';

interface Operation {
  readonly responses: Record<string, { content?: Record<string, { schema: object }> }>;
}

interface Document {
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: object;
}

/** Says what is wrong with an answer, for one service. */
export class Description {
  private document: Promise<Document> | undefined;
  private readonly known = new Map<string, ValidateFunction>();
  private readonly ajv = formats.default(new Ajv2020({ strict: false, allErrors: true }));

  constructor(private readonly origin: string) {}

  /** @throws Error when the call or the answer is not as it is described */
  async check(method: string, path: string, status: number, type: string, body: unknown) {
    if (path === '/api/v1/openapi.json' || /^\/api(\/page\/.*)?$/.test(path)) return;
    this.document ??= fetch(`${this.origin}/api/v1/openapi.json`).then(
      (response) => response.json() as Promise<Document>,
    );
    const document = await this.document;
    const template = templateOf(document, method, path);
    if (template === undefined) {
      if (status === 404 || status === 400) return;
      throw new Error(`${method} ${path} answers ${status}, but is not in the OpenAPI.`);
    }
    const validate = this.validator(document, template, method, status, type);
    if (status === 204 || validate(body)) return;
    throw new Error(
      `${method} ${path} -> ${status} is not as the OpenAPI says:\n` +
        `${this.ajv.errorsText(validate.errors, { separator: '\n' })}\n${JSON.stringify(body)}`,
    );
  }

  private validator(
    document: Document,
    template: string,
    method: string,
    status: number,
    type: string,
  ): ValidateFunction {
    const key = `${method} ${template} ${status} ${type}`;
    const known = this.known.get(key);
    if (known) return known;
    const { responses } = document.paths[template]?.[method.toLowerCase()] ?? { responses: {} };
    const response = responses[String(status)] ?? (status >= 400 ? responses['default'] : {});
    const schema = response?.content?.[type.split(';')[0] ?? '']?.schema;
    if (!schema && status !== 204) {
      throw new Error(`${method} ${template} describes no answer ${status} of ${type}.`);
    }
    const whole = { ...schema, components: document.components };
    const validate = this.ajv.compile(whole);
    this.known.set(key, validate);
    return validate;
  }
}

function templateOf(document: Document, method: string, path: string): string | undefined {
  const steps = (path.split('?')[0] ?? '').split('/');
  const fits = (template: string) => {
    const parts = template.split('/');
    return (
      parts.length === steps.length &&
      parts.every((part, index) => part.startsWith('{') || part === steps[index])
    );
  };
  return Object.keys(document.paths)
    .filter((template) => document.paths[template]?.[method.toLowerCase()] && fits(template))
    .sort((a, b) => a.split('{').length - b.split('{').length)[0];
}

/** The OpenAPI document: valid, complete, with an example of every answer, and to be browsed. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { aService, type TestService } from '../support/studio.js';

interface Operation {
  readonly summary?: string;
  readonly tags?: string[];
  readonly requestBody?: { content: Record<string, { schema: { $ref: string } }> };
  readonly responses: Record<string, { content?: Record<string, Content> }>;
}
interface Content {
  readonly schema: object;
  readonly example?: unknown;
}
interface Document {
  readonly openapi: string;
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: { schemas: Record<string, { properties?: object; required?: string[] }> };
}

let service: TestService;
let document: Document;
let operations: [string, Operation][];
beforeAll(async () => {
  service = await aService();
  document = await service.nobody.get<Document>('/openapi.json');
  operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]): [string, Operation] => [
      `${method.toUpperCase()} ${path}`,
      operation,
    ]),
  );
});
afterAll(() => service.close());

test('it is OpenAPI 3.1', () => expect(document.openapi).toBe('3.1.0'));

test('every call says what it does, under a heading', () => {
  expect(operations.length).toBeGreaterThan(20);
  const bare = operations.filter(([, { summary, tags }]) => !summary || !tags?.length);
  expect(bare.map(([name]) => name)).toEqual([]);
});

test('every answer with content has an example that fits its own schema', () => {
  const ajv = new Ajv2020({ strict: false });
  for (const [name, { responses }] of operations) {
    for (const [status, { content = {} }] of Object.entries(responses)) {
      if (status === 'default' || status === '204') continue;
      const examples = Object.entries(content);
      expect({ name, status, contents: examples.length }).not.toHaveProperty('contents', 0);
      for (const [type, { schema, example }] of examples) {
        if (type !== 'application/json') continue;
        expect({ name, status, hasExample: example !== undefined }).toHaveProperty(
          'hasExample',
          true,
        );
        expect(ajv.validate(schema, example)).toBe(true);
      }
    }
  }
});

test('every body is described by its fields, needed ones marked', () => {
  const bodies = operations.flatMap(([, { requestBody }]) =>
    requestBody ? [requestBody.content['application/json']?.schema.$ref ?? ''] : [],
  );
  expect(bodies.length).toBeGreaterThan(5);
  for (const ref of bodies) {
    const schema = document.components.schemas[ref.replace('#/components/schemas/', '')];
    expect(Object.keys(schema?.properties ?? {}).length).toBeGreaterThan(0);
  }
  const { required } = document.components.schemas['SignInRequest'] ?? {};
  expect(required?.sort()).toEqual(['personId', 'pin']);
});

test('every reference leads somewhere', () => {
  const text = JSON.stringify(document);
  const names = [...text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(([, name]) => name);
  for (const name of names) expect(document.components.schemas).toHaveProperty([name ?? '']);
});

test('it can be browsed, also without the internet', async () => {
  const page = await service.nobody.ask<string>('GET', '//api');
  expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
  const files = [...page.body.matchAll(/(?:href|src)="([^"]+)"/g)].map(([, file]) => file ?? '');
  expect(files).toHaveLength(2);
  for (const file of files) {
    expect((await service.nobody.ask('GET', `/${file}`)).status).toBe(200);
  }
});

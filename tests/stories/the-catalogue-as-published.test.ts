/** Answers about the catalogue, full and bare, fit the schemas that the OpenAPI publishes. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { randomUUID } from 'node:crypto';
import type { Client } from '../support/client.js';
import { aStudio, type TestStudio } from '../support/studio.js';

type Responses = Record<string, { content: { 'application/json': { schema: object } } }>;
type Paths = Record<string, Record<string, { responses: Responses }>>;

let studio: TestStudio;
let paths: Paths;
beforeAll(async () => {
  studio = await aStudio();
  ({ paths } = await studio.owner.get<{ paths: Paths }>('/openapi.json'));
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const ajv = new Ajv2020({ strict: false });

/** Asks, and holds the answer against the schema of the call; ids in its address are {id}. */
async function asks(
  client: Client,
  method: 'GET' | 'POST' | 'PATCH',
  path: string,
  body?: object,
): Promise<{ id: string }> {
  const { status, body: answer } = await client.ask<{ id: string }>(method, path, body);
  const call = `/api/v1${path.replace(/\?.*/, '').replace(/\/[0-9a-f-]{36}/g, '/{id}')}`;
  const known = Object.entries(paths).find(([each]) => each.replace(/\{\w+\}/g, '{id}') === call);
  const { responses } = known?.[1][method.toLowerCase()] ?? { responses: {} };
  const schema = responses[status]?.content['application/json'].schema;
  if (!schema) throw new Error(`${method} ${path} -> ${status} ${JSON.stringify(answer)}`);
  const fits = ajv.validate(schema, answer);
  const errors = fits ? [] : ajv.errors;
  expect({ call, errors, answer: fits ? '' : answer }).toEqual({ call, errors: [], answer: '' });
  return answer;
}

const pack = { label: 'bottle', quantity: '1000' };
const fullPack = {
  ...pack,
  ...{ gtin: '5901234123457', orderCode: 'HW-1', listPrice: '9.8' },
  emptyWeight: { quantity: '61', unit: 'g' },
};

test.each([
  ['suppliers', { name: 'Quay' }, { leadTimeDays: 3, minimumOrder: '150', orderDay: 1 }],
  ['services', { name: 'Gloss', price: '30' }, { inThePrice: [{ kind: 'toner', bowls: '1' }] }],
  [
    'vessels',
    { label: 'black', tare: { quantity: '110', unit: 'g' } },
    { mark: 'triangle', brush: { quantity: '20', unit: 'g' } },
  ],
  ['purposes', { name: 'front' }, { name: 'roots' }],
  [
    'products',
    { name: 'A', kind: 'developer', unit: 'ml', strength: '20', packs: [pack] },
    { line: 'Tidewater', dose: { quantity: '4', unit: 'ml' }, packs: [fullPack] },
  ],
])('%s', async (what, bare, full) => {
  const { id } = await asks(studio.manager, 'POST', `/${what}`, bare);
  await asks(studio.manager, 'GET', `/${what}`);
  await asks(studio.manager, 'PATCH', `/${what}/${id}`, full);
  await asks(studio.manager, 'GET', `/${what}/${id}`);
  if (what !== 'suppliers') await asks(studio.bench, 'GET', `/${what}/${id}`);
  await asks(studio.manager, 'POST', `/${what}/${id}/retire`);
  await asks(studio.manager, 'GET', `/${what}?retired=true`);
});

test('many products', async () => {
  const products = [{ name: 'B', kind: 'care', unit: 'g', packs: [{ ...pack, unit: 'ml' }] }];
  await asks(studio.manager, 'POST', '/products/many', { products });
  await asks(studio.manager, 'POST', '/products/many?dry=true', { products });
});

test('clients, their tests, formulas and bowls', async () => {
  const { id } = await asks(studio.stylist, 'POST', '/clients', {});
  const tests = `/clients/${id}/sensitivity-tests`;
  await asks(studio.manager, 'GET', `/clients/${id}`);
  const placed = { line: 'Tidewater', placedAt: '2026-03-01T09:00:00Z' };
  const test = await asks(studio.manager, 'POST', tests, placed);
  await asks(studio.manager, 'GET', tests);
  await asks(studio.manager, 'GET', `/clients/${id}`);
  const read = { readAt: '2026-03-02T08:00:00Z', result: 'no reaction' };
  await asks(studio.manager, 'PATCH', `${tests}/${test.id}`, read);
  const hair = { name: 'Ada Brook', hairLength: 'long', sixteenOrOlder: true };
  await asks(studio.stylist, 'PATCH', `/clients/${id}`, hair);
  await asks(studio.stylist, 'GET', '/clients');
  const visit = { clientId: id, services: [], startedAt: '2026-03-02T08:30:00Z' };
  await visits(visit.clientId, visit.startedAt);
  await asks(studio.bench, 'GET', '/clients');
  await asks(studio.bench, 'GET', `/clients/${id}/bowls`);

  const { id: productId } = await asks(studio.manager, 'POST', '/products', {
    ...{ name: 'C', kind: 'toner', unit: 'g' },
  });
  const plan = { powders: [{ productId }], size: { total: { quantity: '30', unit: 'g' } } };
  const own = await asks(studio.stylist, 'POST', '/formulas', { name: 'Gloss', plan });
  await asks(studio.stylist, 'POST', '/formulas', { name: 'Gloss', plan, clientId: id });
  await asks(studio.stylist, 'PATCH', `/formulas/${own.id}`, { poured: plan, nextTime: 'cool' });
  await asks(studio.bench, 'GET', '/formulas');
  await asks(studio.bench, 'GET', `/formulas?clientId=${id}`);
  await asks(studio.stylist, 'POST', `/formulas/${own.id}/retire`);
  await asks(studio.manager, 'POST', `/clients/${id}/retire`);
  await asks(studio.manager, 'POST', `/clients/${id}/forget`);
});

async function visits(clientId: string, startedAt: string): Promise<void> {
  await studio.service.database.asOwner(
    `insert into visit (studio_id, id, client_id, started_at, recorded_at)
     values ($1, $2, $3, $4, $4)`,
    [studio.id, randomUUID(), clientId, startedAt],
  );
}

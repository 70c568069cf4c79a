/** What the database itself refuses, whoever asks: changes, other studios, impossible rows. */
import { randomUUID } from 'node:crypto';
import { DataSource } from 'typeorm';
import { forStudio } from '../../src/platform/database/transaction.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aService, type TestService, type TestStudio } from '../support/studio.js';

let service: TestService;
let here: TestStudio;
let elsewhere: TestStudio;
let toner: ShelfStory;
const database = () => service.app.get(DataSource);

beforeAll(async () => {
  service = await aService();
  service.clock.set('2026-03-12T20:00:00Z');
  [here, elsewhere] = [await service.studio(), await service.studio({ name: 'Elsewhere' })];
  toner = await ShelfStory.of(here);
  await toner.deliver('100', '10', '2026-03-01');
  await toner.count('90', '2026-03-02T18:00:00Z');
});
afterAll(() => service.close());

/** SQLSTATE of what the service is refused. */
async function stateOf(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    const { code, driverError } = error as { code?: string; driverError?: { code?: string } };
    return code ?? driverError?.code ?? String(error);
  }
  return 'not refused';
}

const asService = (sql: string, values: unknown[] = []) =>
  stateOf(forStudio(database(), here.id).query(sql, values));
const asOwner = (sql: string) => stateOf(service.database.asOwner(sql));

const insufficientPrivilege = '42501';
const restrictViolation = '23001';
const checkViolation = '23514';

describe.each(['movement', 'journal', 'lot'])('%s', (table) => {
  test('cannot be changed by the service', async () => {
    expect(await asService(`update ${table} set journal_id = null`)).toMatch(/42501|42703/);
    expect(await asService(`update ${table} set studio_id = studio_id`)).toBe(
      insufficientPrivilege,
    );
    expect(await asService(`delete from ${table}`)).toBe(insufficientPrivilege);
    expect(await asService(`truncate ${table} cascade`)).toBe(insufficientPrivilege);
  });

  test('nor by the owner, not even where no row is touched', async () => {
    expect(await asOwner(`update ${table} set studio_id = studio_id where false`)).toBe(
      restrictViolation,
    );
    expect(await asOwner(`delete from ${table} where false`)).toBe(restrictViolation);
    expect(await asOwner(`truncate ${table} cascade`)).toBe(restrictViolation);
  });
});

test.each(['product_holding', 'lot_holding', 'pour_holding', 'monthly_flow'])(
  'the service cannot set %s itself',
  async (table) => {
    const column = table === 'product_holding' ? 'shelf_quantity' : 'quantity';
    expect(await asService(`update ${table} set ${column} = ${column} + 1`)).toBe(
      insufficientPrivilege,
    );
    expect(await asService(`delete from ${table}`)).toBe(insufficientPrivilege);
  },
);

test('another studio sees nothing of it and cannot name it', async () => {
  for (const path of ['/movements', '/lots', '/deliveries', '/shelf']) {
    expect((await elsewhere.manager.get<{ items: unknown[] }>(path)).items).toEqual([]);
  }
  const use = { productId: toner.productId, quantity: '5', unit: 'g' };
  const foreign = [
    ['/uses', { usedAt: '2026-03-12T11:00:00Z', lines: [use] }],
    ['/deliveries', { deliveredOn: '2026-03-10', lines: [{ ...use, unit: undefined }] }],
    ['/counts', { countedAt: '2026-03-12T11:00:00Z', lines: [counted('5')] }],
  ] as const;
  for (const [path, body] of foreign) {
    expect((await elsewhere.manager.ask('POST', path, body)).status).toBe(404);
  }
  const { items } = await here.manager.get<{ items: { id: string }[] }>('/movements');
  for (const { id } of items) {
    const answer = await elsewhere.manager.ask('POST', `/movements/${id}/reversal`, {});
    expect(answer.status).toBe(404);
  }
  expect(await toner.holds()).toBe('90 for 9.000000');
});

test('a query that forgets the studio sees only its own, and can write no other', async () => {
  const rows = await forStudio(database(), elsewhere.id).query('select * from movement');
  expect(rows).toEqual([]);
  const stranger = stateOf(
    forStudio(database(), elsewhere.id).query(
      `insert into journal (studio_id, id, kind, happened_at, recorded_at)
       values ($1, $2, 'use', now(), now())`,
      [here.id, randomUUID()],
    ),
  );
  expect(await stranger).toBe(insufficientPrivilege);
});

/** A movement that the service would write, with something wrong in it. */
async function movement(change: Record<string, string>): Promise<string> {
  const row: Record<string, string> = {
    studio_id: `'${here.id}'`,
    id: 'gen_random_uuid()',
    journal_id: 'j.id',
    journal_kind: `'use'`,
    product_id: 'l.product_id',
    lot_id: 'l.id',
    from_place: `'shelf'`,
    to_place: `'head'`,
    quantity: '1',
    value: '0.1',
    happened_at: 'now()',
    happened_on: 'current_date',
    recorded_at: 'now()',
    ...change,
  };
  return asService(
    `insert into movement (${Object.keys(row).join(', ')})
     select ${Object.values(row).join(', ')} from lot l, journal j
      where l.source = 'delivery' and j.kind = 'delivery' limit 1`,
  );
}

test.each([
  { wrong: 'more than the lot holds', change: { quantity: '91', value: '9' } },
  { wrong: 'all of its quantity and not all of its value', change: { quantity: '90' } },
  { wrong: 'more than its value', change: { value: '9.000001' } },
  { wrong: 'nothing at all', change: { quantity: '0' } },
  { wrong: 'a negative quantity', change: { quantity: '-1' } },
  { wrong: 'a negative value', change: { value: '-1' } },
  { wrong: 'from a place to itself', change: { to_place: `'shelf'` } },
  { wrong: 'a place that is none', change: { to_place: `'drawer'` } },
  { wrong: 'a way that its kind does not go', change: { journal_kind: `'pour'` } },
  { wrong: 'a bowl without saying which', change: { journal_kind: `'pour'`, to_place: `'bowl'` } },
  { wrong: 'undoing without being a reversal', change: { reverses_id: 'gen_random_uuid()' } },
])('a movement of $wrong is refused', async ({ change }) => {
  expect(await movement(change as Record<string, string>)).toBe(checkViolation);
});

test('a movement of a lot of another product, or of no journal, is refused', async () => {
  const foreignKey = '23503';
  expect(await movement({ lot_id: 'gen_random_uuid()' })).toBe(foreignKey);
  expect(await movement({ journal_id: 'gen_random_uuid()' })).toBe(foreignKey);
});

test('the same movement with nothing wrong in it is taken', async () => {
  expect(await movement({})).toBe('not refused');
  expect(await toner.holds()).toBe('89 for 8.900000');
});

test('unit, kind and costing method are fixed by the first movement', async () => {
  const product = `where id = '${toner.productId}'`;
  expect(await asService(`update product set unit = 'ml' ${product}`)).toBe(restrictViolation);
  expect(await asService(`update product set kind = 'care' ${product}`)).toBe(restrictViolation);
  expect(await asService(`update studio set costing_method = 'average'`)).toBe(restrictViolation);
  expect(await asService(`update product set name = 'Toner, renamed' ${product}`)).toBe(
    'not refused',
  );
});

function counted(quantity: string) {
  return { productId: toner.productId, counted: { quantity, unit: 'g' } };
}

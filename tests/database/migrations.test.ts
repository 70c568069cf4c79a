/** The schema's steps: all entered, all guarded, run once, never on a newer schema. */
import { readdirSync } from 'node:fs';
import { openDataSource } from '../../src/platform/database/data-source.js';
import { migrate, stepsDue } from '../../src/platform/database/migrate.js';
import { schemaSteps } from '../../src/schema.js';
import { testDatabase, type TestDatabase } from '../support/database.js';

let database: TestDatabase;
beforeAll(async () => (database = await testDatabase()));
afterAll(() => database.close());

test('every file of migrations/ is a step, in order', () => {
  const numbers = readdirSync('migrations').map((file) => file.slice(0, 4));
  expect(schemaSteps.map((step) => step.name.slice(-4))).toEqual(numbers.sort());
});

test('an up-to-date database has nothing due, and a second run does nothing', async () => {
  const owner = await openDataSource(database.connection, { asService: false, size: 1 });
  expect(await stepsDue(owner, schemaSteps)).toEqual([]);
  expect(await migrate(owner, schemaSteps)).toEqual([]);
  await owner.destroy();
});

test('a database used by a newer program is refused', async () => {
  const owner = await openDataSource(database.connection, { asService: false, size: 1 });
  await expect(migrate(owner, schemaSteps.slice(0, -1))).rejects.toThrow(/newer Bowlworth/);
  await owner.destroy();
});

test('two copies that start together run every step once', async () => {
  const steps = [...schemaSteps, slow('Slow0998'), slow('Slow0999')];
  const owners = await Promise.all(
    [1, 2].map(() => openDataSource(database.connection, { asService: false, size: 1 })),
  );
  const ran = await Promise.all(owners.map((owner) => migrate(owner, steps)));
  expect(ran.flat().sort()).toEqual(['Slow0998', 'Slow0999']);
  await Promise.all(owners.map((owner) => owner.destroy()));
});

function slow(name: string) {
  return {
    name,
    up: async (runner: { query(sql: string): Promise<unknown> }) => {
      await runner.query(`select pg_sleep(0.1); create table ${name.toLowerCase()} (a int)`);
    },
    down: () => Promise.resolve(),
  };
}

test('every table of a studio leads its keys with the studio and is guarded, forced', async () => {
  const tables = await database.asOwner<{ name: string; guarded: boolean; leads: boolean }>(`
    select c.relname as name, c.relrowsecurity and c.relforcerowsecurity as guarded,
      not exists (
        select from pg_index i
        join pg_attribute a on a.attrelid = c.oid and a.attnum = i.indkey[0]
        where i.indrelid = c.oid and i.indisunique and a.attname <> 'studio_id') as leads
    from pg_class c
    where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace
      and exists (select from pg_attribute a where a.attrelid = c.oid
                  and a.attname = 'studio_id' and not a.attisdropped)
    order by 1`);
  expect(tables.length).toBeGreaterThan(5);
  expect(tables.filter((table) => !table.guarded || !table.leads)).toEqual([]);
});

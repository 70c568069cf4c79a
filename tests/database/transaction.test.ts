/** Transactions on one studio's rows: kept apart, repeated when they must be, rolled back dry. */
import { randomUUID } from 'node:crypto';
import { inTransaction, forStudio, prepared } from '../../src/platform/database/transaction.js';
import { testDatabase, type TestDatabase } from '../support/database.js';

let database: TestDatabase;
const here = randomUUID();
const elsewhere = randomUUID();
const names = prepared('select name from person order by name');

beforeAll(async () => {
  database = await testDatabase({ size: 2 });
  for (const studio of [here, elsewhere]) {
    await inTransaction(database.dataSource, studio, async (tx) => {
      await tx.query(
        `insert into studio (studio_id, name, currency, time_zone)
         values ($1, 'Saltmarsh Row', 'EUR', 'Europe/Lisbon')`,
        [studio],
      );
    });
  }
});
afterAll(() => database.close());

const add = `insert into person (studio_id, id, name, role) values ($1, $2, $3, 'stylist')`;
const namesIn = async (studio: string) =>
  (await forStudio(database.dataSource, studio).query<{ name: string }>(names)).map((r) => r.name);

test('the service is neither owner nor superuser', async () => {
  const [row] = await forStudio(database.dataSource, here).query<{ role: string; super: boolean }>(
    `select current_user as role, rolsuper as super from pg_roles where rolname = current_user`,
  );
  expect(row).toEqual({ role: 'bowlworth_service', super: false });
});

test('a studio does not see, and cannot write, the rows of another', async () => {
  await inTransaction(database.dataSource, here, async (tx) => {
    await tx.execute(add, [here, randomUUID(), 'Wren']);
  });
  expect(await namesIn(here)).toEqual(['Wren']);
  expect(await namesIn(elsewhere)).toEqual([]);
  await expect(
    inTransaction(database.dataSource, elsewhere, (tx) =>
      tx.execute(add, [here, randomUUID(), 'Stranger']),
    ),
  ).rejects.toThrow(/row-level security/);
  expect(await namesIn(here)).toEqual(['Wren']);
});

test('many studios share few connections without mixing', async () => {
  const asked = Array.from({ length: 200 }, (_, index) => (index % 3 ? elsewhere : here));
  const seen = await Promise.all(
    asked.map((studio) =>
      inTransaction(database.dataSource, studio, async (tx) => {
        const [row] = await tx.query<{ id: string }>(`select current_studio()::text as id`);
        if (row?.id !== studio) return 'mixed';
        const counted = await tx.query(names);
        if (Math.random() < 0.3) throw new Error('undo');
        return counted.length === (studio === here ? 1 : 0) ? 'right' : 'wrong rows';
      }).catch((error: Error) => error.message),
    ),
  );
  expect(new Set(seen)).toEqual(new Set(['right', 'undo']));
});

test('an error undoes everything and the connection is good again', async () => {
  await expect(
    inTransaction(database.dataSource, here, async (tx) => {
      await tx.execute(add, [here, randomUUID(), 'Undone']);
      await tx.query('select 1 / 0');
    }),
  ).rejects.toThrow(/division by zero/);
  expect(await namesIn(here)).toEqual(['Wren']);
});

test('a dry run sees its own writes, checks what a commit checks, and leaves nothing', async () => {
  const dry = { dry: true };
  const seen = await inTransaction(
    database.dataSource,
    here,
    async (tx) => {
      await tx.execute(add, [here, randomUUID(), 'Dry']);
      return (await tx.query<{ name: string }>(names)).map((row) => row.name);
    },
    dry,
  );
  expect(seen).toEqual(['Dry', 'Wren']);
  const last = await inTransaction(
    database.dataSource,
    here,
    (tx) => tx.finish<{ name: string }>(`${add} returning name`, [here, randomUUID(), 'Dry']),
    dry,
  );
  expect(last).toEqual([{ name: 'Dry' }]);
  expect(await namesIn(here)).toEqual(['Wren']);
});

test('finish commits with the last statement, and refuses what comes after', async () => {
  const id = randomUUID();
  await expect(
    inTransaction(database.dataSource, here, async (tx) => {
      await tx.finish(add, [here, id, 'Lapwing']);
      await tx.query(names);
    }),
  ).rejects.toThrow(/has ended/);
  expect(await namesIn(here)).toEqual(['Lapwing', 'Wren']);
  await expect(
    inTransaction(database.dataSource, here, (tx) => tx.finish(add, [here, id, 'Twice'])),
  ).rejects.toThrow(/duplicate key/);
  expect(await namesIn(here)).toEqual(['Lapwing', 'Wren']);
});

test('a deadlock is resolved by repeating the loser in a new transaction', async () => {
  const [first, second] = await Promise.all(
    ['A', 'B'].map(async (name) => {
      const id = randomUUID();
      await inTransaction(database.dataSource, elsewhere, (tx) =>
        tx.execute(add, [elsewhere, id, name]),
      );
      return id;
    }),
  );
  let runs = 0;
  let waiting = 2;
  let go: () => void = () => undefined;
  const bothHoldOne = new Promise<void>((done) => (go = done));
  const touch = (order: (string | undefined)[]) =>
    inTransaction(database.dataSource, elsewhere, async (tx) => {
      runs += 1;
      for (const id of order) {
        await tx.execute(`update person set name = name || '+' where id = $1`, [id]);
        if ((waiting -= 1) === 0) go();
        await bothHoldOne;
      }
    });
  await Promise.all([touch([first, second]), touch([second, first])]);
  expect(runs).toBeGreaterThan(2); // one of them at least had to begin again
  expect(await namesIn(elsewhere)).toEqual(['A++', 'B++']);
});

test('serialisation failures are repeated three times, other errors never', async () => {
  let runs = 0;
  const failing = (state: string) =>
    inTransaction(database.dataSource, here, async (tx) => {
      runs += 1;
      await tx.query(`do $$ begin raise exception 'no' using errcode = '${state}'; end $$`);
    });
  await expect(failing('40001')).rejects.toThrow('no');
  expect(runs).toBe(4);
  runs = 0;
  await expect(failing('23514')).rejects.toThrow('no');
  expect(runs).toBe(1);
});

test('a write nobody awaits fails the whole with its own error, journeys later too', async () => {
  const id = randomUUID();
  const twice = (between: boolean) =>
    inTransaction(database.dataSource, here, async (tx) => {
      tx.write(add, [here, id, 'Plover']);
      tx.write(add, [here, id, 'Plover again']);
      if (between) await tx.query(names).catch(() => undefined);
      await tx.query(names);
    });
  await expect(twice(false)).rejects.toThrow(/duplicate key/);
  await expect(twice(true)).rejects.toThrow(/duplicate key/);
  await expect(
    inTransaction(database.dataSource, here, (tx) => {
      tx.write(add, [here, id, 'Plover']);
      tx.write('select 1 / 0');
      return Promise.resolve('done');
    }),
  ).rejects.toThrow(/division by zero/);
  expect(await namesIn(here)).toEqual(['Lapwing', 'Wren']);
});

test('a statement that was not reached is known to be new to its connection', async () => {
  const late = prepared(`select current_date as today, 'reached' as word`);
  for (const fails of [true, true, false]) {
    const asked = inTransaction(database.dataSource, here, async (tx) => {
      if (fails) tx.write('select 1 / 0');
      return tx.query<{ today: string; word: string }>(late);
    });
    if (fails) await expect(asked).rejects.toThrow(/division by zero/);
    else {
      const [row] = await asked;
      expect(row?.word).toBe('reached');
      expect(row?.today).toMatch(/^\d{4}-\d\d-\d\d$/); // a day stays text
    }
  }
});

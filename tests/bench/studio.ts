/** A studio for measuring: a database of its own, the service in a process of its own. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { openDataSource } from '../../src/platform/database/data-source.js';
import { openEmbedded, type Embedded } from '../../src/platform/database/embedded.js';
import { migrate } from '../../src/platform/database/migrate.js';
import { entities, schemaSteps } from '../../src/schema.js';
import { BARE_BOWL } from './bare-bowl.sql.js';

/** Everything a measurement needs; close it at the end. */
export interface MeasuredStudio {
  readonly studioId: string;
  readonly products: readonly string[];
  readonly url: string;
  readonly token: string;
  /** As the service's role, standing in the studio. */
  readonly pool: pg.Pool;
  readonly owner: pg.Pool;
  close(): Promise<void>;
}

const productCount = 60;

/** Opens it: migrated, 60 products with plenty on the shelf, the service listening. */
export async function measuredStudio(): Promise<MeasuredStudio> {
  const folder = await mkdtemp(join(tmpdir(), 'bowlworth-bench-'));
  const embedded = await openEmbedded(folder);
  const owner = new pg.Pool({ ...embedded.connection, max: 2 });
  const source = await openDataSource(embedded.connection, { asService: false, entities });
  await migrate(source, schemaSteps);
  await source.destroy();
  const studioId = randomUUID();
  const products = await stock(owner, studioId);
  await owner.query(BARE_BOWL);
  await owner.query('grant execute on all functions in schema public to bowlworth_service');
  await openedForAWhile(owner, studioId);
  const pool = new pg.Pool({
    ...embedded.connection,
    max: 16,
    options: `-c role=bowlworth_service -c bowlworth.studio_id=${studioId}`,
  });
  const service = await startService(embedded, studioId);
  return {
    studioId,
    products,
    ...service,
    pool,
    owner,
    close: async () => {
      service.child.kill('SIGTERM');
      await Promise.all([pool.end(), owner.end()]);
      await embedded.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/**
 * A studio in use, not one of the first minute: on tables that are still empty a connection
 * would keep sequential plans for its foreign-key checks.
 */
async function openedForAWhile(owner: pg.Pool, studioId: string): Promise<void> {
  const client = await owner.connect();
  try {
    await client.query(`set bowlworth.studio_id = '${studioId}'`);
    await client.query(
      `do $$ begin for i in 1..2000 loop
         perform bare_bowl(gen_random_uuid(), array(
           select id from product where studio_id = current_studio() order by random() limit 3),
           array[30, 36, 24], 0.1);
       end loop; end $$`,
    );
    await client.query('vacuum analyze');
  } finally {
    client.release(true);
  }
}

async function stock(owner: pg.Pool, studioId: string): Promise<string[]> {
  const client = await owner.connect();
  try {
    await client.query(`set bowlworth.studio_id = '${studioId}'`);
    await client.query(
      `insert into studio (studio_id, name, currency, time_zone, country)
       values ($1, 'Saltmarsh Row', 'EUR', 'Europe/Lisbon', 'PT')`,
      [studioId],
    );
    const { rows } = await client.query<{ id: string }>(
      `insert into product (studio_id, id, name, kind, unit, strength_vol)
       select $1, gen_random_uuid(), 'product ' || i,
         case when i % 3 = 0 then 'developer' else 'lightener' end, 'g',
         case when i % 3 = 0 then 20 end
         from generate_series(1, ${productCount}) i returning id`,
      [studioId],
    );
    await client.query(
      `with j as (
         insert into journal (studio_id, id, kind, happened_at, recorded_at)
         values ($1, gen_random_uuid(), 'opening', now() - interval '1 day', now())
         returning id
       ), l as (
         insert into lot (studio_id, id, product_id, source, received_on, quantity, cost,
           journal_id)
         select $1, gen_random_uuid(), p.id, 'opening', current_date, 90000000, 2700000, j.id
           from product p, j where p.studio_id = $1 returning *
       )
       insert into movement (studio_id, id, journal_id, journal_kind, product_id, lot_id,
         from_place, to_place, quantity, value, happened_at, happened_on, recorded_at)
       select $1, gen_random_uuid(), journal_id, 'opening', product_id, id, 'supplier', 'shelf',
         quantity, cost, now(), current_date, now() from l`,
      [studioId],
    );
    return rows.map((row) => row.id);
  } finally {
    client.release();
  }
}

async function startService(
  embedded: Embedded,
  studioId: string,
): Promise<{ url: string; token: string; child: ChildProcess }> {
  const child = spawn(
    process.execPath,
    [fileURLToPath(new URL('./measured-service.js', import.meta.url))],
    {
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
      env: {
        ...process.env,
        BENCH_CONNECTION: JSON.stringify(embedded.connection),
        BENCH_STUDIO: studioId,
      },
    },
  );
  const ready = await new Promise<{ url: string; token: string }>((resolve, reject) => {
    child.once('message', (message) => resolve(message as { url: string; token: string }));
    child.once('exit', (code) => reject(new Error(`The measured service ended (${code}).`)));
  });
  return { ...ready, child };
}

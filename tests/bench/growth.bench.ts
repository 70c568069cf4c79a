/** Does posting cost more when the ledger is long? The same work at ten thousand and a million. */
import type pg from 'pg';
import { load } from './load.js';
import { bareBowl, recordBowl } from './recording.bench.js';
import type { MeasuredStudio } from './studio.js';
import { table } from './table.js';

const seconds = 5;
const clients = 4;
const batch = 25_000;

/** Prints bowls a second at 10 thousand and 1 million movements (10 million with `--large`). */
export async function run(studio: MeasuredStudio): Promise<void> {
  const sizes = [10_000, 1_000_000, ...(process.argv.includes('--large') ? [10_000_000] : [])];
  const rows: string[][] = [];
  let first = 0;
  for (const size of sizes) {
    await fill(studio, size);
    await studio.owner.query('checkpoint');
    await load(clients, 1, () => recordBowl(studio, false));
    const service = await load(clients, seconds, () => recordBowl(studio, false));
    const bare = await load(clients, seconds, () => bareBowl(studio, false));
    first ||= service.perSecond;
    rows.push([
      size.toLocaleString('en'),
      service.perSecond.toFixed(0),
      bare.perSecond.toFixed(0),
      (first / service.perSecond).toFixed(2),
    ]);
  }
  table(
    'Cost of a recorded bowl as the ledger grows (1.00: the same as at the first size)',
    ['movements', 'service/s', 'bare/s', 'cost'],
    rows,
  );
}

/** Uses without a bowl, 36 months of them, until the ledger has so many movements. */
async function fill(studio: MeasuredStudio, size: number): Promise<void> {
  const client = await studio.owner.connect();
  try {
    await client.query(`set bowlworth.studio_id = '${studio.studioId}'`);
    for (let have = await count(client); have < size; have += batch) {
      await client.query(FILL, [studio.studioId, Math.min(batch, size - have)]);
    }
    await client.query('analyze');
  } finally {
    client.release();
  }
}

async function count(client: pg.PoolClient): Promise<number> {
  const { rows } = await client.query<{ n: number }>('select count(*)::int as n from movement');
  return rows[0]?.n ?? 0;
}

const FILL = `
  with j as (
    insert into journal (studio_id, id, kind, happened_at, recorded_at)
    select $1, gen_random_uuid(), 'use', now() - random() * interval '1095 days', now()
      from generate_series(1, $2::int / 5 + 1) returning id, happened_at
  ), numbered as (select j.*, row_number() over () as n from j)
  insert into movement (studio_id, id, journal_id, journal_kind, product_id, lot_id, from_place,
    to_place, quantity, value, happened_at, happened_on, recorded_at)
  select $1, gen_random_uuid(), j.id, 'use', l.product_id, l.id, 'shelf', 'head', 1, 0.03,
    j.happened_at, j.happened_at::date, now()
    from generate_series(1, $2::int) i
    join numbered j on j.n = i / 5 + 1
    join (select *, row_number() over (order by id) as n from lot where studio_id = $1) l
      on l.n = i % (select count(*) from lot where studio_id = $1) + 1`;

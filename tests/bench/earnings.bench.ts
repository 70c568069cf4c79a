/** Earnings over 100,000 visits: the service's report beside the same query by hand. */
import type { MeasuredStudio } from './studio.js';
import { table } from './table.js';

const visits = 100_000;
const batch = 20_000;
const repeats = 7;
const from = '2023-01-01';
const to = '2026-01-01';

/** Prints the median of each over all visits and over one month of them, and their ratio. */
export async function run(studio: MeasuredStudio): Promise<void> {
  await fill(studio);
  const rows: string[][] = [];
  for (const by of ['service', 'month'] as const) {
    for (const [label, first, last] of [
      ['36 months', from, to],
      ['1 month', '2025-05-01', '2025-06-01'],
    ] as const) {
      const path = `/api/v1/earnings?from=${first}&to=${last}&by=${by}`;
      const service = await median(() => ask(studio, path));
      const bare = await median(() => studio.pool.query(byHand(by), [first, last]));
      const ratio = (service / bare).toFixed(2);
      rows.push([by, label, service.toFixed(0), bare.toFixed(0), ratio]);
    }
  }
  table(
    `Earnings over ${visits.toLocaleString('en')} visits, 2 % of their sheets replaced`,
    ['by', 'of', 'service ms', 'by hand ms', 'ratio'],
    rows,
  );
}

async function ask(studio: MeasuredStudio, path: string): Promise<void> {
  const headers = { authorization: `Bearer ${studio.token}` };
  const answer = await fetch(`${studio.url}${path}`, { headers });
  const body = (await answer.json()) as { totals?: { visits: number } };
  if (!body.totals?.visits) throw new Error(`No earnings: ${JSON.stringify(body)}`);
}

/** Milliseconds; the first, which fills caches, is not counted. */
async function median(work: () => Promise<unknown>): Promise<number> {
  await work();
  const times: number[] = [];
  for (let n = 0; n < repeats; n += 1) {
    const begun = performance.now();
    await work();
    times.push(performance.now() - begun);
  }
  return times.sort((a, b) => a - b)[Math.floor(repeats / 2)] ?? 0;
}

/** The same sums as a person at the database would ask for them. */
function byHand(by: 'service' | 'month'): string {
  const key = by === 'service' ? 'menu.ids' : `to_char(p.day, 'YYYY-MM')`;
  const join =
    by === 'month'
      ? ''
      : `join (select visit_id, string_agg(service_id::text, '+' order by position) as ids
          from visit_service where studio_id = current_studio() group by 1) menu
          on menu.visit_id = p.visit_id`;
  return `
    select ${key} as key, count(*), sum(p.net), sum(p.tax), sum(p.product), sum(p.sundries),
      sum(p.time_cost), sum(p.fee), sum(p.commission), sum(p.contribution), sum(p.overhead),
      sum(p.profit), sum(p.product_value), sum(p.left_over_value), sum(p.sundries_value),
      sum(p.not_charged_value)
      from price_sheet p join visit v on v.studio_id = p.studio_id and v.id = p.visit_id ${join}
     where p.studio_id = current_studio() and p.day >= $1 and p.day < $2
       and v.kind in ('client', 'redo') and v.closed_at is not null
       and not exists (select from price_sheet n where n.studio_id = p.studio_id
         and n.replaces = p.id)
     group by 1`;
}

async function fill(studio: MeasuredStudio): Promise<void> {
  const client = await studio.owner.connect();
  try {
    await client.query(`set bowlworth.studio_id = '${studio.studioId}'`);
    await client.query(
      `insert into service (studio_id, id, name, price)
       select $1, gen_random_uuid(), 'service ' || i, 60 + i from generate_series(1, 12) i`,
      [studio.studioId],
    );
    for (let done = 0; done < visits; done += batch) {
      await client.query(FILL, [studio.studioId, batch, from]);
    }
    await client.query(REPLACE, [studio.studioId]);
    await client.query(
      `insert into price_sheet_looked select studio_id, max(seq) from movement group by 1
       on conflict (studio_id) do update set seq = excluded.seq`,
    );
    await client.query('vacuum analyze');
  } finally {
    client.release();
  }
  // a report looks at what was recorded since the one before; here nothing was
  await ask(studio, `/api/v1/earnings?from=${from}&to=${to}`);
}

const FILL = `
  with v as (
    insert into visit (studio_id, id, started_at, closed_at, recorded_at, has_sheet)
    select $1, gen_random_uuid(), t.at, t.at + interval '2 hours', t.at, true
      from generate_series(1, $2::int) i,
        lateral (select $3::timestamptz + interval '9 hours'
          + (i * 1096 / $2::int) * interval '1 day' - interval '1 day' * (i % 2) as at) t
    returning id, started_at, closed_at
  ), s as (
    insert into visit_service (studio_id, visit_id, position, service_id, price)
    select $1, v.id, n, e.id, e.price
      from (select *, row_number() over () as i from v) v
      cross join generate_series(1, 2) n
      join (select id, price, row_number() over (order by id) as i from service
        where studio_id = $1) e on e.i = 1 + (v.i * n) % 12
     where n = 1 or v.i % 3 = 0
  )
  insert into price_sheet (studio_id, id, visit_id, version, made_at, ledger_seq, basis, sheet, day)
  select $1, gen_random_uuid(), v.id, 1, v.closed_at, 9000000000, sha256('basis'),
    jsonb_build_object('currency', 'EUR', 'noCost', '[]'::jsonb, 'notes', '[]'::jsonb,
      'lines', (select jsonb_agg(jsonb_build_object('kind', 'product', 'label', 'product ' || l,
          'formula', 'value of what went to head and bin', 'amount', '1.26', 'inputs',
          jsonb_build_array(jsonb_build_object('name', 'quantity', 'value', '30', 'unit', 'g'),
            jsonb_build_object('name', 'value', 'value', '0.9', 'unit', 'EUR'))))
        from generate_series(1, 12) l),
      'ledger', jsonb_build_object('product', '8.341250', 'leftOver', '0.751000',
        'sundries', '1.500000', 'notCharged', '0.000000'),
      'totals', jsonb_build_object('net', '97.56', 'tax', '22.44', 'gross', '120.00',
        'product', '8.34', 'sundries', '1.50', 'time', '30.00', 'overhead', '30.00',
        'fee', '1.85', 'commission', '9.76', 'contribution', '46.11', 'profit', '16.11')),
    v.closed_at::date
    from v`;

const REPLACE = `
  insert into price_sheet (studio_id, id, visit_id, version, replaces, made_at, ledger_seq, basis,
    sheet, day)
  select studio_id, gen_random_uuid(), visit_id, 2, id, made_at, ledger_seq, basis, sheet, day
    from price_sheet where studio_id = $1 and get_byte(uuid_send(id), 15) < 5`;

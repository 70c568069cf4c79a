/** The audit finds what is wrong: each check is broken on purpose, past every guard. */
import { auditChecks } from '../../src/studio/stock/audit.service.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
const known: Record<string, string> = {};

beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
  const toner = await ShelfStory.of(studio);
  await toner.deliver('40', '5', '2026-03-01');
  await toner.deliver('60', '9', '2026-03-02');
  const use = await toner.use('50', '2026-03-10T10:00:00Z'); // empties the first lot
  const wrong = await toner.use('7', '2026-03-10T10:30:00Z');
  await toner.undo(wrong.id);
  await toner.count('45', '2026-03-10T18:00:00Z');
  const bowl = await studio.manager.post<{ id: string }>('/bowls', { purpose: 'gloss' });
  await studio.manager.post(`/bowls/${bowl.id}/pours`, {
    productId: toner.productId,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-12T19:00:00Z',
  });
  await studio.manager.post(`/bowls/${bowl.id}/settlement`, {
    leftover: { quantity: '6', unit: 'g' },
    settledAt: '2026-03-12T19:30:00Z',
  });
  await toner.use('40', '2026-03-12T19:40:00Z'); // 25 beyond the book
  Object.assign(known, { bowl: bowl.id, use: use.id, wrong: wrong.id, product: toner.productId });
});
afterAll(() => studio.close());

/** One statement past every guard. */
function owner<Row extends Record<string, unknown>>(sql: string, values: unknown[] = []) {
  return studio.service.database.asOwner<Row>(sql, values);
}

interface Found {
  readonly name: string;
  readonly breach: string;
}

/** What the checks say after `work`, which is then undone. */
async function after(work: readonly string[]): Promise<Found[]> {
  await owner('begin');
  try {
    await owner(`set local bowlworth.studio_id = '${studio.id}'`);
    await owner('set local session_replication_role = replica'); // no trigger, no foreign key
    for (const sql of work) await owner(filled(sql));
    const found: Found[] = [];
    for (const { name, sql } of auditChecks) {
      const [row] = await owner<{ breach: string | null }>(sql, [0]);
      if (row?.breach) found.push({ name, breach: row.breach });
    }
    return found;
  } finally {
    await owner('rollback');
  }
}

const filled = (sql: string) => sql.replace(/\{(\w+)\}/g, (_, name: string) => `'${known[name]}'`);

const unguarded = [
  'alter table movement drop constraint movement_from_place_check',
  'alter table movement drop constraint movement_way',
];
const copied = `studio_id, journal_id, journal_kind, product_id, lot_id, from_place, to_place,
  from_bowl_id, from_pour_id, to_bowl_id, to_pour_id, visit_id, quantity, value, reason,
  happened_at, happened_on, recorded_at, person_id, bench_id, reverses_id`;

test('nothing is wrong at first, and every check looked at something', async () => {
  expect(await after([])).toEqual([]);
  const { ok, checks, seq } = await studio.owner.get<{
    ok: boolean;
    checks: { name: string; rows: number }[];
    seq: string;
  }>('/audit');
  expect(ok).toBe(true);
  expect(checks.filter(({ rows }) => rows === 0)).toEqual([]);
  expect(checks.map(({ name }) => name)).toEqual(auditChecks.map(({ name }) => name));
  const since = await studio.owner.get<{ ok: boolean }>(`/audit?since=${seq}`);
  expect(since.ok).toBe(true);
});

interface Row {
  readonly check: string;
  readonly by: string;
  readonly work: readonly string[];
}

const rows: Row[] = [
  {
    check: 'conserved',
    by: 'goods that came from nowhere',
    work: [
      ...unguarded,
      `update movement set from_place = 'nowhere' where seq = (select min(seq) from movement)`,
    ],
  },
  {
    check: 'lots never below zero',
    by: 'more drawn than there was',
    work: [`update movement set quantity = 5000 where journal_id = {use} and from_place = 'shelf'`],
  },
  {
    check: 'emptied lots drew their cost',
    by: 'a draw of another value',
    work: [`update movement set value = value + 0.000001 where journal_id = {use}`],
  },
  {
    check: 'emptied lots drew their cost',
    by: 'a lot of another cost',
    work: [`update lot set cost = cost + 1 where source = 'delivery'`],
  },
  {
    check: 'settled bowls are empty',
    by: 'a settlement that moved less',
    work: [
      `delete from movement where journal_kind = 'settlement' and to_place = 'bin'
         and from_bowl_id = {bowl}`,
    ],
  },
  {
    check: 'pours moved their quantity',
    by: 'a pour that says more',
    work: ['update pour set quantity = quantity + 1 where bowl_id = {bowl}'],
  },
  {
    check: 'bowls weigh what was poured',
    by: 'a bowl that says more',
    work: ['update bowl set mixed_g = mixed_g + 1 where id = {bowl}'],
  },
  {
    check: 'reversals are exact',
    by: 'a reversal of another quantity',
    work: ['update movement set quantity = quantity + 1 where reverses_id is not null'],
  },
  {
    check: 'reversals are exact',
    by: 'a reversal that leaves a movement out',
    work: ['delete from movement where reverses_id is not null'],
  },
  {
    check: 'once only',
    by: 'a movement that is there twice',
    work: [
      'alter table movement drop constraint movement_studio_id_id_key',
      `insert into movement (id, ${copied})
         select id, ${copied} from movement where journal_id = {use} limit 1`,
    ],
  },
  {
    check: 'once only',
    by: 'a movement undone twice',
    work: [
      'drop index movement_reversed_once',
      `insert into movement (id, ${copied})
         select gen_random_uuid(), ${copied} from movement where reverses_id is not null`,
    ],
  },
  {
    check: 'once only',
    by: 'a movement in a journal of another kind',
    work: [
      'alter table movement drop constraint movement_way',
      `update movement set journal_kind = 'pour' where journal_id = {use}`,
    ],
  },
  {
    check: 'products hold what moved',
    by: 'a row that is not there',
    work: ['delete from product_holding where product_id = {product}'],
  },
  {
    check: 'months add up',
    by: 'a row that is not there',
    work: ['delete from monthly_flow where product_id = {product}'],
  },
  {
    check: 'bowls hold what moved',
    by: 'a bowl that holds more',
    work: ['update pour_holding set quantity = quantity + 1 where bowl_id = {bowl}'],
  },
  {
    check: 'products hold what moved',
    by: 'a value moved from one place to another',
    work: ['update product_holding set head_value = head_value - 1, bin_value = bin_value + 1'],
  },
  {
    check: 'lots hold what moved',
    by: 'a lot that holds more',
    work: ['update lot_holding set quantity = quantity + 0.001, value = value + 0.000001'],
  },
  {
    check: 'months add up',
    by: 'a month of another value',
    work: ['update monthly_flow set value = value + 0.000001'],
  },
  {
    check: 'counts and shortfalls',
    by: 'a count that nobody made',
    work: [`update product_holding set last_counted_at = '2026-03-11T00:00Z'`],
  },
  {
    check: 'counts and shortfalls',
    by: 'a shortfall forgotten',
    work: ['update product_holding set shortfall_open = 0'],
  },
  {
    check: 'append-only',
    by: 'a trigger switched off',
    work: ['alter table movement disable trigger movement_append_only'],
  },
  {
    check: 'append-only',
    by: 'a trigger that lets truncate pass',
    work: [
      'drop trigger journal_append_only on journal',
      `create trigger journal_append_only before update or delete on journal
         for each statement execute function refuse_change()`,
    ],
  },
  ...['update', 'delete', 'truncate'].map((right) => ({
    check: 'append-only',
    by: `the right to ${right}`,
    work: [`grant ${right} on lot to bowlworth_service`],
  })),
  {
    check: 'append-only',
    by: 'a service that owns a table',
    work: ['alter table monthly_flow owner to bowlworth_service'],
  },
  {
    check: 'append-only',
    by: 'a service that passes row-level security',
    work: ['alter role bowlworth_service bypassrls'],
  },
  {
    check: 'studios apart',
    by: 'security that the owner passes',
    work: ['alter table movement no force row level security'],
  },
  {
    check: 'studios apart',
    by: 'security switched off',
    work: ['alter table client disable row level security'],
  },
  {
    check: 'studios apart',
    by: 'a policy that is gone',
    work: ['drop policy own_studio on lot_holding'],
  },
];

test.each(rows)('$check: found by $by', async ({ check, work }) => {
  const found = await after(work);
  expect(found.map(({ name }) => name)).toContain(check);
});

test('the first breach is told with its figures', async () => {
  const found = await after(['update bowl set mixed_g = mixed_g + 1 where id = {bowl}']);
  expect(found).toEqual([
    {
      name: 'bowls weigh what was poured',
      breach: `bowl ${known['bowl']} says 31.000 g mixed and its pours come to 30.000 g`,
    },
  ]);
});

test('every check was broken at least once', () => {
  const broken = new Set(rows.map(({ check }) => check));
  expect(auditChecks.filter(({ name }) => !broken.has(name))).toEqual([]);
});

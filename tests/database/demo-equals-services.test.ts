/** What the demo books in batches is what the services book one by one; its audit finds nothing. */
import { dayAfter } from '../../shared/calendar.js';
import type { Happening } from '../../seed/happenings.js';
import { loadDemo, type Demo } from '../../seed/load-demo.js';
import { AuditService } from '../../src/studio/stock/audit.service.js';
import { DemoOverHttp } from '../support/demo-over-http.js';
import { ledgerState, type LedgerState } from '../support/ledger-state.js';
import { aService, type TestService } from '../support/studio.js';

/** Days told in batches before, and days told once in batches and once over HTTP. */
interface Sample {
  readonly about: string;
  readonly before: string;
  readonly until: string;
  /** What must be among what is told, for the sample to mean something. */
  readonly told: readonly Happening['what'][];
}

const samples: readonly Sample[] = [
  {
    about: 'the opening and the first days',
    before: '2023-07-31',
    until: '2023-08-03',
    told: ['the shelf is opened', 'a visit begins', 'a bowl is mixed', 'a visit closes'],
  },
  {
    about: 'a month’s end with its count',
    before: '2023-09-28',
    until: '2023-10-03',
    told: ['the shelf is counted', 'a bowl comes late', 'a pour was another product'],
  },
  {
    about: 'another, with deliveries',
    before: '2023-11-23',
    until: '2023-11-29',
    told: ['a delivery arrives', 'a delivery comes late', 'a settlement is mended'],
  },
  {
    about: 'a new year, with what has expired',
    before: '2023-12-31',
    until: '2024-01-02',
    told: ['a lot is thrown away'],
  },
];

const today = '2026-03-02T09:00:00Z';
let services: TestService[] = [];

afterEach(async () => {
  for (const service of services) await service.close();
  services = [];
});

/** Loads the demo up to a day into a database of its own. */
async function loaded(
  until?: string,
): Promise<{ service: TestService; demo: Demo; heard: Happening[] }> {
  const service = await aService();
  services.push(service);
  service.clock.set(today);
  const heard: Happening[] = [];
  const demo = await loadDemo({
    app: service.app,
    dataSource: service.database.dataSource,
    target: service.database.connection,
    clock: service.clock,
    progress: () => undefined,
    heard: (happening) => heard.push(happening),
    ...(until === undefined ? {} : { until }),
  });
  return { service, demo, heard };
}

test.each(samples)(
  'over HTTP the same is booked: $about',
  async ({ before, until, told }) => {
    const inBatches = await loaded(until);
    const first = await loaded(before);
    const replayed = inBatches.heard.filter(({ at }) => at.slice(0, 10) > before);
    expect(replayed.map(({ what }) => what)).toEqual(expect.arrayContaining([...told]));
    const http = await DemoOverHttp.at(first.service, first.demo, lotIn(first, inBatches));
    for (const happening of replayed) await http.happen(happening);
    const expected = await ledgerState(inBatches.service.database);
    const actual = await ledgerState(first.service.database);
    for (const what of Object.keys(expected) as (keyof LedgerState)[]) {
      expect({ [what]: actual[what] }).toEqual({ [what]: expected[what] });
    }
  },
  240_000,
);

test('thirty months are told the same way twice, and the audit finds nothing', async () => {
  const { service, demo, heard } = await loaded();
  const audit = await service.app.get(AuditService).audit(demo.studioId);
  expect(audit.checks.filter(({ ok }) => !ok)).toEqual([]);
  const { summary } = demo;
  expect(summary.from).toBe('2023-08-01');
  expect(summary.to).toBe('2026-02-27');
  expect(summary).toMatchObject({ products: 40, clients: 280 });
  expect(summary.bowls).toBeGreaterThan(6000);
  expect(summary.bowls).toBeLessThan(8000);
  expect(summary.movements).toBeGreaterThan(25_000);
  const kinds = new Set(heard.map(({ what }) => what));
  expect([...kinds].sort()).toEqual([
    'a bowl comes late',
    'a bowl is mixed',
    'a delivery arrives',
    'a delivery comes late',
    'a lot is thrown away',
    'a pour was another product',
    'a settlement is mended',
    'a visit begins',
    'a visit closes',
    'the shelf is counted',
    'the shelf is opened',
  ]);
  const again = await loaded(dayAfter(summary.from, 12));
  expect(again.heard).toEqual(heard.slice(0, again.heard.length));
}, 240_000);

type Loaded = Awaited<ReturnType<typeof loaded>>;

/** Finds the lot here that came with the same entry. */
function lotIn(here: Loaded, there: Loaded) {
  return async (lotId: string): Promise<string> => {
    const [entry] = await there.service.database.asOwner<{ journal: string; product: string }>(
      'select journal_id as journal, product_id as product from lot where id = $1',
      [lotId],
    );
    const [lot] = await here.service.database.asOwner<{ id: string }>(
      'select id from lot where journal_id = $1 and product_id = $2',
      [entry?.journal, entry?.product],
    );
    if (!lot) throw new Error('The lot did not come here.');
    return lot.id;
  };
}

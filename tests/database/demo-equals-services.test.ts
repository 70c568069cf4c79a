/** What the demo books in batches is what the services book one by one; its audit finds nothing. */
import { dayAfter } from '../../shared/calendar.js';
import type { Happening } from '../../seed/happenings.js';
import { loadDemo, type Demo } from '../../seed/load-demo.js';
import { AuditService } from '../../src/studio/stock/audit.service.js';
import { DemoOverHttp } from '../support/demo-over-http.js';
import { ledgerState, type LedgerState } from '../support/ledger-state.js';
import { aService, type TestService } from '../support/studio.js';

/** Everything that can happen in the story. */
const kinds: readonly Happening['what'][] = [
  'the shelf is opened',
  'a visit begins',
  'a bowl is mixed',
  'a visit closes',
  'a delivery arrives',
  'the shelf is counted',
  'a bowl comes late',
  'a delivery comes late',
  'a settlement is mended',
  'a pour was another product',
  'a lot is thrown away',
];

const today = '2026-03-02T09:00:00Z';
let services: TestService[] = [];
let whole: Loaded;

interface Loaded {
  readonly service: TestService;
  readonly demo: Demo;
  readonly heard: readonly Happening[];
}

/** Loads the demo, or its days up to one, into a database of its own. */
async function loaded(until?: string): Promise<Loaded> {
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

async function closeAll(): Promise<void> {
  for (const service of services) await service.close();
  services = [];
}

beforeAll(async () => {
  whole = await loaded();
}, 240_000);

afterAll(closeAll);

test('thirty months of a studio are there, and the audit finds nothing', async () => {
  const { service, demo, heard } = whole;
  const audit = await service.app.get(AuditService).audit(demo.studioId);
  expect(audit.checks.filter(({ ok }) => !ok)).toEqual([]);
  const { summary } = demo;
  expect(summary).toMatchObject({ from: '2023-08-01', to: '2026-02-27' });
  expect(summary).toMatchObject({ products: 40, clients: 280 });
  expect(summary.bowls).toBeGreaterThan(5_800);
  expect(summary.bowls).toBeLessThan(8_000);
  expect(summary.movements).toBeGreaterThan(25_000);
  expect(new Set(heard.map(({ what }) => what))).toEqual(new Set(kinds));
}, 60_000);

test('it is told the same way every time', async () => {
  const again = await loaded(dayAfter(whole.demo.summary.from, 25));
  expect(again.heard.length).toBeGreaterThan(100);
  expect(again.heard).toEqual(whole.heard.slice(0, again.heard.length));
}, 60_000);

test('on sample days of every kind the same is booked over HTTP, row by row', async () => {
  const samples = sampleDays(whole.heard);
  const told = samples.flatMap((day) => replayedOf(whole.heard, day));
  expect(new Set(told.map(({ what }) => what))).toEqual(new Set(kinds));
  for (const day of samples) {
    const { before, until } = around(day);
    const inBatches = await loaded(until);
    const overHttp = await loaded(before);
    const lotHere = lotIn(overHttp, inBatches);
    const http = await DemoOverHttp.at(overHttp.service, overHttp.demo, lotHere);
    for (const happening of replayedOf(inBatches.heard, day)) await http.happen(happening);
    const expected = await ledgerState(inBatches.service.database);
    const actual = await ledgerState(overHttp.service.database);
    for (const what of Object.keys(expected) as (keyof LedgerState)[]) {
      expect({ day, [what]: actual[what] }).toEqual({ day, [what]: expected[what] });
    }
  }
}, 600_000);

/** A few days, so that each kind of happening is on or right before one of them. */
function sampleDays(heard: readonly Happening[]): string[] {
  const days: string[] = [];
  for (const kind of kinds) {
    if (days.some((day) => replayedOf(heard, day).some(({ what }) => what === kind))) continue;
    const first = heard.find(({ what }) => what === kind);
    if (first) days.push(first.at.slice(0, 10));
  }
  return days;
}

/** From two days before the day to the day after it. */
function around(day: string): { before: string; until: string } {
  return { before: dayAfter(day, -3), until: dayAfter(day, 1) };
}

function replayedOf(heard: readonly Happening[], day: string): Happening[] {
  const { before, until } = around(day);
  return heard.filter(({ at }) => at.slice(0, 10) > before && at.slice(0, 10) <= until);
}

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

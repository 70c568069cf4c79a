/** By day of settlement, the newest sheets and the house's bowls are the ledger, to 6 decimals. */
import type { EarningsReportView } from '../../shared/contract/earnings.js';
import { canonical, decimal, sum, type Decimal } from '../../shared/decimal.js';
import { randomFrom } from '../support/random.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
const random = randomFrom(20260301);
const days = ['2026-03-01', '2026-03-02', '2026-03-29', '2026-04-01'];
const products: string[] = [];
let service = '';

beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-04-02T12:00:00Z');
  for (const [index, quantity] of ['997', '2003', '613'].entries()) {
    const kind = ['lightener', 'permanent', 'toner'][index];
    const made = await studio.owner.post<{ id: string }>('/products', {
      ...{ name: `Product ${index}`, kind, unit: 'g', packs: [] },
    });
    products.push(made.id);
    // costs that no gram divides evenly; two lots each
    const lines = [{ productId: made.id, quantity, cost: `${31 + index}.4${index + 1}` }];
    await studio.owner.post('/openings', { lines });
    await studio.owner.post('/openings', { lines: [{ ...lines[0], cost: '17.33' }] });
  }
  const roots = await studio.owner.post<{ id: string }>('/services', {
    name: 'Roots',
    price: '60',
  });
  service = roots.id;
  await studio.owner.patch('/studio', { pricing: { taxes: [], hourRate: '20' } });
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const kinds = ['client', 'client', 'client', 'redo', 'model', 'none'] as const;
let redoOf: string | undefined;

async function aVisit(day: string): Promise<string | null> {
  const kind = random.oneOf(kinds);
  if (kind === 'none' || (kind === 'redo' && redoOf === undefined)) return null;
  const again = kind === 'redo' ? { redoOf } : {};
  const { id } = await studio.owner.post<{ id: string }>('/visits', {
    ...{ services: [{ serviceId: service }], startedAt: `${day}T08:00:00Z`, kind, ...again },
  });
  if (kind === 'client') redoOf = id;
  return id;
}

/** Settled, with a weighing in between at times; returns its id. */
async function aBowl(visitId: string | null, day: string): Promise<string> {
  const grams = () => `${5 + random.below(40)}.${random.below(1000)}`.replace(/\.(\d)$/, '.0$1');
  const at = (minute: number) => `${day}T10:${String(minute).padStart(2, '0')}:00Z`;
  const visit = visitId === null ? {} : { visitId };
  const bowl = { id: crypto.randomUUID(), purpose: 'roots', plannedAt: at(0), ...visit };
  const pours = products.slice(0, 1 + random.below(3)).map((productId, index) => ({
    ...{ id: crypto.randomUUID(), productId, quantity: grams(), unit: 'g', pouredAt: at(index) },
  }));
  await studio.owner.post('/bowls/record', { id: crypto.randomUUID(), bowl, pours });
  if (random.below(3) === 0) {
    await studio.owner.post(`/bowls/${bowl.id}/weighings`, { net: gramsOf('4.1'), at: at(20) });
  }
  const left = gramsOf(random.oneOf(['0', '1.7', '3.9']));
  const why = random.oneOf(['left over', 'left over', 'mixed wrong'] as const);
  await studio.owner.post(`/bowls/${bowl.id}/settlement`, {
    ...{ leftover: left, settledAt: at(30), why },
  });
  return bowl.id;
}

const gramsOf = (quantity: string) => ({ quantity, unit: 'g' });

async function aDay(day: string): Promise<void> {
  for (let visits = 0; visits < 6; visits += 1) {
    const visitId = await aVisit(day);
    const bowls: string[] = [];
    for (let more = random.below(3); more >= 0; more -= 1) bowls.push(await aBowl(visitId, day));
    if (visitId === null) continue;
    const uses = [{ productId: random.oneOf(products), quantity: '1.3', unit: 'g' }];
    const closing = { closedAt: `${day}T11:00:00Z`, uses };
    await studio.owner.post(`/visits/${visitId}/close`, closing);
    // after the closing: a bowl that comes late, a settlement that is taken back and done again
    if (random.below(3) === 0) await aBowl(visitId, day);
    if (random.below(3) === 0) {
      await studio.owner.post(`/bowls/${bowls[0]}/reversal`, {});
      await studio.owner.post(`/bowls/${bowls[0]}/settlement`, {
        ...{ leftover: gramsOf('0.9'), settledAt: `${day}T12:30:00Z` },
      });
    }
  }
  await studio.owner.post('/discards', {
    ...{ why: 'spilled', at: `${day}T13:00:00Z` },
    lines: [{ productId: random.oneOf(products), quantity: '7.007', unit: 'g' }],
  });
}

function valueOf({ totals, redone, house }: EarningsReportView): Decimal {
  const values = [totals.ledger, redone.ledger].flatMap((ledger) => [
    ...[ledger.product, ledger.sundries, ledger.notCharged],
  ]);
  const own = [house.uses, house.discards, ...house.rows.map((row) => row.value)];
  return sum([...values, ...own].map((value) => decimal(value)));
}

test('of every day, and of all days together', async () => {
  for (const day of days) await aDay(day);
  const ledger = await studio.service.database.asOwner<{ day: string; value: string }>(`
    select happened_on::text as day, trim_scale(
        sum(case when to_place in ('head', 'bin') then value else 0 end)
        - sum(case when from_place in ('head', 'bin') then value else 0 end))::text as value
      from movement where 'head' in (from_place, to_place) or 'bin' in (from_place, to_place)
     group by 1 order by 1`);
  expect(ledger.map((row) => row.day)).toEqual(days);
  const next = ['2026-03-02', '2026-03-03', '2026-03-30', '2026-04-02'];
  let [finals, house] = [0, 0];
  for (const [index, { day, value }] of ledger.entries()) {
    const report = await studio.owner.get<EarningsReportView>(
      `/earnings?from=${day}&to=${next[index]}&by=month`,
    );
    expect([day, canonical(valueOf(report))]).toEqual([day, value]);
    expect(report.running).toBe(0);
    finals += report.totals.visits + report.redone.visits;
    house += report.house.bowls;
  }
  expect(finals).toBeGreaterThan(8);
  expect(house).toBeGreaterThan(3);
  const whole = await studio.owner.get<EarningsReportView>('/earnings?from=2026-03-01');
  expect(canonical(valueOf(whole))).toBe(canonical(sum(ledger.map((row) => decimal(row.value)))));
  // several versions of some sheets: only the newest count
  const [sheets] = await studio.service.database.asOwner<{ most: number }>(
    'select max(version)::int as most from price_sheet',
  );
  expect(sheets?.most).toBeGreaterThan(1);
});

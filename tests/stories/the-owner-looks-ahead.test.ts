/** The owner asks what will be used: forecasts from two years of entries, worked out by hand. */
import type { DemandRowView, ForecastsView } from '../../shared/contract/purchasing.js';
import type { Shelf } from '../support/saltmarsh.js';
import { aStudio, type TestStudio } from '../support/studio.js';
import { usedForMonths } from '../support/used-for-months.js';

let studio: TestStudio;
let shelf: Shelf;

beforeAll(async () => {
  studio = await aStudio();
  // powder: 4 x 75 = 300 g every month; 20 vol: 4 x 100 = 400 ml; toner in every fourth month
  shelf = await usedForMonths(studio, '2024-03', 24, (month) => ({
    powder: '75',
    vol20: '100',
    ...(month % 4 === 3 ? { toner: '15' } : {}),
  }));
}, 120_000);
afterEach(() => studio.audit());
afterAll(() => studio.close());

const forecasts = (query = '') => studio.manager.get<ForecastsView>(`/forecasts${query}`);

test('steady use is forecast as it was, with a test beside the naive guess', async () => {
  const { today, items } = await forecasts('?horizon=2');
  expect(today).toBe('2026-03-01');
  const powder = items.find((item) => item.productId === shelf.powder);
  expect(powder?.months.map(({ month, running }) => [month, running])).toEqual([
    ['2026-03', true],
    ['2026-04', false],
  ]);
  expect(powder?.history.length).toBe(24);
  expect(powder?.history.at(-1)).toEqual({ month: '2026-02', quantity: '300' });
  for (const { mean } of powder?.months ?? []) expect(Math.abs(Number(mean) - 300)).toBeLessThan(3);
  expect(powder?.backtest?.error).toMatch(/^0/);
  expect(powder?.sentence).toContain('used in 24 of 24 months');
});

test('quantiles never fall, and what comes and goes is forecast as such', async () => {
  const { items } = await forecasts('?horizon=12');
  for (const { months } of items) {
    for (const { quantiles } of months) {
      const values = quantiles.map(({ quantity }) => Number(quantity));
      expect(values).toEqual([...values].sort((a, b) => a - b));
      expect(values.every((value) => Number.isFinite(value))).toBe(true);
    }
  }
  const toner = items.find((item) => item.productId === shelf.toner);
  expect(toner?.method).toBe('intermittent');
  // 60 g in every fourth month: 15 g a month, give or take a third
  const mean = Number(toner?.months[0]?.mean);
  expect(mean).toBeGreaterThan(10);
  expect(mean).toBeLessThan(22);
});

test('a product that nobody used says so instead of guessing', async () => {
  const { items } = await forecasts();
  const idle = items.find((item) => item.productId === shelf.vol30);
  expect(idle?.months[0]?.mean).toBe('0');
  expect(idle?.sentence).toContain('Not used in 24 months');
});

test('developers are forecast by strength, in millilitres', async () => {
  const { items } = await forecasts('?by=strength');
  expect(items.map(({ strength, unit }) => `${strength} ${unit}`)).toEqual([
    '6 ml',
    '20 ml',
    '30 ml',
  ]);
  expect(items[1]?.history.at(-1)?.quantity).toBe('400');
  expect(items[1]?.productId).toBeUndefined();
});

test('demand by week, and net of what was undone', async () => {
  const used = await studio.owner.post<{ id: string }>('/uses', {
    usedAt: '2026-03-01T08:30:00Z',
    lines: [{ productId: shelf.powder, quantity: '40', unit: 'g' }],
  });
  const week = () =>
    studio.manager.get<{ rows: DemandRowView[] }>(
      `/demand?every=week&from=2026-02-16&productId=${shelf.powder}`,
    );
  expect((await week()).rows.map(({ period, quantity }) => [period, quantity.quantity])).toEqual([
    ['2026-02-16', '75'],
    ['2026-02-23', '115'],
  ]);
  const [movement] = await movementsOf(used.id);
  await studio.owner.post(`/movements/${movement}/reversal`, {});
  expect((await week()).rows.at(-1)?.quantity.quantity).toBe('75');
});

test('what counts find missing is added to the forecast and said', async () => {
  const before = (await forecasts()).items.find((item) => item.productId === shelf.vol20);
  // the shelf began with 1000 ml and went beyond the book; the count sets it, then 120 go missing
  const count = (countedAt: string, quantity: string) =>
    studio.manager.post('/counts', {
      countedAt,
      lines: [{ productId: shelf.vol20, counted: { quantity, unit: 'ml' } }],
    });
  studio.clock.set('2026-03-01T09:30:00Z');
  await studio.manager.post('/deliveries', {
    deliveredOn: '2026-03-01',
    lines: [{ productId: shelf.vol20, packs: 20, packPrice: '6' }],
  });
  await count('2026-03-01T09:20:00Z', '5000');
  studio.clock.set('2026-03-31T09:00:00Z');
  await count('2026-03-31T08:00:00Z', '4880');
  const after = (await forecasts()).items.find((item) => item.productId === shelf.vol20);
  expect(before?.months[0]?.notEntered).toBe('0');
  expect(Number(after?.months[0]?.notEntered)).toBeGreaterThan(0);
  expect(after?.sentence).toContain('are added for it');
});

test('a horizon beyond twelve months is refused with a sentence', async () => {
  const problem = await studio.manager.refused('GET', '/forecasts?horizon=13');
  expect(problem.status).toBe(400);
  expect(problem.errors[0]?.detail).toContain('12');
  expect((await studio.stylist.refused('GET', '/forecasts')).status).toBe(403);
});

async function movementsOf(journalId: string): Promise<string[]> {
  const { items } = await studio.owner.get<{ items: { id: string; journalId: string }[] }>(
    '/movements?limit=50',
  );
  return items.filter((item) => item.journalId === journalId).map((item) => item.id);
}

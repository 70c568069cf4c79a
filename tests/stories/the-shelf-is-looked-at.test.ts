/** The shelf is looked at: on hand, by strength, worth on a past day, use, the ledger as CSV. */
import { parse } from 'csv-parse/sync';
import type { MovementView, ShelfValueView, UsageRowView } from '../../shared/contract/stock.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let twenty: ShelfStory;
let strong: ShelfStory;
let toner: ShelfStory;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
  twenty = await ShelfStory.of(studio, {
    name: 'A developer 20 vol',
    kind: 'developer',
    unit: 'ml',
    strength: '20',
  });
  strong = await ShelfStory.of(studio, {
    name: 'Another 20 vol',
    kind: 'developer',
    unit: 'g',
    strength: '20',
    density: '1.02',
  });
  toner = await ShelfStory.of(studio, { name: '=Toner 7' });
  await twenty.deliver('2000', '20', '2026-01-05');
  await strong.deliver('1020', '15', '2026-01-05');
  await toner.deliver('600', '60', '2026-01-05');
  await twenty.use('100', '2026-01-20T10:00:00Z');
  await twenty.use('200', '2026-02-10T10:00:00Z');
  await strong.use('51', '2026-02-11T10:00:00Z');
  await toner.use('60', '2026-02-28T23:30:00Z'); // Lisbon is on UTC in winter: still February
  const mistake = await toner.use('300', '2026-03-01T10:00:00Z');
  await toner.undo(mistake.id);
  await toner.use('40', '2026-03-05T10:00:00Z');
});
afterAll(async () => {
  await studio.audit();
  await studio.close();
});

const usage = async (query: string) =>
  (await studio.manager.get<{ rows: UsageRowView[] }>(`/usage?${query}`)).rows.map((row) =>
    [row.name, row.strength, row.month, row.quantity, row.unit, row.value]
      .filter((part) => part !== undefined)
      .join(' '),
  );

test('use by product: whole months and days, net of what was undone', async () => {
  expect(await usage('from=2026-01-01&to=2026-03-13')).toEqual([
    '=Toner 7 100 g 10.000000',
    'A developer 20 vol 300 ml 3.000000',
    'Another 20 vol 51 g 0.750000',
  ]);
  // 10 February is in, 28 February is not
  expect(await usage('from=2026-02-10&to=2026-02-28&by=product')).toEqual([
    'A developer 20 vol 200 ml 2.000000',
    'Another 20 vol 51 g 0.750000',
  ]);
});

test('use by strength, in millilitres whatever it is kept in, month by month', async () => {
  expect(await usage('from=2026-01-15&to=2026-03-01&by=strength,month')).toEqual([
    '20 2026-01 100 ml 1.000000',
    '20 2026-02 250 ml 2.750000', // 200 ml and 51 g / 1.02
  ]);
});

test('by month, each unit for itself', async () => {
  expect(await usage('from=2026-02-01&to=2026-04-01&by=month')).toEqual([
    '2026-02 111 g 6.750000',
    '2026-02 200 ml 2.000000',
    '2026-03 40 g 4.000000',
  ]);
});

test('worth at the end of a past day, in the middle of a month and at its end', async () => {
  const on = async (day: string) => {
    const view = await studio.manager.get<ShelfValueView>(`/shelf/value?at=${day}`);
    return [view.value, ...view.rows.map((row) => `${row.name} ${row.onHand.quantity}`)];
  };
  expect(await on('2026-01-04')).toEqual(['0.000000']);
  expect(await on('2026-01-31')).toEqual([
    '94.000000',
    '=Toner 7 600',
    'A developer 20 vol 1900',
    'Another 20 vol 1020',
  ]);
  expect(await on('2026-02-10')).toEqual([
    '92.000000',
    '=Toner 7 600',
    'A developer 20 vol 1700',
    'Another 20 vol 1020',
  ]);
  expect((await on('2026-03-12'))[0]).toBe('81.250000');
});

test('by strength the developers are added up', async () => {
  expect(await studio.manager.get('/shelf?by=strength')).toEqual({
    items: [
      {
        strength: '20',
        onHand: { quantity: '2650', unit: 'ml' }, // 1700 and 969 g / 1.02
        value: '31.250000',
        products: [
          { productId: twenty.productId, onHand: { quantity: '1700', unit: 'ml' } },
          { productId: strong.productId, onHand: { quantity: '950', unit: 'ml' } },
        ],
      },
    ],
  });
  const { items } = await studio.bench.get<{ items: object[] }>('/shelf');
  expect(items[0]).not.toHaveProperty('value');
});

test('the ledger in pages, filtered, newest first', async () => {
  const query = `product=${toner.productId}&limit=2`;
  const seen: MovementView[] = [];
  let cursor = '';
  do {
    const page = await studio.manager.get<{ items: MovementView[]; next: string | null }>(
      `/movements?${query}${cursor}`,
    );
    seen.push(...page.items);
    cursor = page.next === null ? '' : `&cursor=${page.next}`;
  } while (cursor !== '');
  expect(seen.map(({ quantity, from, to }) => `${quantity} ${from} > ${to}`)).toEqual([
    '40 shelf > head',
    '300 head > shelf',
    '300 shelf > head',
    '60 shelf > head',
    '600 supplier > shelf',
  ]);
  const march = await studio.manager.get<{ items: MovementView[] }>(
    `/movements?${query}&from=2026-03-01&to=2026-03-05&kind=use`,
  );
  expect(march.items.map(({ quantity }) => quantity)).toEqual(['300']);
});

test('the same as CSV, by Accept or by format; a name is never a formula', async () => {
  const asked = await studio.manager.ask<string>(
    'GET',
    `/movements?product=${toner.productId}`,
    undefined,
    { accept: 'text/csv' },
  );
  expect(asked.headers['content-type']).toContain('text/csv');
  const rows = parse<Record<string, string>>(asked.body, { columns: true });
  expect(rows).toHaveLength(5);
  expect(rows[0]).toMatchObject({ product: "'=Toner 7", quantity: '40', value: '4.000000' });
  const format = await studio.stylist.ask<string>('GET', '/movements?format=csv&kind=use');
  expect(format.body.split('\n')[0]).not.toContain('value');
});

/** Entries late, out of order, twice, from two benches at once: they end with the same stock. */
import { randomUUID } from 'node:crypto';
import { aShelf, onHandOf, type Shelf } from '../support/saltmarsh.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let shelf: Shelf;

beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-03T09:00:00Z');
  shelf = await aShelf(studio);
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const grams = (quantity: string) => ({ quantity, unit: 'g' });

interface Step {
  readonly path: string;
  readonly body: object;
}

/** A toner thinned in use: 40 + 40, 30 left, 15 more, 9 left. */
function steps(): Step[] {
  const pour = (productId: string, quantity: string, pouredAt: string) => ({
    path: 'pours',
    body: { productId, quantity, unit: 'g', pouredAt },
  });
  return [
    pour(shelf.toner, '40', '2026-03-03T08:10:00Z'),
    pour(shelf.vol6, '40', '2026-03-03T08:11:00Z'),
    { path: 'weighings', body: { net: grams('30'), at: '2026-03-03T08:20:00Z' } },
    pour(shelf.vol6, '15', '2026-03-03T08:21:00Z'),
    { path: 'settlement', body: { leftover: grams('9'), settledAt: '2026-03-03T08:40:00Z' } },
  ];
}

async function recordedIn(order: readonly number[]): Promise<string[]> {
  const { id } = await studio.owner.post<{ id: string }>('/bowls', { purpose: 'gloss' });
  const all = steps();
  for (const index of order) {
    const { path, body } = all[index] as Step;
    await studio.owner.post(`/bowls/${id}/${path}`, body);
  }
  const { items } = await studio.owner.get<{
    items: { productId: string; from: string; to: string; quantity: string }[];
  }>(`/movements?bowl=${id}&limit=200`);
  const net = new Map<string, number>();
  for (const { productId, from, to, quantity } of items) {
    for (const [place, sign] of [
      [to, 1],
      [from, -1],
    ] as const) {
      const key = `${productId} ${place}`;
      net.set(key, (net.get(key) ?? 0) + sign * Number(quantity));
    }
  }
  return [...net].map(([key, quantity]) => `${key} ${quantity.toFixed(3)}`).sort();
}

test('a bowl’s entries may come in any order that begins with a pour', async () => {
  const straight = await recordedIn([0, 1, 2, 3, 4]);
  expect(straight).toContain(`${shelf.toner} bin 3.000`);
  expect(straight).toContain(`${shelf.vol6} bin 6.000`);
  for (const order of [
    [1, 0, 2, 3, 4],
    [0, 1, 3, 2, 4],
    [0, 1, 2, 4, 3],
    [3, 1, 0, 2, 4],
    [0, 3, 4, 1, 2],
  ]) {
    expect([order, await recordedIn(order)]).toEqual([order, straight]);
  }
});

test('twelve bowls at the same moment from the last of a bottle: all are booked', async () => {
  const before = Number(await onHandOf(studio, shelf.vol30));
  const at = '2026-03-03T08:45:00Z';
  const bowls = Array.from({ length: 12 }, () => ({
    id: randomUUID(),
    bowl: { id: randomUUID(), purpose: 'front' },
    pours: [
      { id: randomUUID(), productId: shelf.powder, quantity: '20', unit: 'g', pouredAt: at },
      { id: randomUUID(), productId: shelf.vol30, quantity: '100', unit: 'g', pouredAt: at },
    ],
    settlement: { id: randomUUID(), leftover: grams('12'), settledAt: at },
  }));
  const answers = await Promise.all(
    bowls.map((bowl) => studio.bench.ask<{ pours: object[] }>('POST', '/bowls/record', bowl)),
  );
  expect(answers.map((answer) => answer.status)).toEqual(bowls.map(() => 201));
  expect(before).toBeLessThan(1200);
  expect(await onHandOf(studio, shelf.vol30)).toBe('0');
  const flagged = answers.filter((answer) => JSON.stringify(answer.body).includes('"recount"'));
  expect(flagged).toHaveLength(1); // raised by the very pour that went beyond the book
  const shelfNow = await studio.owner.get<{ items: { productId: string; flags: string[] }[] }>(
    '/shelf',
  );
  const vol30 = shelfNow.items.find((item) => item.productId === shelf.vol30);
  expect(vol30?.flags).toEqual(expect.arrayContaining(['recount', 'out']));
});

test('the same request at the same moment from two benches is booked once', async () => {
  const before = Number(await onHandOf(studio, shelf.vol20));
  const at = '2026-03-03T08:46:00Z';
  const request = {
    id: randomUUID(),
    bowl: { id: randomUUID(), purpose: 'nape' },
    pours: [{ id: randomUUID(), productId: shelf.vol20, quantity: '50', unit: 'g', pouredAt: at }],
  };
  const answers = await Promise.all(
    Array.from({ length: 6 }, () => studio.bench.ask('POST', '/bowls/record', request)),
  );
  expect(answers.map((answer) => answer.status)).toEqual(answers.map(() => 201));
  expect(answers.filter((answer) => answer.headers['replayed'] === undefined)).toHaveLength(1);
  expect(before - Number(await onHandOf(studio, shelf.vol20))).toBe(50);
});

test('two days late keeps its Saturday, and a clock that is wrong is corrected', async () => {
  studio.clock.set('2026-03-09T08:00:00Z');
  const { id } = await studio.owner.post<{ id: string }>('/bowls', { purpose: 'late' });
  const late = await studio.owner.post<{ pouredAt: string }>(`/bowls/${id}/pours`, {
    productId: shelf.powder,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-07T15:00:00Z',
  });
  expect(late.pouredAt).toBe('2026-03-07T15:00:00.000Z');
  const skewed = await studio.owner.post<{ pouredAt: string }>(`/bowls/${id}/pours`, {
    productId: shelf.vol20,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-09T09:55:00Z',
    sentAt: '2026-03-09T10:00:00Z', // two hours ahead of the service
  });
  expect(skewed.pouredAt).toBe('2026-03-09T07:55:00.000Z');
});

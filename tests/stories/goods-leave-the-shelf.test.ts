/** Goods leave the shelf without a bowl: used, thrown away, sent back; and what is refused. */
import { randomUUID } from 'node:crypto';
import type { TakenAnswer } from '../../shared/contract/stock.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const at = '2026-03-12T11:00:00Z';

test('good lots before expired ones, earliest expiry first; expired ones are flagged', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('50', '5', '2026-01-05', { expiresOn: '2026-03-11' });
  await toner.deliver('50', '6', '2026-01-06', { expiresOn: '2026-12-31' });
  await toner.deliver('50', '7', '2026-01-07', { expiresOn: '2026-04-01' });
  expect((await toner.shown()).flags).toEqual(['expiring', 'expired']);
  const first = await toner.use('60', at);
  expect(first.lines[0]).toMatchObject({ value: '8.200000' }); // 50 for 7.00, 10 of 50 for 6.00
  expect(first.flags).not.toContainEqual({ productId: toner.productId, flag: 'expired' });
  const second = await toner.use('45', at);
  expect(second.lines[0]).toMatchObject({ value: '5.300000' }); // 40 for 4.80, 5 of 50 for 5.00
  expect(second.flags).toContainEqual({ productId: toner.productId, flag: 'expired' });
});

test('an expired lot is thrown away by its name', async () => {
  const toner = await ShelfStory.of(studio);
  const old = await toner.deliver('50', '5', '2026-01-05', { expiresOn: '2026-03-11' });
  await toner.deliver('50', '6', '2026-01-06', { expiresOn: '2026-12-31' });
  const answer = await studio.manager.post<TakenAnswer>('/discards', {
    lines: [{ productId: toner.productId, lotId: old.lots[0]!.id, quantity: '50', unit: 'g' }],
    why: 'expired',
    at,
  });
  expect(answer.lines[0]!.lots).toEqual([
    { lotId: old.lots[0]!.id, quantity: '50', value: '5.000000' },
  ]);
  expect(await toner.holds()).toBe('50 for 6.000000');
  await toner.undo(answer.id);
  expect(await toner.holds()).toBe('100 for 11.000000');
});

test('sent back to the supplier at the value it has', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('300', '10', '2026-03-01');
  const answer = await studio.manager.post<TakenAnswer>('/supplier-returns', {
    lines: [{ productId: toner.productId, quantity: '100', unit: 'g' }],
    at,
  });
  expect(answer.lines[0]).toMatchObject({ value: '3.333333' });
  expect(await toner.holds()).toBe('200 for 6.666667');
});

test('grams of a product kept in ml go by its density; it says when there is none', async () => {
  const developer = { kind: 'developer', unit: 'ml', strength: '6' };
  const weighed = await ShelfStory.of(studio, { ...developer, density: '1.02' });
  const assumed = await ShelfStory.of(studio, developer);
  const answer = await studio.stylist.post<TakenAnswer>('/uses', {
    usedAt: at,
    lines: [
      { productId: weighed.productId, quantity: '61.2', unit: 'g' },
      { productId: assumed.productId, quantity: '61.2', unit: 'g' },
    ],
  });
  expect(answer.lines).toMatchObject([
    { quantity: '60', unit: 'ml', assumedDensity: false },
    { quantity: '61.2', unit: 'ml', assumedDensity: true },
  ]);
  expect(answer.lines[0]).not.toHaveProperty('value'); // no money for a stylist
});

test('what cannot be is refused, with field and remedy, and nothing is written', async () => {
  const toner = await ShelfStory.of(studio);
  const other = await ShelfStory.of(studio);
  const { lots } = await other.deliver('50', '5', '2026-03-01');
  const before = await studio.manager.get('/movements');
  const line = { productId: toner.productId, quantity: '5', unit: 'g' };
  const rows: [path: string, body: Record<string, unknown>, status: number, pointer: string][] = [
    ['uses', { lines: [{ ...line, quantity: '-5' }] }, 400, '/lines/0/quantity'],
    ['uses', { lines: [{ ...line, quantity: '0.0004' }] }, 400, '/lines/0/quantity'],
    ['uses', { lines: [{ ...line, unit: 'piece' }] }, 422, '/lines/0/unit'],
    ['uses', { lines: [line, { ...line, productId: randomUUID() }] }, 404, '/lines/1/productId'],
    ['uses', { lines: [line], visitId: randomUUID() }, 404, '/visitId'],
    ['discards', { lines: [{ ...line, lotId: lots[0]!.id }] }, 422, '/lines/0/lotId'],
    ['discards', { lines: [line], why: 'fell in the sea' }, 400, '/why'],
    ['supplier-returns', { lines: [] }, 400, '/lines'],
  ];
  for (const [path, body, status, pointer] of rows) {
    const times = path === 'uses' ? { usedAt: at } : { at, why: 'damaged' };
    const { why, ...plain } = times as { why?: string };
    const sent = { ...plain, ...(path === 'discards' ? { why } : {}), ...body };
    const answer = await studio.manager.ask<{ errors: unknown[] }>('POST', `/${path}`, sent);
    expect({ path, status: answer.status, errors: answer.body.errors }).toMatchObject({
      path,
      status,
      errors: [{ pointer }],
    });
  }
  expect(await studio.manager.get('/movements')).toEqual(before);
});

test('a device’s wrong clock is set right and said so', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('50', '5', '2026-03-01');
  const answer = await toner.use('5', '2026-03-12T21:00:00Z', { sentAt: '2026-03-12T21:05:00Z' });
  expect(answer).toMatchObject({ happenedAt: '2026-03-12T19:55:00.000Z', marks: ['clock'] });
});

test('a bowl is undone through the bowl, and the refusal names the call', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('50', '5', '2026-03-01');
  const bowl = await studio.manager.post<{ id: string }>('/bowls', { purpose: 'gloss' });
  await studio.manager.post(`/bowls/${bowl.id}/pours`, {
    productId: toner.productId,
    quantity: '30',
    unit: 'g',
    pouredAt: at,
  });
  const { items } = await studio.manager.get<{ items: { id: string }[] }>(
    `/movements?bowl=${bowl.id}`,
  );
  const refused = await studio.manager.refused('POST', `/movements/${items[0]!.id}/reversal`, {});
  expect(refused.detail).toContain(`POST /bowls/${bowl.id}/reversal`);
});

test('a stylist undoes their own use of today, nothing else', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('50', '5', '2026-03-01');
  const others = await toner.use('5', at);
  const answer = await studio.stylist.ask('POST', `/movements/${others.id}/reversal`, {});
  expect(answer).toMatchObject({ status: 403, body: { type: '/problems/not_your_right' } });
});

/** Costs are put right: filled in for what was used, changed for what is left, undone. */
import type { CostCorrectionAnswer, MovementView } from '../../shared/contract/stock.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const correct = (line: Record<string, unknown>, at: TestStudio = studio) =>
  at.manager.ask<CostCorrectionAnswer>('POST', '/cost-corrections', { lines: [line] });

async function movements(path: string): Promise<string[]> {
  const { items } = await studio.manager.get<{ items: MovementView[] }>(`/movements?${path}`);
  return items
    .reverse()
    .map(({ from, to, quantity, value }) => `${from} > ${to} ${quantity} ${value}`);
}

test('no cost is not zero: filled in on shelf, bowl, head and bin', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('500', undefined, '2026-03-01');
  expect((await toner.shown()).flags).toContain('no_cost');
  const used = await toner.use('100', '2026-03-10T11:00:00Z');
  expect(used.flags).toContainEqual({ productId: toner.productId, flag: 'no_cost' });
  await studio.manager.post('/discards', {
    lines: [{ productId: toner.productId, quantity: '20', unit: 'g' }],
    why: 'damaged',
    at: '2026-03-10T12:00:00Z',
  });
  const bowl = await studio.manager.post<{ id: string }>('/bowls', { purpose: 'gloss' });
  await studio.manager.post(`/bowls/${bowl.id}/pours`, {
    productId: toner.productId,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-12T19:00:00Z',
  });
  const { body } = await correct({ productId: toner.productId, unitCost: '0.02' });
  expect(body.lines).toEqual([
    {
      productId: toner.productId,
      lotId: null,
      unitCost: '0.02',
      shelf: '7.000000',
      used: '3.000000',
    },
  ]);
  expect(await toner.holds()).toBe('350 for 7.000000');
  expect((await toner.shown()).flags).not.toContain('no_cost');
  expect(await movements(`journal=${body.id}`)).toEqual([
    'shelf > correction 350 0.000000',
    'correction > shelf 350 7.000000',
    'bin > correction 20 0.000000',
    'correction > bin 20 0.400000',
    'bowl > correction 30 0.000000',
    'correction > bowl 30 0.600000',
    'head > correction 100 0.000000',
    'correction > head 100 2.000000',
  ]);
  const settled = await studio.manager.post(`/bowls/${bowl.id}/settlement`, {
    leftover: { quantity: '6', unit: 'g' },
    settledAt: '2026-03-12T19:30:00Z',
  });
  expect(settled).toMatchObject({
    value: { mixed: '0.600000', applied: '0.480000', wasted: '0.120000' },
  });
});

test('a later pour beyond the book knows the filled-in cost', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.use('100', '2026-03-10T11:00:00Z');
  await correct({ productId: toner.productId, unitCost: '0.05' });
  const used = await toner.use('10', '2026-03-11T11:00:00Z');
  expect(used.lines[0]).toMatchObject({ value: '0.500000' });
});

test('a visit’s use gets its value, and the answer names the visit', async () => {
  const [row] = await studio.service.database.asOwner<{ id: string }>(
    `insert into visit (studio_id, id, started_at, recorded_at)
     values ($1, gen_random_uuid(), now(), now()) returning id`,
    [studio.id],
  );
  const toner = await ShelfStory.of(studio);
  await toner.deliver('500', undefined, '2026-03-01');
  await toner.use('100', '2026-03-10T11:00:00Z', { visitId: row!.id });
  const { body } = await correct({ productId: toner.productId, unitCost: '0.02' });
  expect(body.visitIds).toEqual([row!.id]);
  const undone = await studio.manager.post(`/movements/${body.id}/reversal`, {});
  expect(undone).toMatchObject({ visitIds: [row!.id] });
  expect(await toner.holds()).toBe('400 for 0.000000');
});

test('one lot’s cost changed: what was used keeps its own; undone while untouched', async () => {
  const toner = await ShelfStory.of(studio);
  const { lots } = await toner.deliver('500', '10', '2026-03-01');
  await toner.use('100', '2026-03-10T11:00:00Z');
  const first = await correct({ lotId: lots[0]!.id, cost: '12.5' });
  expect(first.body.lines[0]).toMatchObject({
    unitCost: '0.025',
    shelf: '2.000000',
    used: '0.000000',
  });
  expect(await toner.holds()).toBe('400 for 10.000000');
  expect(await correct({ lotId: lots[0]!.id, cost: '12.5' })).toMatchObject({
    status: 422,
    body: { type: '/problems/nothing_without_cost' },
  });
  await toner.undo(first.body.id);
  expect(await toner.holds()).toBe('400 for 8.000000');
  const second = await correct({ lotId: lots[0]!.id, cost: '12.5' });
  await toner.use('1', '2026-03-11T11:00:00Z');
  const refused = await studio.manager.ask('POST', `/movements/${second.body.id}/reversal`, {});
  expect(refused).toMatchObject({ status: 422, body: { type: '/problems/touched_since' } });
});

test('by lot with its cost, or by product with that of a unit: one of the two', async () => {
  const toner = await ShelfStory.of(studio);
  const answer = await correct({ productId: toner.productId, cost: '5' });
  expect(answer).toMatchObject({
    status: 400,
    body: { type: '/problems/lot_or_product', errors: [{ pointer: '/lines/0' }] },
  });
});

test('average: one value for all lots, changed by what the lot’s change is worth', async () => {
  const averaging = await studio.service.studio({ costingMethod: 'average' });
  const toner = await ShelfStory.of(averaging);
  await toner.deliver('100', '2', '2026-03-01');
  const { id, lots } = await toner.deliver('100', '4', '2026-03-02');
  await toner.use('50', '2026-03-10T11:00:00Z');
  expect(await toner.holds()).toBe('150 for 4.500000');
  // the second lot cost 6, not 4: 0.02 more for each of its 100 g
  const first = await correct({ lotId: lots[0]!.id, cost: '6' }, averaging);
  expect(first.body.lines[0]).toMatchObject({ shelf: '2.000000' });
  expect(await toner.holds()).toBe('150 for 6.500000');
  // and then 7: 0.01 more
  await correct({ lotId: lots[0]!.id, cost: '7' }, averaging);
  expect(await toner.holds()).toBe('150 for 7.500000');
  const refused = await averaging.manager.ask('POST', `/movements/${id}/reversal`, {});
  expect(refused).toMatchObject({ status: 422, body: { type: '/problems/touched_since' } });
  await toner.use('150', '2026-03-11T11:00:00Z');
  expect(await toner.holds()).toBe('0 for 0.000000');
  await averaging.audit();
});

/** The shelf is counted: what comes late, what is found again, what was counted wrongly. */
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

async function aHundred(facts = {}): Promise<ShelfStory> {
  const toner = await ShelfStory.of(studio, facts);
  await toner.deliver('100', '10', '2026-03-01');
  return toner;
}

test('less than the book: the difference is gone at its cost', async () => {
  const toner = await aHundred();
  const answer = await toner.count('80', '2026-03-10T18:00:00Z');
  expect(answer.lines).toEqual([
    {
      productId: toner.productId,
      counted: { quantity: '80', unit: 'g' },
      book: { quantity: '100', unit: 'g' },
      difference: '-20',
      value: '-2.000000',
      stands: true,
    },
  ]);
  expect(await toner.holds()).toBe('80 for 8.000000');
});

test('a bowl of before the count arrives after it: the counted figure stands', async () => {
  const toner = await aHundred();
  await toner.count('80', '2026-03-10T18:00:00Z');
  const late = await toner.use('15', '2026-03-10T11:00:00Z');
  expect(late.lines[0]).toMatchObject({ quantity: '15', value: '1.500000' });
  expect(await toner.holds()).toBe('80 for 8.000000');
  // after the count it counts
  await toner.use('5', '2026-03-10T18:30:00Z');
  expect(await toner.holds()).toBe('75 for 7.500000');
  // 15 of the 20 are explained: when 30 turn up, 5 come back and 25 are found
  const again = await toner.count('105', '2026-03-11T08:00:00Z');
  expect(again.lines[0]).toMatchObject({ book: { quantity: '75' }, difference: '30' });
  const { items } = await studio.manager.get<{ items: { quantity: string; reason: string }[] }>(
    `/movements?journal=${again.id}`,
  );
  expect(items.map(({ quantity }) => quantity).sort()).toEqual(['25', '5']);
  expect(await toner.holds()).toBe('105 for 10.500000');
});

test('entered after a use that followed it: the book of its own instant counts', async () => {
  const toner = await aHundred();
  await toner.use('30', '2026-03-11T09:00:00Z');
  const answer = await toner.count('90', '2026-03-11T08:00:00Z');
  expect(answer.lines[0]).toMatchObject({ book: { quantity: '100' }, difference: '-10' });
  expect(await toner.holds()).toBe('60 for 6.000000');
});

test('two counts of one instant: the last one entered stands', async () => {
  const toner = await aHundred();
  await toner.count('80', '2026-03-10T18:00:00Z');
  const second = await toner.count('85', '2026-03-10T18:00:00Z');
  expect(second.lines[0]).toMatchObject({ book: { quantity: '80' }, difference: '5' });
  expect(await toner.holds()).toBe('85 for 8.500000');
});

test('an older count changes nothing and says so', async () => {
  const toner = await aHundred();
  await toner.count('80', '2026-03-10T18:00:00Z');
  const older = await toner.count('50', '2026-03-09T18:00:00Z');
  expect(older.lines[0]).toMatchObject({ stands: false, value: '0.000000' });
  expect(older.warnings).toMatchObject([{ code: 'counted_since' }]);
  expect(await toner.holds()).toBe('80 for 8.000000');
});

test('a wrong count undone: late entries count again, the count before it stands', async () => {
  const toner = await aHundred();
  await toner.count('95', '2026-03-09T18:00:00Z');
  const wrong = await toner.count('60', '2026-03-10T18:00:00Z');
  const late = await toner.use('15', '2026-03-10T11:00:00Z');
  const earlier = await toner.use('7', '2026-03-09T11:00:00Z'); // before both counts
  expect(await toner.holds()).toBe('60 for 6.000000');
  await toner.undo(wrong.id);
  expect(await toner.holds()).toBe('80 for 8.000000'); // 95 less 15
  expect((await toner.shown()).lastCountedAt).toBe('2026-03-09T18:00:00.000Z');
  await toner.undo(late.id);
  expect(await toner.holds()).toBe('95 for 9.500000');
  await toner.undo(earlier.id);
  expect(await toner.holds()).toBe('95 for 9.500000');
});

test('counts undone in any order', async () => {
  const toner = await aHundred();
  const first = await toner.count('90', '2026-03-09T18:00:00Z');
  const second = await toner.count('85', '2026-03-10T18:00:00Z');
  await toner.undo(first.id);
  expect(await toner.holds()).toBe('85 for 8.500000');
  await toner.undo(second.id);
  expect(await toner.holds()).toBe('100 for 10.000000');
  expect((await toner.shown()).lastCountedAt).toBeNull();
});

test('used beyond the book, then counted; the count undone opens the shortfall again', async () => {
  const toner = await aHundred();
  const used = await toner.use('130', '2026-03-10T11:00:00Z');
  expect(used.flags).toContainEqual({ productId: toner.productId, flag: 'recount' });
  expect((await toner.shown()).flags).toContain('recount');
  const count = await toner.count('0', '2026-03-10T18:00:00Z');
  expect((await toner.shown()).flags).not.toContain('recount');
  await toner.undo(count.id);
  expect((await toner.shown()).flags).toContain('recount');
  // a delivery of that morning explains it
  const morning = await toner.deliver('500', '50', '2026-03-10');
  expect(morning.lots[0]).toMatchObject({ givenBack: '30' });
  expect(await toner.holds()).toBe('470 for 47.000000');
});

test('a bowl comes two days late, after a delivery it cannot have been made of', async () => {
  const toner = await aHundred();
  await toner.deliver('500', '50', '2026-03-12');
  const late = await toner.use('130', '2026-03-10T11:00:00Z');
  expect(late.flags).toContainEqual({ productId: toner.productId, flag: 'recount' });
  expect(await toner.holds()).toBe('500 for 50.000000');
});

test('full packs and started ones on the scale', async () => {
  const developer = await ShelfStory.of(studio, {
    name: 'Developer 20 vol',
    kind: 'developer',
    unit: 'ml',
    strength: '20',
    density: '1.02',
    packs: [{ label: 'bottle', quantity: '1000', emptyWeight: { quantity: '45', unit: 'g' } }],
  });
  await developer.deliver('3000', '21', '2026-03-01');
  const count = (line: Record<string, unknown>) =>
    studio.manager.ask('POST', '/counts', {
      countedAt: '2026-03-10T18:00:00Z',
      lines: [{ productId: developer.productId, ...line }],
    });
  const gross = (quantity: string) => ({ gross: { quantity, unit: 'g' } });
  // (562 - 45) / 1.02 = 506.863 ml
  const answer = await count({ fullPacks: 2, open: [gross('562')] });
  expect(answer.body).toMatchObject({ lines: [{ counted: { quantity: '2506.863' } }] });
  expect(await developer.shown()).toMatchObject({
    sealed: 2,
    started: 1,
    startedHolds: { quantity: '506.863', unit: 'ml' },
  });
  const full = await count({ fullPacks: 2, open: [gross('1500')] });
  expect(full.body).toMatchObject({ warnings: [{ code: 'fuller_than_full' }] });
  expect(await count({ open: [gross('40')] })).toMatchObject({
    status: 422,
    body: {
      type: '/problems/lighter_than_empty',
      errors: [{ pointer: '/lines/0/open/0/gross' }],
    },
  });
  expect(await count({ fullPacks: 1, counted: { quantity: '5', unit: 'ml' } })).toMatchObject({
    status: 400,
    body: { type: '/problems/counted_or_packs' },
  });
  expect(await count({ counted: { quantity: '3', unit: 'piece' } })).toMatchObject({
    status: 422,
    body: { type: '/problems/pieces_against_weight', errors: [{ pointer: '/lines/0/counted' }] },
  });
});

test('a figure far from the book is booked, and asked about', async () => {
  const toner = await aHundred({ packs: [{ label: 'tube', quantity: '60' }] });
  const answer = await toner.count('1000', '2026-03-10T18:00:00Z');
  expect(answer.warnings).toMatchObject([{ code: 'far_from_book' }]);
  expect(await toner.holds()).toBe('1000 for 100.000000');
});

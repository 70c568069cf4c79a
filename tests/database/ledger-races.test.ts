/** Many benches at once on one shelf: nothing lost, nothing below zero, no endless waiting. */
import { randomUUID } from 'node:crypto';
import { decimal, fixed, sum } from '../../shared/decimal.js';
import type { TakenAnswer } from '../../shared/contract/stock.js';
import type { Answer } from '../support/client.js';
import { ShelfStory } from '../support/shelf-story.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-12T20:00:00Z');
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const usedAt = '2026-03-12T19:00:00Z';
const times = <T>(count: number, work: (index: number) => Promise<T>): Promise<T[]> =>
  Promise.all(Array.from({ length: count }, (_, index) => work(index)));

async function aBowl(): Promise<string> {
  return (await studio.bench.post<{ id: string }>('/bowls', { purpose: 'gloss' })).id;
}

function pour(bowlId: string, productId: string, quantity: string): Promise<Answer> {
  return studio.bench.ask('POST', `/bowls/${bowlId}/pours`, {
    productId,
    quantity,
    unit: 'g',
    pouredAt: usedAt,
  });
}

test('two benches pour the last 50 g at once: both are recorded, one beyond the book', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('50', '10', '2026-03-01');
  const bowls = await times(2, aBowl);
  const answers = await Promise.all(bowls.map((bowl) => pour(bowl, toner.productId, '50')));
  expect(answers.map(({ status }) => status)).toEqual([201, 201]);
  expect(await toner.holds()).toBe('0 for 0.000000');
  const { items } = await studio.manager.get<{ items: { reason: string | null }[] }>(
    `/movements?product=${toner.productId}`,
  );
  expect(items.filter(({ reason }) => reason === 'shortfall')).toHaveLength(1);
  expect((await toner.shown()).flags).toContain('recount');
});

test('8 writers on one hot product: every gram and every millionth is accounted for', async () => {
  const developer = await ShelfStory.of(studio, {
    name: 'Developer 20 vol',
    kind: 'developer',
    unit: 'ml',
    strength: '20',
  });
  await developer.deliver('1000', '7', '2026-03-01');
  await developer.deliver('1000', '8', '2026-03-02');
  const answers = await times(8, async () => {
    const own: TakenAnswer[] = [];
    for (let turn = 0; turn < 6; turn += 1) own.push(await developer.use('33.333', usedAt));
    return own;
  });
  const used = answers.flat();
  expect(used).toHaveLength(48);
  const left = (await developer.shown()).onHand.quantity;
  expect(left).toBe('400.016'); // 2000 - 48 x 33.333
  const spent = sum(used.map(({ lines }) => decimal(lines[0]!.value!)));
  const { value } = await developer.shown();
  expect(fixed(spent.plus(value!), 6)).toBe('15.000000');
});

test('products named in opposite orders do not wait for each other for ever', async () => {
  const [one, other] = [await ShelfStory.of(studio), await ShelfStory.of(studio)];
  await one.deliver('1000', '10', '2026-03-01');
  await other.deliver('1000', '10', '2026-03-01');
  const use = (ids: string[]) =>
    studio.manager.ask('POST', '/uses', {
      usedAt,
      lines: ids.map((productId) => ({ productId, quantity: '1', unit: 'g' })),
    });
  const answers = await times(24, (index) =>
    use(index % 2 === 0 ? [one.productId, other.productId] : [other.productId, one.productId]),
  );
  expect(answers.map(({ status }) => status)).toEqual(Array.from({ length: 24 }, () => 201));
  expect([await one.holds(), await other.holds()]).toEqual([
    '976 for 9.760000',
    '976 for 9.760000',
  ]);
});

test('one request sent by 6 at once is booked once, and all get the same answer', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('100', '10', '2026-03-01');
  const body = {
    id: randomUUID(),
    usedAt,
    lines: [{ productId: toner.productId, quantity: '10', unit: 'g' }],
  };
  const answers = await times(6, () => studio.manager.ask('POST', '/uses', body));
  expect(new Set(answers.map(({ body: answer }) => JSON.stringify(answer))).size).toBe(1);
  expect(answers.filter(({ headers }) => headers['replayed'] !== 'true')).toHaveLength(1);
  expect(await toner.holds()).toBe('90 for 9.000000');
});

test('one entry undone by 6 at once is undone once', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('100', '10', '2026-03-01');
  const { id } = await toner.use('10', usedAt);
  const answers = await times(6, () => studio.manager.ask('POST', `/movements/${id}/reversal`, {}));
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409, 409]);
  expect(await toner.holds()).toBe('100 for 10.000000');
});

test('a count among pours: what happened before it does not change what was counted', async () => {
  const toner = await ShelfStory.of(studio);
  await toner.deliver('1000', '10', '2026-03-01');
  const countedAt = '2026-03-12T18:00:00Z';
  await Promise.all([
    ...Array.from({ length: 8 }, () => toner.use('10', '2026-03-12T17:00:00Z')),
    toner.count('500', countedAt),
    ...Array.from({ length: 8 }, () => toner.use('10', '2026-03-12T19:00:00Z')),
  ]);
  expect((await toner.shown()).onHand.quantity).toBe('420');
});

test('a first delivery and first uses of a product nobody has touched', async () => {
  const toner = await ShelfStory.of(studio);
  const answers = await Promise.all([
    ...Array.from({ length: 4 }, () => toner.use('10', usedAt)),
    toner.deliver('100', '10', '2026-03-12'),
    ...Array.from({ length: 4 }, () => toner.use('10', usedAt)),
  ]);
  expect(answers).toHaveLength(9);
  expect((await toner.shown()).onHand.quantity).toBe('20');
});

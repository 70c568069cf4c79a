/** One bowl at the bench, from its plan to the basin; figures worked out by hand. */
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

interface Bowl {
  id: string;
  state: string;
  holds: { quantity: string };
  mixed: { quantity: string };
  firstContactAt: string | null;
}
interface Pour {
  id: string;
  value: string;
  toPour: { productId: string; grams: string }[];
  offers: { kind: string; contents: { quantity: string } }[];
  strength?: { volume: string };
  flags: { productId: string; flag: string }[];
}
interface Settled {
  mixed: { quantity: string };
  applied: { quantity: string };
  wasted: { quantity: string };
  wasteShare: string;
  value?: { mixed: string; applied: string; wasted: string };
  pours: { productId: string; applied: { quantity: string }; wasted: { quantity: string } }[];
}

function plan(total: string) {
  return {
    ratio: '1:2',
    powders: [{ productId: shelf.powder }],
    strength: '13',
    developers: [shelf.vol6, shelf.vol20],
    size: { total: grams(total) },
    contact: 'off-scalp',
  };
}

async function open(body: object = {}): Promise<string> {
  const bowl = await studio.owner.post<Bowl>('/bowls', { purpose: 'hairline', ...body });
  return bowl.id;
}

function pour(bowl: string, productId: string, quantity: string, at: string, rest: object = {}) {
  return studio.owner.post<Pour>(`/bowls/${bowl}/pours`, {
    productId,
    quantity,
    unit: 'g',
    pouredAt: at,
    ...rest,
  });
}

function settle(bowl: string, leftover: string, settledAt: string, rest: object = {}) {
  return studio.owner.post<Settled>(`/bowls/${bowl}/settlement`, {
    leftover: grams(leftover),
    settledAt,
    ...rest,
  });
}

test('equal parts of 6 and 20 vol are planned for 13 vol, 1:2 with powder', async () => {
  // common practice, no source: equal parts of 6 and 20 are 13
  const answer = await studio.owner.post<{
    pours: { productId: string; grams: string }[];
    strength: { volume: string; percent: string };
    peroxidePercent: string;
    cost: string;
  }>('/mix-plans', plan('90'));
  expect(answer.pours.map((each) => each.grams)).toEqual(['30', '30', '30']);
  expect(answer.strength).toEqual({ volume: '13', percent: '3.9' });
  expect(answer.peroxidePercent).toBe('2.6'); // 60 g of 3.9 % in 90 g
  expect(answer.cost).toBe('1.260000'); // 30 x 0.03 + 60 x 0.006
});

test('a bowl is poured, weighed and settled: deducted, priced, wasted by its share', async () => {
  const before = await onHandOf(studio, shelf.powder);
  const bowl = await open({ plan: plan('90') });
  const first = await pour(bowl, shelf.powder, '30', '2026-03-03T08:40:00Z');
  expect(first.value).toBe('0.900000');
  expect(first.toPour).toEqual([
    expect.objectContaining({ productId: shelf.vol6, grams: '30' }),
    expect.objectContaining({ productId: shelf.vol20, grams: '30' }),
  ]);
  await pour(bowl, shelf.vol6, '30', '2026-03-03T08:41:00Z');
  const last = await pour(bowl, shelf.vol20, '30', '2026-03-03T08:42:00Z');
  expect(last.strength?.volume).toBe('13');
  expect(last.toPour).toEqual([]);
  const settled = await settle(bowl, '9', '2026-03-03T08:55:00Z');
  expect(settled).toMatchObject({
    mixed: grams('90'),
    applied: grams('81'),
    wasted: grams('9'),
    wasteShare: '0.1',
    value: { mixed: '1.260000', applied: '1.134000', wasted: '0.126000' },
  });
  expect(settled.pours.map((each) => each.wasted.quantity)).toEqual(['3', '3', '3']);
  expect(Number(before) - Number(await onHandOf(studio, shelf.powder))).toBe(30);
});

test('after an overshoot the offers restore the shares or keep the size', async () => {
  const bowl = await open({ plan: plan('90') });
  const over = await pour(bowl, shelf.powder, '33', '2026-03-03T08:40:00Z');
  // restore: T = 33 / (1/3) = 99, so 33 + 33 of developer; keep: 57 over two equal rests
  expect(over.offers.map((offer) => offer.kind)).toEqual(['restore', 'keep_the_size']);
  expect(over.offers[0]?.contents.quantity).toBe('99');
  expect(over.toPour.map((each) => each.grams)).toEqual(['33', '33']);
  const refused = await studio.owner.refused('POST', `/bowls/${bowl}/void`, {});
  expect(refused.type).toBe('/problems/bowl_has_pours');
  await settle(bowl, '33', '2026-03-03T08:50:00Z', { why: 'mixed wrong' });
});

test('a toner is thinned from 1:1 to 1:2 by what the bowl holds then', async () => {
  // common practice, no source: 40 + 40 mixed, 30 left, 15 of developer to come to 1:2
  const bowl = await open({ purpose: 'gloss' });
  await pour(bowl, shelf.toner, '40', '2026-03-03T08:10:00Z');
  await pour(bowl, shelf.vol6, '40', '2026-03-03T08:11:00Z');
  const weighed = await studio.owner.post<{ applied: object }>(`/bowls/${bowl}/weighings`, {
    net: grams('30'),
    at: '2026-03-03T08:20:00Z',
  });
  expect(weighed.applied).toEqual(grams('50'));
  await pour(bowl, shelf.vol6, '15', '2026-03-03T08:21:00Z');
  const settled = await settle(bowl, '9', '2026-03-03T08:40:00Z');
  const wasted = settled.pours.map((each) => [each.productId, each.wasted.quantity]);
  expect(wasted).toEqual([
    [shelf.toner, '3'],
    [shelf.vol6, '3'],
    [shelf.vol6, '3'],
  ]);
});

test('a pour that comes after the settlement is entered where it happened', async () => {
  const late = await open();
  await pour(late, shelf.powder, '30', '2026-03-03T08:10:00Z');
  await settle(late, '9', '2026-03-03T08:30:00Z');
  await pour(late, shelf.vol20, '60', '2026-03-03T08:11:00Z');
  const bowl = await studio.owner.get<Bowl>(`/bowls/${late}`);
  expect(bowl).toMatchObject({
    state: 'settled',
    mixed: grams('90'),
    firstContactAt: '2026-03-03T08:11:00.000Z',
  });
  const inTime = await open();
  await pour(inTime, shelf.powder, '30', '2026-03-03T08:10:00Z');
  await pour(inTime, shelf.vol20, '60', '2026-03-03T08:11:00Z');
  await settle(inTime, '9', '2026-03-03T08:30:00Z');
  expect(await wastedOf(late)).toEqual(await wastedOf(inTime));
  const after = await studio.owner.refused('POST', `/bowls/${late}/pours`, {
    productId: shelf.powder,
    quantity: '1',
    unit: 'g',
    pouredAt: '2026-03-03T08:31:00Z',
  });
  expect(after.type).toBe('/problems/bowl_is_settled');
});

test('recorded at once, twice, in parts: booked once', async () => {
  const before = await onHandOf(studio, shelf.vol30);
  const whole = recorded();
  const first = await studio.bench.ask('POST', '/bowls/record', whole);
  const again = await studio.bench.ask('POST', '/bowls/record', whole);
  expect([first.status, again.status]).toEqual([201, 201]);
  expect(again.headers['replayed']).toBe('true');
  expect(again.body).toEqual(first.body);
  const otherEnvelope = { ...whole, id: randomUUID() };
  expect((await studio.bench.ask('POST', '/bowls/record', otherEnvelope)).status).toBe(201);
  const alone = await studio.bench.ask('POST', `/bowls/${whole.bowl.id}/pours`, whole.pours[0]);
  expect(alone.headers['replayed']).toBe('true');
  expect(Number(before) - Number(await onHandOf(studio, shelf.vol30))).toBe(60);
  const changed = { ...whole, id: randomUUID(), pours: [{ ...whole.pours[0], quantity: '31' }] };
  const refused = await studio.bench.refused('POST', '/bowls/record', changed);
  expect(refused).toMatchObject({ status: 409, type: '/problems/id_reused' });
  expect(refused.detail).toContain(whole.pours[0]?.id);
});

test('first its pours one by one, then the whole: the rest is added', async () => {
  const whole = recorded();
  await studio.bench.post('/bowls', whole.bowl);
  await studio.bench.post(`/bowls/${whole.bowl.id}/pours`, whole.pours[1]);
  const answer = await studio.bench.post<{ pours: unknown[]; settlement: Settled }>(
    '/bowls/record',
    whole,
  );
  expect(answer.pours).toHaveLength(1);
  expect(answer.settlement.mixed).toEqual(grams('90'));
});

test('all or nothing: a bad part leaves no trace', async () => {
  const whole = recorded();
  const bad = { ...whole, settlement: { ...whole.settlement, leftover: grams('200') } };
  const refused = await studio.bench.refused('POST', '/bowls/record', bad);
  expect(refused.type).toBe('/problems/leftover_exceeds_contents');
  expect(refused.detail).toContain('200 g');
  expect(refused.detail).toContain('90 g');
  const gone = await studio.owner.ask('GET', `/bowls/${whole.bowl.id}`);
  expect(gone.status).toBe(404);
});

test('the bench sees grams, never money', async () => {
  const whole = recorded();
  const text = JSON.stringify(await studio.bench.post('/bowls/record', whole));
  expect(text).not.toContain('"value"');
  expect(text).not.toContain('"lots"');
});

function recorded() {
  const at = '2026-03-03T08:15:00Z';
  return {
    id: randomUUID(),
    bowl: { id: randomUUID(), purpose: 'front' },
    pours: [
      { id: randomUUID(), productId: shelf.powder, quantity: '30', unit: 'g', pouredAt: at },
      { id: randomUUID(), productId: shelf.vol30, quantity: '60', unit: 'g', pouredAt: at },
    ],
    settlement: {
      id: randomUUID(),
      leftover: grams('9'),
      settledAt: '2026-03-03T08:45:00Z',
    },
  };
}

/** What of each product of a bowl is on the head and in the bin, reversals taken off. */
async function wastedOf(bowl: string): Promise<string[]> {
  const page = await studio.owner.get<{
    items: { productId: string; from: string; to: string; quantity: string }[];
  }>(`/movements?bowl=${bowl}&limit=200`);
  const net = new Map<string, number>();
  const add = (place: string, productId: string, quantity: number) =>
    net.set(`${productId} ${place}`, (net.get(`${productId} ${place}`) ?? 0) + quantity);
  for (const { productId, from, to, quantity } of page.items) {
    add(to, productId, Number(quantity));
    add(from, productId, -Number(quantity));
  }
  return [...net].map(([key, quantity]) => `${key} ${quantity}`).sort();
}

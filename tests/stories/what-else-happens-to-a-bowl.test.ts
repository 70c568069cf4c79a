/** Divided, scooped back, another bottle, moved, called off, undone; figures worked out by hand. */
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
  visitId: string | null;
  mixed: object;
  holds: object;
  firstContactAt: string | null;
  pours: { id: string; productId: string; kind: string; grams: string; reversed: boolean }[];
}

async function open(body: object = {}): Promise<string> {
  return (await studio.owner.post<Bowl>('/bowls', { purpose: 'front', ...body })).id;
}

async function pour(bowl: string, productId: string, quantity: string, at: string) {
  const body = { productId, quantity, unit: 'g', pouredAt: at };
  return (await studio.owner.post<{ id: string }>(`/bowls/${bowl}/pours`, body)).id;
}

async function mixed(): Promise<{ bowl: string; powder: string; developer: string }> {
  const bowl = await open();
  const powder = await pour(bowl, shelf.powder, '30', '2026-03-03T08:10:00Z');
  const developer = await pour(bowl, shelf.vol20, '60', '2026-03-03T08:11:00Z');
  return { bowl, powder, developer };
}

test('a bowl is divided: each product in its proportion, with the first bowl’s clock', async () => {
  const { bowl } = await mixed();
  const divided = await studio.owner.post<{ from: Bowl; into: Bowl }>(`/bowls/${bowl}/division`, {
    quantity: grams('30'),
    into: { purpose: 'nape' },
    at: '2026-03-03T08:15:00Z',
  });
  expect(divided.from.holds).toEqual(grams('60'));
  expect(divided.into.holds).toEqual(grams('30'));
  expect(divided.into.pours.map((line) => [line.kind, line.grams])).toEqual([
    ['received', '10'],
    ['received', '20'],
  ]);
  expect(divided.into.firstContactAt).toBe('2026-03-03T08:11:00.000Z');
  const settled = await studio.owner.post<{ mixed: object; value: object }>(
    `/bowls/${divided.into.id}/settlement`,
    { leftover: grams('3'), settledAt: '2026-03-03T08:30:00Z' },
  );
  // 10 x 0.03 + 20 x 0.006 = 0.42, a tenth of it wasted
  expect(settled.value).toEqual({ mixed: '0.420000', applied: '0.378000', wasted: '0.042000' });
});

test('scooped back before first contact goes to the shelf, afterwards never', async () => {
  const before = await onHandOf(studio, shelf.powder);
  const bowl = await open();
  const pourId = await pour(bowl, shelf.powder, '36', '2026-03-03T08:10:00Z');
  const path = `/bowls/${bowl}/scooped-back`;
  const body = { pourId, quantity: '6', unit: 'g', at: '2026-03-03T08:10:30Z' };
  const after = await studio.owner.post<Bowl>(path, body);
  expect(after.holds).toEqual(grams('30'));
  expect(Number(before) - Number(await onHandOf(studio, shelf.powder))).toBe(30);
  await pour(bowl, shelf.vol20, '60', '2026-03-03T08:11:00Z');
  const late = { ...body, quantity: '1', at: '2026-03-03T08:12:00Z' };
  expect((await studio.owner.refused('POST', path, late)).type).toBe(
    '/problems/after_first_contact',
  );
});

test('it was another bottle: taken back and entered anew with the same grams', async () => {
  const before = {
    was: await onHandOf(studio, shelf.vol20),
    is: await onHandOf(studio, shelf.vol30),
  };
  const { bowl, developer } = await mixed();
  await studio.owner.post(`/bowls/${bowl}/settlement`, {
    leftover: grams('9'),
    settledAt: '2026-03-03T08:40:00Z',
  });
  const answer = await studio.owner.post<{ strength: { volume: string }; grams: string }>(
    `/bowls/${bowl}/other-product`,
    { pourId: developer, productId: shelf.vol30 },
  );
  expect(answer).toMatchObject({ grams: '60', strength: { volume: '30' } });
  expect(await onHandOf(studio, shelf.vol20)).toBe(before.was);
  expect(Number(before.is) - Number(await onHandOf(studio, shelf.vol30))).toBe(60);
  const view = await studio.owner.get<Bowl>(`/bowls/${bowl}`);
  expect(view.state).toBe('settled');
  expect(view.pours.filter((line) => !line.reversed).map((line) => line.productId)).toEqual([
    shelf.powder,
    shelf.vol30,
  ]);
});

test('a settlement is undone, then the pour that was none', async () => {
  const before = await onHandOf(studio, shelf.powder);
  const { bowl, powder } = await mixed();
  await studio.owner.post(`/bowls/${bowl}/settlement`, {
    leftover: grams('9'),
    settledAt: '2026-03-03T08:40:00Z',
  });
  const first = await studio.owner.refused('POST', `/bowls/${bowl}/reversal`, { of: powder });
  expect(first.type).toBe('/problems/settlement_first');
  const reopened = await studio.owner.post<Bowl>(`/bowls/${bowl}/reversal`, {});
  expect(reopened).toMatchObject({ state: 'open', holds: grams('90') });
  await studio.owner.post(`/bowls/${bowl}/reversal`, { of: powder });
  expect(await onHandOf(studio, shelf.powder)).toBe(before);
  const stylist = await studio.stylist.refused('POST', `/bowls/${bowl}/reversal`, {});
  expect(stylist.status).toBe(403);
});

test('called off before the first pour, and only then', async () => {
  const bowl = await open();
  const off = await studio.bench.post<Bowl>(`/bowls/${bowl}/void`, {});
  expect(off.state).toBe('void');
  const refused = await studio.bench.refused('POST', `/bowls/${bowl}/pours`, {
    productId: shelf.powder,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-03T08:10:00Z',
  });
  expect(refused.type).toBe('/problems/bowl_is_void');
});

test('what cannot be is refused with the field and what to do', async () => {
  const bowl = await open();
  const path = `/bowls/${bowl}/pours`;
  const body = {
    productId: shelf.powder,
    quantity: '30',
    unit: 'g',
    pouredAt: '2026-03-03T08:10:00Z',
  };
  const refusals = await Promise.all([
    studio.bench.refused('POST', path, { ...body, quantity: '80000' }),
    studio.bench.refused('POST', path, { ...body, quantity: '-3' }),
    studio.bench.refused('POST', path, { ...body, unit: 'piece' }),
    studio.bench.refused('POST', path, { ...body, productId: randomUUID() }),
    studio.bench.refused('POST', path, { ...body, colour: 'blue' }),
    studio.bench.refused('POST', path, '{"productId":'),
    studio.bench.refused('POST', `/bowls/${bowl}/settlement`, {
      leftover: grams('0'),
      settledAt: '2026-03-03T08:30:00Z',
    }),
  ]);
  expect(refusals.map((refusal) => [refusal.status, refusal.type])).toEqual([
    [422, '/problems/pour_too_large'],
    [400, '/problems/malformed_request'],
    [422, '/problems/pieces_against_weight'],
    [404, '/problems/not_found'],
    [400, '/problems/malformed_request'],
    [400, expect.stringContaining('/problems/')],
    [422, '/problems/nothing_poured'],
  ]);
  expect(refusals[0]?.errors?.[0]?.pointer).toBe('/quantity');
  expect((await studio.bench.get<Bowl>(`/bowls/${bowl}`)).pours).toEqual([]);
});

test('a caution that was noted stays with the bowl', async () => {
  const bowl = await open();
  const view = await studio.bench.post<{ noted: object[] }>(`/bowls/${bowl}/cautions`, {
    code: 'powder_dust',
    at: '2026-03-03T08:09:00Z',
  });
  expect(view.noted).toEqual([
    { code: 'powder_dust', answer: 'Noted', at: '2026-03-03T08:09:00.000Z' },
  ]);
});

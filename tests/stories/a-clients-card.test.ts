/** A client's card: who may see what of it, sensitivity tests, earlier bowls, being forgotten. */
import { randomUUID } from 'node:crypto';
import type { ClientView, NewClient, SensitivityTestView } from '../../shared/contract/clients.js';
import type { ProductView } from '../../shared/contract/catalogue.js';
import type { Client } from '../support/client.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => (studio = await aStudio()));
afterEach(() => studio.audit());
afterAll(() => studio.close());

const ada = {
  name: 'Ada Maria Brook',
  contact: 'ada@example.org',
  notes: 'Likes the window chair',
  nextTime: 'start the nape with 10 vol',
  hairLength: 'medium',
  sixteenOrOlder: true,
};

test('clients are numbered one after the other; the answer holds no name', async () => {
  const first = await studio.stylist.post<NewClient>('/clients', ada);
  expect(first).toEqual({ id: first.id, number: 1, label: 'client 0001' });
  const given = await studio.stylist.post<NewClient>('/clients', { name: 'Bo', number: 192 });
  expect(given.label).toBe('client 0192');
  const next = await studio.stylist.post<NewClient>('/clients', {});
  expect(next.number).toBe(193);
  const taken = await studio.stylist.refused('POST', '/clients', { number: 192 });
  expect(taken).toMatchObject({ status: 409, errors: [{ pointer: '/number' }] });
  const card = await studio.stylist.get<ClientView>(`/clients/${first.id}`);
  expect(card).toMatchObject({ ...ada, hairDensity: null, forgottenAt: null });
  const found = await studio.stylist.get<{ items: ClientView[] }>('/clients?name=maria');
  expect(found.items.map(({ number }) => number)).toEqual([1]);
});

test('two clients entered at the same moment get two numbers', async () => {
  const made = await Promise.all(
    Array.from({ length: 8 }, () => studio.stylist.post<NewClient>('/clients', {})),
  );
  expect(new Set(made.map(({ number }) => number)).size).toBe(8);
});

test('a bench sees who is here today, by first name and initial, and nothing more', async () => {
  const { id } = await studio.stylist.post<NewClient>('/clients', ada);
  expect(await studio.bench.refused('GET', `/clients/${id}`)).toMatchObject({ status: 404 });
  await arrives(id, '2026-03-01T23:59:00Z'); // yesterday in Lisbon
  expect(await studio.bench.get('/clients')).toEqual({ items: [], next: null });
  await arrives(id, '2026-03-02T00:01:00Z');
  const seen = {
    id,
    number: (await studio.stylist.get<ClientView>(`/clients/${id}`)).number,
    name: 'Ada B.',
    nextTime: 'start the nape with 10 vol',
    hairLength: 'medium',
    hairDensity: null,
  };
  expect(await studio.bench.get('/clients')).toEqual({ items: [seen], next: null });
  expect(await studio.bench.get(`/clients/${id}`)).toEqual(seen);
  studio.clock.pass({ days: 1 });
  expect(await studio.bench.get('/clients')).toEqual({ items: [], next: null });
  expect(await studio.bench.refused('POST', '/clients', ada)).toMatchObject({ status: 403 });
});

describe('a sensitivity test', () => {
  let wren: Client;
  let robin: Client;
  let clientId = '';
  let testId = '';
  beforeAll(async () => {
    wren = await signedIn('Wren Tallis');
    robin = await signedIn('Robin Ashe');
    clientId = (await studio.stylist.post<NewClient>('/clients', ada)).id;
  });

  test('is seen by the stylist who placed it, and by managers; not by other stylists', async () => {
    const placed = { line: 'Tidewater', placedAt: '2026-03-01T10:00:00+01:00' };
    const tests = `/clients/${clientId}/sensitivity-tests`;
    const made = await wren.post<{ id: string }>(tests, placed);
    testId = made.id;
    expect(made).toEqual({ id: testId, clientId });
    const expected = {
      ...{ id: testId, clientId, line: 'Tidewater' },
      ...{ placedAt: '2026-03-01T09:00:00.000Z', readAt: null, result: null },
    };
    expect(await wren.get(tests)).toEqual({ rows: [expected] });
    const card = await studio.manager.get<ClientView>(`/clients/${clientId}`);
    expect(card.sensitivityTests).toEqual([expected]);
    expect(await robin.refused('GET', tests)).toMatchObject({ status: 403 });
    expect(await robin.get(`/clients/${clientId}`)).not.toHaveProperty('sensitivityTests');
  });

  test('is read later, never before it was placed nor in time to come', async () => {
    const path = `/clients/${clientId}/sensitivity-tests/${testId}`;
    const early = { readAt: '2026-03-01T08:59:00Z', result: 'no reaction' };
    expect(await wren.refused('PATCH', path, early)).toMatchObject({
      type: '/problems/read_before_placed',
    });
    const ahead = { readAt: '2026-04-04T09:00:00Z', result: 'no reaction' };
    expect(await wren.refused('PATCH', path, ahead)).toMatchObject({
      type: '/problems/not_happened_yet',
      errors: [{ pointer: '/readAt' }],
    });
    const read = { readAt: '2026-03-03T08:30:00Z', result: 'no reaction' };
    expect(await wren.patch<SensitivityTestView>(path, read)).toMatchObject({
      readAt: '2026-03-03T08:30:00.000Z',
      result: 'no reaction',
    });
  });

  test('has no result before it is read', async () => {
    const body = { line: 'Tidewater', placedAt: '2026-03-02T10:00:00Z', result: 'reaction' };
    const path = `/clients/${clientId}/sensitivity-tests`;
    expect(await wren.refused('POST', path, body)).toMatchObject({
      type: '/problems/result_without_reading',
    });
  });
});

test('bowls of earlier visits are listed latest first, without undone pours', async () => {
  const { id } = await studio.stylist.post<NewClient>('/clients', ada);
  const product = await studio.manager.post<ProductView>('/products', {
    ...{ name: 'Blonding powder', kind: 'lightener', unit: 'g' },
  });
  const early = await arrives(id, '2026-01-10T10:00:00Z');
  const late = await arrives(id, '2026-02-10T10:00:00Z');
  const [tenth, twentieth] = ['2026-01-10T10:00:00Z', '2026-02-10T10:00:00Z'];
  await mixed(early, product.id, { purpose: 'roots', at: tenth, poured: '60', left: '8.5' });
  const front = await mixed(late, product.id, {
    ...{ purpose: 'front', at: twentieth, poured: '40', left: '10' },
  });
  const page = await studio.stylist.get<{ items: object[]; next: string }>(
    `/clients/${id}/bowls?limit=1`,
  );
  const grams = (quantity: string) => ({ quantity, unit: 'g' });
  expect(page.items).toEqual([
    {
      ...{ id: front, visitId: late, visitStartedAt: '2026-02-10T10:00:00.000Z' },
      ...{ purpose: 'front', state: 'settled', formulaId: null, estimated: false },
      plan: { powders: [{ productId: product.id }], size: { powder: grams('40') } },
      lastPourAt: '2026-02-10T10:00:00.000Z',
      ...{ mixed: grams('40'), applied: grams('30'), wasted: grams('10') },
      pours: [
        {
          ...{ productId: product.id, name: 'Blonding powder', side: 'powder' },
          ...{ quantity: '40', unit: 'g', grams: '40' },
        },
      ],
    },
  ]);
  const rest = await studio.stylist.get<{ items: object[]; next: null }>(
    `/clients/${id}/bowls?limit=1&cursor=${page.next}`,
  );
  expect(rest).toMatchObject({
    items: [{ purpose: 'roots', applied: { quantity: '51.5' }, wasted: { quantity: '8.5' } }],
    next: null,
  });
});

test('a forgotten client leaves a number, nothing else, and stays forgotten', async () => {
  const id = randomUUID();
  const { number } = await studio.stylist.post<NewClient>('/clients', { ...ada, id });
  const { id: productId } = await studio.manager.post<ProductView>('/products', {
    ...{ name: 'Gloss clear', kind: 'toner', unit: 'g' },
  });
  const plan = { powders: [{ productId }], size: { total: { quantity: '30', unit: 'g' } } };
  const said = { clientId: id, name: "Ada's gloss", nextTime: 'ask Ada', plan };
  const formula = await studio.stylist.post<{ id: string }>('/formulas', said);
  await studio.stylist.post(`/clients/${id}/sensitivity-tests`, {
    ...{ line: 'Tidewater', placedAt: '2026-03-01T10:00:00Z' },
  });
  expect(await studio.stylist.refused('POST', `/clients/${id}/forget`)).toMatchObject({
    status: 403,
  });

  const forgotten = await studio.manager.post(`/clients/${id}/forget`);
  const nothing = { name: null, contact: null, notes: null, nextTime: null, hairLength: null };
  expect(forgotten).toMatchObject({ id, number, ...nothing, sixteenOrOlder: null });
  const forgottenAt = '2026-03-03T09:00:00.000Z';
  expect(forgotten).toMatchObject({ sensitivityTests: [], forgottenAt });
  expect(await studio.manager.get(`/formulas/${formula.id}`)).toMatchObject({
    ...{ name: 'formula', nextTime: null, plan },
  });
  const kept = await studio.service.database.asOwner<{ text: string }>(
    `select string_agg(coalesce(answer::text, ''), ' ') as text from request_once`,
  );
  expect(kept[0]?.text).not.toMatch(/Ada|Tidewater/);
  const change = await studio.manager.refused('PATCH', `/clients/${id}`, { name: 'Ada' });
  expect(change).toMatchObject({ status: 422, type: '/problems/client_forgotten' });
});

async function arrives(clientId: string, startedAt: string): Promise<string> {
  const id = randomUUID();
  await studio.service.database.asOwner(
    `insert into visit (studio_id, id, client_id, started_at, recorded_at)
     values ($1, $2, $3, $4, $4)`,
    [studio.id, id, clientId, startedAt],
  );
  return id;
}

/** A bowl with one pour that stands, one that was undone, and what was left of it. */
async function mixed(
  visitId: string,
  productId: string,
  { purpose, at, poured, left }: { purpose: string; at: string; poured: string; left: string },
): Promise<string> {
  const size = { powder: { quantity: poured, unit: 'g' } };
  const plan = { powders: [{ productId }], size };
  const { owner } = studio;
  const { id } = await owner.post<{ id: string }>('/bowls', { visitId, purpose, plan });
  const pour = (quantity: string) =>
    owner.post<{ id: string }>(`/bowls/${id}/pours`, {
      ...{ productId, quantity, unit: 'g', pouredAt: at },
    });
  const slip = await pour('5');
  await pour(poured);
  await owner.post(`/bowls/${id}/reversal`, { of: slip.id });
  const leftover = { quantity: left, unit: 'g' };
  await owner.post(`/bowls/${id}/settlement`, { leftover, settledAt: at });
  return id;
}

/** A stylist signed in at the bench. */
async function signedIn(name: string): Promise<Client> {
  const person = { name, role: 'stylist', pin: '2580' };
  const { id } = await studio.owner.post<{ id: string }>('/people', person);
  const { token } = await studio.owner.post<{ token: string }>('/tokens', { name: `for ${name}` });
  const device = studio.service.nobody.with(token);
  await device.post('/session', { personId: id, pin: '2580' });
  return device;
}

/** Signing in: names and PINs on a device, tokens, waiting after wrong PINs, leaving. */
import type { NewTokenView, PersonView, SessionView } from '../../shared/contract/people.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => (studio = await aStudio()));
afterAll(() => studio.close());

const pin = '2580';
const add = (name: string, role = 'stylist', more: object = {}) =>
  studio.owner.post<PersonView>('/people', { name, role, pin, ...more });
const aTablet = async () => {
  const made = await studio.owner.post<NewTokenView>('/tokens', { name: 'Tablet' });
  return { ...made, client: studio.service.nobody.with(made.token) };
};

test('a person signs in by name and PIN, works, and signs out', async () => {
  const wren = await add('Wren Tallis');
  const { client } = await aTablet();
  const names = await client.get<{ items: { id: string; name: string }[] }>('/session/people');
  expect(names.items).toContainEqual({ id: wren.id, name: 'Wren Tallis' });
  const opened = await client.ask<SessionView>('POST', '/session', { personId: wren.id, pin });
  expect(opened.status).toBe(201);
  expect(opened.headers['set-cookie']).toMatch(/HttpOnly; SameSite=Strict/);
  expect(opened.body).toMatchObject({
    role: 'stylist',
    person: { id: wren.id, name: 'Wren Tallis' },
    studio: { name: 'Saltmarsh Row', currency: 'EUR' },
    expiresAt: '2026-03-02T21:00:00.000Z',
  });
  expect((await client.get<SessionView>('/session')).person?.name).toBe('Wren Tallis');
  expect((await client.ask('DELETE', '/session')).status).toBe(204);
  expect(await client.get<SessionView>('/session')).toMatchObject({ person: null, role: 'bench' });
});

test('a session ends with the shift', async () => {
  const person = await add('Sorrel Quay');
  const { client } = await aTablet();
  await client.post('/session', { personId: person.id, pin });
  studio.clock.pass({ hours: 12, seconds: 6 });
  expect((await client.get<SessionView>('/session')).person).toBeNull();
});

test('five wrong PINs make this person wait on this device, twice as long each time', async () => {
  const person = await add('Bryony Holm');
  const { client } = await aTablet();
  const other = await aTablet();
  const wrong = () => client.ask('POST', '/session', { personId: person.id, pin: '0000' });
  const right = () => client.ask('POST', '/session', { personId: person.id, pin });
  for (const triesLeft of [4, 3, 2, 1]) {
    expect((await wrong()).body).toMatchObject({
      type: '/problems/wrong_pin',
      status: 401,
      facts: { triesLeft },
    });
  }
  for (const seconds of [300, 600, 1200]) {
    const locked = await wrong();
    expect(locked.status).toBe(429);
    expect(locked.headers['retry-after']).toBe(String(seconds));
    studio.clock.pass({ seconds: seconds - 1 });
    expect((await right()).body).toMatchObject({
      type: '/problems/pin_locked',
      facts: { seconds: 1 },
    });
    studio.clock.pass({ seconds: 1 });
    for (let tries = 1; tries <= 4; tries += 1) expect((await wrong()).status).toBe(401);
  }
  await other.client.post('/session', { personId: person.id, pin }); // the other device is free
  await right();
  expect((await wrong()).body).toMatchObject({ facts: { triesLeft: 4 } });
});

test('wrong PINs sent all at once are counted one by one', async () => {
  const person = await add('Juniper Reed');
  const { client } = await aTablet();
  const answers = await Promise.all(
    Array.from({ length: 12 }, () =>
      client.ask('POST', '/session', { personId: person.id, pin: '0000' }),
    ),
  );
  expect(answers.map((answer) => answer.status).sort()).toEqual([
    ...Array<number>(4).fill(401),
    ...Array<number>(8).fill(429),
  ]);
});

test('a new PIN by the owner ends the wait and every session', async () => {
  const person = await add('Teal Fenwick');
  const { client } = await aTablet();
  await client.post('/session', { personId: person.id, pin });
  await studio.owner.patch(`/people/${person.id}`, { pin: '1379' });
  expect((await client.get<SessionView>('/session')).person).toBeNull();
  expect((await client.refused('POST', '/session', { personId: person.id, pin })).status).toBe(401);
  await client.post('/session', { personId: person.id, pin: '1379' });
  expect((await client.ask('PUT', '/session/pin', { pin: '1379', newPin: '9713' })).status).toBe(
    204,
  );
  await client.ask('DELETE', '/session');
  await client.post('/session', { personId: person.id, pin: '9713' });
});

test('a lost tablet is revoked: nobody is signed in on it any more', async () => {
  const person = await add('Marsh Ode');
  const tablet = await aTablet();
  await tablet.client.post('/session', { personId: person.id, pin });
  await studio.owner.post(`/tokens/${tablet.id}/revoke`);
  expect((await tablet.client.ask('GET', '/session')).status).toBe(401);
});

test('a page becomes a device by its token and keeps it where scripts cannot read', async () => {
  const { token } = await aTablet();
  const page = studio.service.nobody.with('');
  expect((await page.ask('GET', '/session')).status).toBe(401);
  const kept = await page.ask('PUT', '/session/device', { token });
  expect(kept.headers['set-cookie']).toMatch(/^bowlworth_device=.*HttpOnly/);
  expect(await page.get<SessionView>('/session')).toMatchObject({ role: 'bench', person: null });
  expect((await page.refused('PUT', '/session/device', { token: `${token}x` })).status).toBe(401);
});

test('the last owner who can sign in stays owner, also when two leave at once', async () => {
  const one = await add('Heron Vale', 'owner');
  expect(await studio.owner.refused('POST', `/people/${one.id}/retire`)).toMatchObject({
    type: '/problems/last_owner',
    status: 422,
  });
  const two = await add('Plover Dane', 'owner');
  const left = await Promise.all(
    [one, two].map(({ id }) => studio.owner.ask('PATCH', `/people/${id}`, { role: 'manager' })),
  );
  expect(left.map((answer) => answer.status).sort()).toEqual([200, 422]);
});

test('what an hour costs is shown to owners only', async () => {
  const person = await add('Avocet Lorne', 'stylist', {
    hourRate: '24.5',
    commission: { share: 0.1, on: 'net' },
  });
  expect(person).toMatchObject({ hourRate: '24.5', commission: { share: '0.1', on: 'net' } });
  const seen = await studio.manager.get<PersonView>(`/people/${person.id}`);
  expect(seen).not.toHaveProperty('hourRate');
  expect(seen).not.toHaveProperty('commission');
});

test('roles: each call needs its least role', async () => {
  const nobody = studio.service.nobody;
  expect(await nobody.refused('GET', '/people')).toMatchObject({ status: 401 });
  expect(await studio.stylist.refused('GET', '/people')).toMatchObject({
    status: 403,
    detail: expect.stringContaining('manager or owner') as string,
  });
  expect(await studio.manager.refused('POST', '/people', {})).toMatchObject({ status: 403 });
  expect((await studio.bench.ask('GET', '/session/people')).status).toBe(200);
});

test('studios are apart: people and tokens of one are nothing to the other', async () => {
  const elsewhere = await studio.service.studio({ name: 'Elsewhere' });
  const person = await add('Curlew Bay');
  expect(await elsewhere.owner.refused('GET', `/people/${person.id}`)).toMatchObject({
    status: 404,
  });
  const list = await elsewhere.owner.get<{ items: unknown[] }>('/people');
  expect(list.items).toEqual([]);
});

test('people come in pages, newest first', async () => {
  const elsewhere = await studio.service.studio();
  for (const name of ['A', 'B', 'C'])
    await elsewhere.owner.post('/people', { name, role: 'stylist' });
  const names: string[] = [];
  let next: string | null = '';
  while (next !== null) {
    const page: { items: PersonView[]; next: string | null } = await elsewhere.owner.get(
      `/people?limit=2${next && `&cursor=${next}`}`,
    );
    names.push(...page.items.map((person) => person.name));
    next = page.next;
  }
  expect(names).toEqual(['C', 'B', 'A']);
});

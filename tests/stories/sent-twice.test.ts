/** What is sent twice, or by many at once, is stored once; what is tried dry, never. */
import { randomUUID } from 'node:crypto';
import type { Client } from '../support/client.js';
import { aTrialService, good, type TrialService } from '../support/trial-service.js';

let trial: TrialService;
let client: Client;
beforeAll(async () => {
  trial = await aTrialService();
  client = trial.client;
});
afterAll(() => trial.close());

test('a request with an id is answered once, whatever the order of its fields', async () => {
  const id = randomUUID();
  const before = await trial.stored();
  const first = await client.ask('POST', '/trials', { id, ...good });
  expect(first.headers['replayed']).toBeUndefined();
  const { lines, ...others } = good;
  const again = await client.ask('POST', '/trials', {
    lines,
    ...{ ...others, share: 42.5, at: '2026-03-02T09:00:00Z', kind: 'a' },
    ...{ id, sentAt: '2026-03-05T09:00:00Z' },
  });
  expect(again.headers['replayed']).toBe('true');
  expect(again.status).toBe(first.status);
  expect(again.body).toEqual(first.body);
  expect(await trial.stored()).toBe(before + 1);
  const other = await client.refused('POST', '/trials', { id, ...good, share: '42.6' });
  expect(other).toMatchObject({ type: '/problems/id_reused', status: 409, facts: { id } });
});

test('the same request from many at once is booked once', async () => {
  const id = randomUUID();
  const before = await trial.stored();
  const answers = await Promise.all(
    Array.from({ length: 8 }, () => client.ask('POST', '/trials', { id, ...good })),
  );
  expect(new Set(answers.map((answer) => JSON.stringify(answer.body))).size).toBe(1);
  expect(answers.filter((answer) => answer.headers['replayed'] === undefined)).toHaveLength(1);
  expect(await trial.stored()).toBe(before + 1);
});

test('a refused request leaves its id free', async () => {
  const id = randomUUID();
  const body = { id, ...good, share: '99' };
  expect((await client.refused('POST', '/trials', body)).status).toBe(404);
  expect((await client.ask('POST', '/trials', { ...body, share: '98' })).status).toBe(201);
});

test('a dry run answers and stores nothing', async () => {
  const id = randomUUID();
  const before = await trial.stored();
  expect(await client.post('/trials?dry=true', { id, ...good })).toMatchObject({ id, dry: true });
  expect(await trial.stored()).toBe(before);
  expect(
    (await client.ask('POST', '/trials', { id, ...good })).headers['replayed'],
  ).toBeUndefined();
});

/** What cannot be read is told field by field, and nothing of it is stored. */
import type { Client } from '../support/client.js';
import {
  aTrialService,
  BareController,
  good,
  type TrialService,
} from '../support/trial-service.js';

let trial: TrialService;
let client: Client;
beforeAll(async () => {
  trial = await aTrialService();
  client = trial.client;
});
afterAll(() => trial.close());

test('a good request is read: defaults, decimals, instants in UTC', async () => {
  expect(await client.post('/trials', good)).toMatchObject({
    share: '42.5',
    at: '2026-03-02T09:00:00.000Z',
    sizes: ['60.5 g'],
    kind: 'a',
  });
});

const bad: [string, unknown, string, string][] = [
  ['an unknown field', { ...good, shade: 7 }, '/shade', 'unknown_field'],
  [
    'an unknown field inside',
    { ...good, lines: [{ ...good.lines[0], x: 1 }] },
    '/lines/0/x',
    'unknown_field',
  ],
  ['a missing field', { ...good, share: undefined }, '/share', 'missing'],
  ['null where there must be something', { ...good, share: null }, '/share', 'not_a_decimal'],
  ['hexadecimal', { ...good, share: '0x10' }, '/share', 'not_a_decimal'],
  ['an exponent', { ...good, share: '1e1' }, '/share', 'not_a_decimal'],
  ['infinity', { ...good, share: 'Infinity' }, '/share', 'not_a_decimal'],
  ['underscores', { ...good, share: '1_0' }, '/share', 'not_a_decimal'],
  ['a number that is no decimal', { ...good, share: 1e-7 }, '/share', 'not_a_decimal'],
  ['a number of too many decimals', { ...good, share: 0.1 + 0.2 }, '/share', 'not_a_decimal'],
  ['too many decimals', { ...good, share: '1.001' }, '/share', 'too_many_decimals'],
  ['too much', { ...good, share: '100.01' }, '/share', 'too_large'],
  ['too little', { ...good, share: '-1' }, '/share', 'too_small'],
  ['a time without offset', { ...good, at: '2026-03-02T10:00:00' }, '/at', 'not_an_instant'],
  ['a day that is none', { ...good, day: '2026-02-30' }, '/day', 'not_a_day'],
  [
    'a unit of another kind',
    line({ size: { quantity: '1', unit: 'ml' } }),
    '/lines/0/size/unit',
    'unknown_unit',
  ],
  [
    'nothing of something',
    line({ size: { quantity: '0', unit: 'g' } }),
    '/lines/0/size/quantity',
    'too_small',
  ],
  ['a bare number for a quantity', line({ size: 60 }), '/lines/0/size', 'not_a_quantity'],
  ['text too long', line({ name: 'x'.repeat(11) }), '/lines/0/name', 'too_long'],
  ['blank text', line({ name: '  ' }), '/lines/0/name', 'too_short'],
  ['no lines', { ...good, lines: [] }, '/lines', 'too_few'],
  ['too many lines', { ...good, lines: Array(3).fill(good.lines[0]) }, '/lines', 'too_many'],
  ['no list', { ...good, lines: 'x' }, '/lines', 'not_a_list'],
  ['no object in a list', { ...good, lines: ['x'] }, '/lines/0', 'not_an_object'],
  ['an unknown word', { ...good, kind: 'c' }, '/kind', 'unknown_word'],
  ['an id that is none', { ...good, id: '7' }, '/id', 'not_an_id'],
];
function line(change: object) {
  return { ...good, lines: [{ ...good.lines[0], ...change }] };
}

test.each(bad)('%s is refused at its place', async (_, body, pointer, code) => {
  const before = await trial.stored();
  const problem = await client.refused('POST', '/trials', body);
  expect(problem).toMatchObject({ type: '/problems/malformed_request', status: 400 });
  expect(problem.errors).toEqual([
    { pointer, code, detail: expect.stringMatching(/\.$/) as string },
  ]);
  expect(await trial.stored()).toBe(before);
});

test('all errors are told at once', async () => {
  const problem = await client.refused('POST', '/trials', { share: 'x', lines: [{}], y: 1 });
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual([
    ...['/at', '/lines/0/name', '/lines/0/size', '/share', '/y'],
  ]);
});

test('an empty body is told what is missing', async () => {
  const problem = await client.refused('POST', '/trials');
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual(['/at', '/lines', '/share']);
});

const broken: [string, string, Record<string, string>, string, number][] = [
  ['broken JSON', '{"share": ', {}, 'broken_json', 400],
  ['a list instead of an object', '[]', {}, 'malformed_request', 400],
  ['a poisoned key', '{"__proto__": {"a": 1}}', {}, 'broken_json', 400],
  ['another content', 'a=1', { 'content-type': 'application/xml' }, 'not_json', 415],
  ['too much', `{"x": "${'x'.repeat(5_000_000)}"}`, {}, 'body_too_large', 413],
];
test.each(broken)('%s has an answer of its own', async (_, body, headers, code, status) => {
  const answer = await client.ask('POST', '/trials', body, headers);
  expect(answer.body).toMatchObject({ type: `/problems/${code}`, status });
  expect(answer.headers['content-type']).toContain('application/problem+json');
});

test('an address that is none, a page that is none', async () => {
  expect(await client.refused('GET', '/nowhere?x=1')).toMatchObject({
    type: '/problems/no_such_address',
    status: 404,
    detail: expect.stringContaining('GET /api/v1/nowhere.') as string,
  });
  const problem = await client.refused('GET', '/trials?limit=501&cursor=%7B&x=1');
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual(['/cursor', '/limit', '/x']);
});

test('a fault of the program says its request’s id and nothing else', async () => {
  const answer = await client.ask('GET', '/trials/fault', undefined, {
    'x-request-id': 'mine-0001',
  });
  expect(answer.headers['x-request-id']).toBe('mine-0001');
  expect(answer.body).toMatchObject({
    type: '/problems/unexpected',
    status: 500,
    requestId: 'mine-0001',
  });
  expect(JSON.stringify(answer.body)).not.toContain('only the log');
});

test('a route without a declared right keeps the service from starting', async () => {
  await expect(trial.openWith([BareController])).rejects.toThrow(
    'These routes declare no right: BareController.bare.',
  );
});

/** A bench's scale over the service: the agent brings readings, the pages of the bench hear. */
import fc from 'fast-check';
import { bringsReadings, hearsReadings } from '../../shared/scales/wire.js';
import { ScaleSocket } from '../support/scale-socket.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let origin: string;
let window: string;
let basin: string;
const opened: ScaleSocket[] = [];

beforeAll(async () => {
  studio = await aStudio();
  origin = (await studio.service.app.getUrl()).replace('http', 'ws');
  [window = '', basin = ''] = await Promise.all(['Window', 'Basin'].map(aBench));
});
afterEach(async () => {
  await Promise.all(opened.splice(0).map((socket) => socket.close()));
});
afterAll(() => studio.close());

async function aBench(name: string): Promise<string> {
  return (await studio.owner.post<{ id: string }>('/benches', { name })).id;
}

async function aToken(benchId?: string): Promise<{ id: string; token: string }> {
  return studio.owner.post('/tokens', { name: 'Scale', role: 'bench', benchId });
}

async function open(
  benchId: string,
  protocol: string,
  token: string,
  headers: Record<string, string> = {},
): Promise<ScaleSocket> {
  const url = `${origin}/api/v1/scales/${benchId}`;
  const socket = await ScaleSocket.open(url, protocol, {
    authorization: `Bearer ${token}`,
    ...headers,
  });
  opened.push(socket);
  return socket;
}

const line = 'ST,GS,+    42.5g';
function reading(value: string) {
  const figure = { value, unit: 'g', stable: true, mode: 'gross', interval: '0.1' };
  return { type: 'reading', reading: { status: 'weight', ...figure, carriedBy: line } };
}
const lost = (trouble: string) => ({ type: 'lost', trouble });
const isReading = (told: Record<string, unknown>) => told['type'] === 'reading';
const isBack = (told: Record<string, unknown>) => told['type'] === 'back';

test('pages of a bench hear its scale; pages of another bench do not', async () => {
  const { token } = await aToken();
  const here = await open(window, hearsReadings, token);
  const there = await open(basin, hearsReadings, token);
  await here.until((told) => told['type'] === 'lost');
  expect(here.told).toEqual([lost('nobody_there')]);

  const agent = await open(window, bringsReadings, token);
  agent.say(reading('42.5'));
  await here.until(isReading);

  expect(here.told.slice(1)).toEqual([{ type: 'back' }, reading('42.5')]);
  expect(await studio.bench.get(`/scales/${window}`)).toEqual({
    benchId: window,
    agent: true,
    trouble: null,
    reading: reading('42.5').reading,
    pages: 1,
  });

  await agent.close();
  await here.until((told) => told === here.told[3]);
  expect(here.told[3]).toEqual(lost('nobody_there'));
  expect(there.told).toEqual([lost('nobody_there')]);
});

test('a page that comes late hears the latest reading, and not one that is old', async () => {
  const { token } = await aToken(window);
  const early = await open(window, hearsReadings, token);
  const agent = await open(window, bringsReadings, token);
  agent.say(reading('42.5'));
  await early.until(isReading);

  const late = await open(window, hearsReadings, token);
  await late.until(isReading);
  expect(late.told).toEqual([reading('42.5')]);

  studio.clock.pass({ seconds: 3 });
  const later = await open(window, hearsReadings, token);
  agent.say(lost('unplugged'));
  await later.until(() => true);
  expect(later.told).toEqual([lost('unplugged')]);
});

test('a second agent takes the place of the first', async () => {
  const { token } = await aToken(window);
  const page = await open(window, hearsReadings, token);
  const first = await open(window, bringsReadings, token);
  const second = await open(window, bringsReadings, token);

  expect(await first.closed()).toBe(4409);
  second.say(reading('7'));
  await page.until(isReading);
  expect(page.told.filter(isBack)).toHaveLength(2);
  expect(page.told.at(-1)).toEqual(reading('7'));
});

test('another studio’s token finds no such bench', async () => {
  const other = await studio.service.studio({ name: 'Heron Quay' });
  const made = await other.owner.post<{ token: string }>('/tokens', { name: 'S', role: 'owner' });
  await expect(open(window, hearsReadings, made.token)).rejects.toThrow(/^404 .*not_found/);
});

test.each<[string, () => Promise<ScaleSocket>, RegExp]>([
  [
    'nobody signed in',
    () => ScaleSocket.open(`${origin}/api/v1/scales/${window}`, hearsReadings),
    /^401 .*not_signed_in/,
  ],
  [
    'a device of another bench',
    async () => open(window, bringsReadings, (await aToken(basin)).token),
    /^403 .*other_bench/,
  ],
  [
    'a page from elsewhere',
    async () =>
      open(window, hearsReadings, (await aToken()).token, { origin: 'https://elsewhere.example' }),
    /^403 .*foreign_page/,
  ],
  [
    'a page without an origin',
    async () => open(window, hearsReadings, (await aToken()).token, { origin: 'null' }),
    /^403 .*foreign_page/,
  ],
  [
    'not said what for',
    async () => open(window, 'chat', (await aToken()).token),
    /^400 .*no_subprotocol/,
  ],
  [
    'another address',
    async () =>
      ScaleSocket.open(`${origin}/api/v1/bowls`, hearsReadings, {
        authorization: `Bearer ${(await aToken()).token}`,
      }),
    /^404 .*no_such_address/,
  ],
])('%s is refused with a sentence', async (_who, attempt, problem) => {
  await expect(attempt()).rejects.toThrow(problem);
});

test('the page of this service hears, and a page that speaks is closed', async () => {
  const { token } = await aToken();
  const own = origin.replace('ws', 'http');
  const page = await open(window, hearsReadings, token, { origin: own });
  page.say(reading('1'));
  expect(await page.closed()).toBe(1008);
});

test('a device whose token is revoked opens nothing any more', async () => {
  const { id, token } = await aToken();
  await open(window, hearsReadings, token);
  await studio.owner.post(`/tokens/${id}/revoke`);
  await expect(open(window, hearsReadings, token)).rejects.toThrow(/^401/);
});

test('nothing but messages about a scale passes; the page hears none of the rest', async () => {
  const { token } = await aToken();
  const page = await open(window, hearsReadings, token);
  const broken: unknown[] = [
    '',
    '{',
    '[]',
    'null',
    { type: 'poured' },
    lost('tired'),
    { type: 'reading' },
    { type: 'reading', reading: { ...reading('1').reading, value: '1e3' } },
    { type: 'reading', reading: { ...reading('1').reading, unit: 'stone' } },
    { type: 'reading', reading: { ...reading('1').reading, stable: 'yes' } },
    { type: 'reading', reading: { ...reading('1').reading, carriedBy: 'x'.repeat(1500) } },
    ...fc.sample(fc.json(), { seed: 7, numRuns: 20 }),
  ];
  for (const message of broken) {
    const agent = await open(window, bringsReadings, token);
    agent.say(message);
    expect(await agent.closed()).toBe(1008);
  }
  const types = new Set(page.told.map(({ type }) => type));
  expect([...types].sort()).toEqual(['back', 'lost']);
});

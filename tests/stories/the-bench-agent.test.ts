/** The bench agent on a pseudo-terminal that plays a serial scale, to the service and to pages. */
import { execFileSync } from 'node:child_process';
import { hearsReadings } from '../../shared/scales/wire.js';
import { Agent } from '../support/agent.js';
import { CommandLine } from '../support/command.js';
import { CutLine } from '../support/cut-line.js';
import { PseudoTerminal } from '../support/pseudo-terminal.js';
import { randomFrom } from '../support/random.js';
import { ScaleSocket } from '../support/scale-socket.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let service: string;
let bench: string;
let token: string;
const toEnd: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  studio = await aStudio();
  service = await studio.service.app.getUrl();
  bench = (await studio.owner.post<{ id: string }>('/benches', { name: 'Window' })).id;
  const words = { name: 'Scale', role: 'bench' };
  token = (await studio.owner.post<{ token: string }>('/tokens', words)).token;
});
afterEach(async () => {
  for (const end of toEnd.splice(0).reverse()) await end();
});
afterAll(() => studio.close());

type Told = Record<string, unknown> & {
  reading?: { value?: string; stable?: boolean; carriedBy?: string };
};
const valueOf = (told: Told) => told.reading?.value;
const weighs = (value: string) => (told: Told) => valueOf(told) === value;
const isLost = (told: Told) => told['type'] === 'lost';

async function aScale(): Promise<PseudoTerminal> {
  const terminal = await PseudoTerminal.open();
  toEnd.push(() => terminal.close());
  return terminal;
}

/** A scale that writes ten lines a second, as it was told last. */
function speaking(scale: PseudoTerminal, first: string): (line: string) => void {
  let line = first;
  const timer = setInterval(() => scale.send(`${line}\r\n`), 100);
  toEnd.push(() => Promise.resolve(clearInterval(timer)));
  return (next) => (line = next);
}

async function anAgent(scale: PseudoTerminal, ...words: string[]): Promise<Agent> {
  const known = words.includes('--service') ? [] : ['--service', service];
  const agent = await Agent.start(['--serial', scale.path, ...known, ...words], token);
  toEnd.push(() => agent.stop());
  return agent;
}

async function aPage(url: string, headers: Record<string, string>): Promise<ScaleSocket> {
  const page = await ScaleSocket.open(url, hearsReadings, headers);
  toEnd.push(() => page.close());
  return page;
}

const throughService = () =>
  aPage(`${service.replace('http', 'ws')}/api/v1/scales/${bench}`, {
    authorization: `Bearer ${token}`,
  });
const straight = (agent: Agent) => aPage(agent.door, { origin: service });

test('a scale that speaks by itself is heard through the service and straight', async () => {
  const scale = await aScale();
  const say = speaking(scale, 'ST,GS,+   182.0g');
  const far = await throughService();
  const agent = await anAgent(scale);
  const near = await straight(agent);

  for (const page of [near, far]) await page.until(weighs('182'));
  say('US,GS,+   211.5g');
  for (const page of [near, far]) {
    expect(await page.until(weighs('211.5'))).toEqual({
      type: 'reading',
      reading: {
        status: 'weight',
        value: '211.5',
        unit: 'g',
        stable: false,
        mode: 'gross',
        interval: '0.1',
        carriedBy: 'US,GS,+   211.5g',
      },
    });
  }
  expect(agent.said).toContain('9600 8N1, text_lines, it speaks by itself');

  await scale.close();
  for (const page of [near, far]) {
    const heard = page.told.findIndex(weighs('211.5'));
    expect(await page.until(isLost, heard)).toEqual({ type: 'lost', trouble: 'unplugged' });
  }
  expect(await agent.stop()).toBe(0);
});

test('how a polled scale speaks is found out, and it is asked again and again', async () => {
  const scale = await aScale();
  let asked = 0;
  scale.onReceived((text) => {
    // SMA SCP-0499: LF W CR asks for the weight, the reply has fixed columns
    for (let at = text.indexOf('\nW\r'); at >= 0; at = text.indexOf('\nW\r', at + 1)) {
      asked += 1;
      scale.send(`\n 1G${asked % 2 ? 'M' : ' '}       62.5g  \r`);
    }
  });
  const agent = await anAgent(scale, '--line', '9600 8N1');
  const page = await straight(agent);

  await page.until((told) => weighs('62.5')(told) && (told as Told).reading?.stable === true);
  await page.until((told) => weighs('62.5')(told) && (told as Told).reading?.stable === false);
  await page.until((told) => page.told.filter(weighs('62.5')).indexOf(told) >= 9);
  expect(agent.said).toContain('9600 8N1, sma, asked with "\\nW\\r"');
  expect(asked).toBeGreaterThanOrEqual(10);
});

test('the network goes and comes back; the page on this machine hears all the time', async () => {
  const scale = await aScale();
  const say = speaking(scale, 'ST,GS,+   100.0g');
  const line = await CutLine.to(service);
  toEnd.push(() => line.cut());
  const far = await throughService();
  const agent = await anAgent(scale, '--service', line.url, '--page', service);
  const near = await straight(agent);
  await far.until(weighs('100'));

  await line.cut();
  await far.until(isLost, far.told.findIndex(weighs('100')));
  say('ST,GS,+   130.0g');
  await near.until(weighs('130'));
  expect(far.told.some(weighs('130'))).toBe(false);

  await line.join();
  await far.until(weighs('130'));
});

test.each<[string, Record<string, string>]>([
  ['a program that is no page', {}],
  ['a page from elsewhere', { origin: 'https://elsewhere.example' }],
  ['a page that calls the machine by another name', { origin: 'SERVICE', host: 'evil.example' }],
])('%s is not let in at the door', async (_who, headers) => {
  const scale = await aScale();
  const agent = await anAgent(scale);
  const named = headers['origin'] === 'SERVICE' ? { ...headers, origin: service } : headers;
  await expect(ScaleSocket.open(agent.door, hearsReadings, named)).rejects.toThrow(/^403/);
});

test('noise and damaged lines: no reading but what a whole line carried', async () => {
  const scale = await aScale();
  const agent = await anAgent(scale, '--line', '9600 8N1', '--speaks', 'text_lines', '--ask', '');
  await agent.until(/Reading/);
  const page = await straight(agent);
  const random = randomFrom(11);
  const lines = Array.from({ length: 400 }, (_, n) => {
    const line = `ST,GS,+${`${100 + n}.0`.padStart(8)}g\r\n`;
    const at = random.below(line.length);
    switch (random.below(4)) {
      case 0:
        return line.slice(0, at) + line.slice(at + 1);
      case 1:
        return `${line.slice(0, at)}${String.fromCharCode(random.below(256))}${line.slice(at)}`;
      case 2:
        return String.fromCharCode(...Array.from({ length: 30 }, () => random.below(256)));
      default:
        return line;
    }
  });
  // a terminal holds 4 kB: more at once than the agent has taken may be lost
  for (let at = 0; at < lines.length; at += 20) {
    scale.send(lines.slice(at, at + 20).join(''));
    await new Promise((wake) => setTimeout(wake, 20));
  }
  const last = 'ST,GS,+   999.0g';
  speaking(scale, last);
  await page.until(weighs('999'));

  const whole = new Set(lines.join('').split(/[\r\n]+/));
  const carried = page.told.flatMap((told: Told) => told.reading?.carriedBy ?? []);
  expect(carried.length).toBeGreaterThan(50);
  for (const line of carried) expect(whole.has(line) || line === last).toBe(true);
  expect(await agent.stop()).toBe(0);
});

test('wrong words end with 2, a token that opens nothing is told in a sentence', async () => {
  const command = await CommandLine.inNewFolder();
  toEnd.push(() => command.remove());
  for (const words of [
    ['--line', 'fast'],
    ['--hid', 'scale'],
    ['--speaks', 'french'],
    ['--door', '70000'],
    ['--service', 'here'],
  ]) {
    expect(await command.run('bench-agent', ...words)).toMatchObject({ code: 2, out: '' });
  }

  const scale = await aScale();
  token = `bwt_${'A'.repeat(65)}`;
  const agent = await anAgent(scale);
  await agent.until(/The service says: Sign in with a name and PIN, or send a bearer token\./);
});

test('the devices of this computer are listed', async () => {
  const command = await CommandLine.inNewFolder();
  toEnd.push(() => command.remove());
  const listed = await command.answer('bench-agent', '--list', '--json');
  expect(Object.keys(JSON.parse(listed) as object).sort()).toEqual(['cannot', 'hid', 'serial']);
});

test('the service starts without the drivers', () => {
  const loaded = execFileSync(
    process.execPath,
    [
      '--input-type=module',
      '--eval',
      `await import('./dist/src/service.js'); await import('./dist/src/command-line/commands.js');
       const { default: module } = await import('node:module');
       const driver = /serialport|node-hid/;
       console.log(Object.keys(module._cache).filter((path) => driver.test(path)).join());`,
    ],
    { encoding: 'utf8' },
  );
  expect(loaded.trim()).toBe('');
});

/** The bowlworth command: starting, stopping, joining, copying; its exit codes and its silence. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { runningServer } from '../../src/platform/database/postmaster.js';
import { Client } from '../support/client.js';
import { CommandLine, type Serving } from '../support/command.js';

/** Every command is a process of its own, and a machine may be busy: milliseconds. */
const patient = 120_000;

let line: CommandLine;
beforeAll(async () => (line = await CommandLine.inNewFolder()));
afterAll(() => line.remove());

const database = () => runningServer(join(line.folder, 'postgres'));
const studioWords = ['--owner', 'Heron Vale', '--currency', 'EUR', '--time-zone', 'Europe/Lisbon'];

test(
  '--help is answered, wrong words are 2, a failure is 1',
  async () => {
    const help = await line.run('--help');
    expect(help).toMatchObject({ code: 0, err: '' });
    for (const name of ['serve', 'demo', 'migrate', 'audit', 'backup', 'restore', 'token']) {
      expect(help.out).toContain(name);
      expect((await line.run(name, '--help')).code).toBe(0);
    }
    expect(await line.run('knit')).toMatchObject({ code: 2, out: '' });
    expect(await line.run('token')).toMatchObject({ code: 2, out: '' });
    expect(await line.run('token', 'x', '--role', 'duke')).toMatchObject({ code: 2, out: '' });
    const none = await line.run('token', 'x');
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toMatch(/^There is no such studio .*bowlworth studio NAME\n$/);
  },
  patient,
);

test(
  'a studio of one’s own: opened, a token printed and nothing else, the database stopped',
  async () => {
    const opened = JSON.parse(
      await line.answer('studio', 'Own', ...studioWords, '--json'),
    ) as object;
    expect(opened).toMatchObject({
      owner: 'Heron Vale',
      pin: expect.stringMatching(/^\d{6}$/) as string,
    });
    const token = await line.run('token', 'Till', '--role', 'manager');
    expect(token).toMatchObject({ code: 0, err: '' });
    expect(token.out).toMatch(/^bwt_[\w-]{65}\n$/);
    expect(await database()).toBeUndefined();
  },
  patient,
);

test(
  'commands join a service that runs; a second service is refused; Ctrl-C stops both',
  async () => {
    const serving = await line.serve();
    const token = await line.answer('token', 'Reader');
    const client = new Client(serving.url, token);
    expect(await client.get('/studio')).toMatchObject({ name: 'Own', currency: 'EUR' });
    const second = await line.run('serve');
    expect(second.code).toBe(1);
    expect(second.err).toMatch(/in use by another service/);
    expect((await client.ask('GET', '//health/ready')).status).toBe(200);
    expect(await serving.stop('SIGINT')).toMatchObject({ code: 0, err: '' });
    expect(await database()).toBeUndefined();
  },
  patient,
);

test(
  'a database left running by a killed service is adopted, with all that was said',
  async () => {
    const token = await line.answer('token', 'Reader');
    const killed = await line.serve();
    await killed.stop('SIGKILL');
    const left = await database();
    expect(left).toBeDefined();
    const serving: Serving = await line.serve();
    expect((await database())?.processId).toBe(left?.processId);
    expect(await new Client(serving.url, token).get('/studio')).toMatchObject({ name: 'Own' });
    expect((await serving.stop('SIGTERM')).code).toBe(0);
    expect(await database()).toBeUndefined();
  },
  patient,
);

test(
  'a database that dies under the service is started again',
  async () => {
    const serving = await line.serve();
    const client = new Client(serving.url, await line.answer('token', 'Reader'));
    const before = await database();
    process.kill(before?.processId ?? 0, 'SIGKILL');
    let after = await database();
    for (
      let waited = 0;
      waited < 200 && (!after || after.processId === before?.processId);
      waited += 1
    ) {
      await new Promise((done) => setTimeout(done, 50));
      after = await database();
    }
    expect(await client.get('/studio')).toMatchObject({ name: 'Own' });
    expect((await serving.stop('SIGINT')).code).toBe(0);
    expect(await database()).toBeUndefined();
  },
  patient,
);

test(
  'a backup made while the service runs brings everything back elsewhere',
  async () => {
    const serving = await line.serve();
    const token = await line.answer('token', 'Owner');
    const client = new Client(serving.url, token);
    await client.post('/people', { name: 'Wren Tallis', role: 'stylist', hourRate: '24.125' });
    const file = join(line.folder, 'copy.gz');
    const copied = JSON.parse(await line.answer('backup', file, '--json')) as { rows: number };
    expect(copied.rows).toBeGreaterThan(4);
    await serving.stop('SIGINT');

    const elsewhere = await CommandLine.inNewFolder();
    const restored: unknown = JSON.parse(await elsewhere.answer('restore', file, '--json'));
    expect(restored).toMatchObject(copied);
    const again = await elsewhere.run('restore', file);
    expect(again).toMatchObject({ code: 1, out: '' });
    expect(again.err).toMatch(/holds studios already/);
    const there = await elsewhere.serve();
    const people = await new Client(there.url, token).get<{ items: object[] }>('/people');
    expect(people.items).toEqual((await peopleOf(token)).items);
    await there.stop('SIGINT');
    await elsewhere.remove();
  },
  patient,
);

async function peopleOf(token: string): Promise<{ items: object[] }> {
  const serving = await line.serve();
  const people = await new Client(serving.url, token).get<{ items: object[] }>('/people');
  await serving.stop('SIGINT');
  return people;
}

test(
  'what is no backup is refused, and nothing half written is left',
  async () => {
    const none = await line.run('restore', 'package.json');
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toMatch(/is not a backup made by bowlworth backup\.\n$/);
    const missing = await line.run('restore', join(line.folder, 'missing.gz'));
    expect(missing).toMatchObject({ code: 1, out: '' });
    expect(missing.err).toMatch(/^ENOENT.*missing\.gz'\n$/);
    const nowhere = join(line.folder, 'nowhere', 'copy.gz');
    expect((await line.run('backup', nowhere)).code).toBe(1);
    expect(existsSync(nowhere)).toBe(false);
  },
  patient,
);

/** The embedded database: made, joined, adopted after a kill, refused to a second service. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { openEmbedded } from '../../src/platform/database/embedded.js';
import { runningServer } from '../../src/platform/database/postmaster.js';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'bowlworth-embedded-'));
});
afterAll(async () => rm(folder, { recursive: true, force: true }));

const running = () => runningServer(join(folder, 'postgres'));

test('the first to open makes and starts it, the last to leave stops it', async () => {
  const told: string[] = [];
  const first = await openEmbedded(folder, { progress: (line) => told.push(line) });
  const server = await running();
  const second = await openEmbedded(folder, { progress: (line) => told.push(line) });
  expect(told).toHaveLength(1);
  expect((await running())?.processId).toBe(server?.processId);
  await first.close();
  expect((await running())?.processId).toBe(server?.processId);
  await second.close();
  expect(await running()).toBeUndefined();
});

test('a second service on the same folder is refused with a sentence', async () => {
  const service = await openEmbedded(folder, { exclusive: true });
  await expect(openEmbedded(folder, { exclusive: true })).rejects.toThrow(
    /in use by another service .* set BOWLWORTH_DATA to another folder/,
  );
  const command = await openEmbedded(folder);
  await command.close();
  expect(await running()).toBeDefined();
  await service.close();
  expect(await running()).toBeUndefined();
});

test('it keeps what was committed, and syncs to disk at every commit', async () => {
  const service = await openEmbedded(folder, { exclusive: true });
  const client = new pg.Client(service.connection);
  await client.connect();
  expect((await client.query('show fsync')).rows).toEqual([{ fsync: 'on' }]);
  expect((await client.query('show synchronous_commit')).rows).toEqual([
    { synchronous_commit: 'on' },
  ]);
  await client.end();
  await service.close();
});

test('where there are no sockets it listens on loopback, with a password', async () => {
  const service = await openEmbedded(folder, { loopback: true });
  const { host, port, user } = service.connection;
  expect(host).toBe('127.0.0.1');
  const stranger = new pg.Client({ host, port, user, password: 'guess', database: 'postgres' });
  await expect(stranger.connect()).rejects.toThrow(/password authentication failed/);
  await service.close();
});

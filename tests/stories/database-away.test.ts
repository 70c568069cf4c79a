/** While the database is away the service stays, says so, and goes on when it is back. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pino from 'pino';
import { AppModule } from '../../src/app.module.js';
import { openDataSource } from '../../src/platform/database/data-source.js';
import { openEmbedded } from '../../src/platform/database/embedded.js';
import { migrate } from '../../src/platform/database/migrate.js';
import { openServer } from '../../src/platform/http/server.js';
import { readSettings } from '../../src/platform/settings.js';
import { entities, schemaSteps } from '../../src/schema.js';
import { newSecret } from '../../src/studio/people/secret.js';
import { Client } from '../support/client.js';
import { TestClock } from '../support/studio.js';

test('503 with Retry-After and not ready, then as before', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'bowlworth-away-'));
  const embedded = await openEmbedded(folder);
  const owner = await openDataSource(embedded.connection, { asService: false, size: 1 });
  await migrate(owner, schemaSteps);
  await owner.destroy();
  const dataSource = await openDataSource(embedded.connection, { asService: true, entities });
  const log = pino({ level: 'silent' });
  const parts = { dataSource, clock: new TestClock(), settings: readSettings({}), log };
  const app = await openServer(AppModule.of(parts), { log });
  await app.listen(0, '127.0.0.1');
  const { text } = newSecret('token', '00000000-0000-4000-8000-000000000001');
  const client = new Client(await app.getUrl(), text);

  expect((await client.ask('GET', '//health/ready')).status).toBe(200);
  expect((await client.ask('GET', '/session')).status).toBe(401);
  await dataSource.query(`select 'one idle connection'`);
  await embedded.close();
  const away = await client.ask('GET', '/session');
  expect(away.body).toMatchObject({ type: '/problems/unavailable', status: 503 });
  expect(away.headers['retry-after']).toBe('2');
  expect((await client.ask('GET', '//health/ready')).status).toBe(503);
  expect((await client.ask('GET', '//health/live')).status).toBe(200);

  const back = await openEmbedded(folder);
  expect((await client.ask('GET', '//health/ready')).status).toBe(200);
  expect((await client.ask('GET', '/session')).status).toBe(401);
  await app.close();
  await dataSource.destroy();
  await back.close();
  await rm(folder, { recursive: true, force: true });
});

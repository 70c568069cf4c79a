/** A fresh database for a test, copied from a migrated template on one embedded server. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { openDataSource } from '../../src/platform/database/data-source.js';
import {
  openEmbedded,
  type Connection,
  type Embedded,
} from '../../src/platform/database/embedded.js';
import { migrate } from '../../src/platform/database/migrate.js';
import { entities, schemaSteps } from '../../src/schema.js';

/** A database of its own, connected as the service is. */
export interface TestDatabase {
  readonly connection: Connection;
  /** As `bowlworth_service`, which row-level security applies to. */
  readonly dataSource: DataSource;
  /** One statement as the owner, past every guard; for arranging and looking. */
  asOwner<Row extends pg.QueryResultRow>(sql: string, values?: unknown[]): Promise<Row[]>;
  /** Disconnects and drops it. */
  close(): Promise<void>;
}

/** Makes one; about 0.1 s. Close it in `afterAll`. */
export async function testDatabase(options: { size?: number } = {}): Promise<TestDatabase> {
  const server = await testServer();
  const name = `test_${process.pid}_${(made += 1)}`;
  await asAdmin(server, async (admin) => {
    await admin.query(`create database ${name} template ${await template(admin, server)}`);
  });
  const connection = { ...server.connection, database: name };
  const dataSource = await openDataSource(connection, {
    asService: true,
    entities,
    ...(options.size === undefined ? {} : { size: options.size }),
  });
  const owner = new pg.Pool({ ...connection, max: 1, allowExitOnIdle: true });
  return {
    connection,
    dataSource,
    asOwner: async <Row extends pg.QueryResultRow>(sql: string, values: unknown[] = []) =>
      (await owner.query<Row>(sql, values)).rows,
    close: async () => {
      await dataSource.destroy();
      await owner.end();
      await asAdmin(server, (admin) => admin.query(`drop database ${name} with (force)`));
      await server.close();
    },
  };
}

let made = 0;

/** The tests' server: whichever process comes first starts it, the last one stops it. */
export function testServer(): Promise<Embedded> {
  const mark = createHash('sha256').update(process.cwd()).digest('hex').slice(0, 8);
  const user = process.getuid?.() ?? 0;
  return openEmbedded(join(tmpdir(), `bowlworth-tests-${user}-${mark}`), {
    settings: ['max_connections=200', 'fsync=off', 'shared_buffers=32MB'],
  });
}

async function asAdmin<T>(server: Embedded, work: (admin: pg.Client) => Promise<T>): Promise<T> {
  const admin = new pg.Client({ ...server.connection, database: 'postgres' });
  await admin.connect();
  try {
    return await work(admin);
  } finally {
    await admin.end();
  }
}

/** The name of the template with today's migrations, made once under a lock. */
async function template(admin: pg.Client, server: Embedded): Promise<string> {
  const name = `template_${migrationsMark()}`;
  await admin.query('select pg_advisory_lock(4180099)');
  const { rows } = await admin.query<{ datname: string; ready: boolean }>(
    `select datname, datistemplate as ready from pg_database
     where datname ~ '^(template|test)_[0-9a-f]+'`,
  );
  if (rows.some((row) => row.datname === name && row.ready)) return name;
  for (const { datname } of rows.filter((row) => isLeftOver(row.datname))) {
    await admin.query(`alter database ${datname} is_template false`);
    await admin.query(`drop database ${datname} with (force)`);
  }
  await admin.query(`create database ${name}`);
  const dataSource = await openDataSource(
    { ...server.connection, database: name },
    { asService: false, size: 1 },
  );
  try {
    await migrate(dataSource, schemaSteps);
  } finally {
    await dataSource.destroy();
  }
  await admin.query(`alter database ${name} is_template true`);
  return name;
}

function migrationsMark(): string {
  const folder = new URL('../../migrations/', import.meta.url);
  const hash = createHash('sha256');
  for (const file of readdirSync(folder).sort()) hash.update(readFileSync(new URL(file, folder)));
  return hash.digest('hex').slice(0, 16);
}

/** An older template, or the database of a test process that is no more. */
function isLeftOver(name: string): boolean {
  const processId = /^test_(\d+)_/.exec(name)?.[1];
  if (processId === undefined) return true;
  try {
    return !process.kill(Number.parseInt(processId, 10), 0);
  } catch {
    return true;
  }
}

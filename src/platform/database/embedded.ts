/** The embedded PostgreSQL: whoever comes first starts it, whoever leaves last stops it. */
import { resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import pg from 'pg';
import { clusterOwner, readyCluster, type EmbeddedOptions, type ReadyCluster } from './cluster.js';
import { runningServer, startServer, stopServer, type Address } from './postmaster.js';

/** What a connection to one database needs; `host` may be the folder of a Unix socket. */
export interface Connection {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly database: string;
}

/** An embedded database held open. */
export interface Embedded {
  readonly connection: Connection;
  /** Called when the server went away without being asked to. */
  onLost(listener: () => void): void;
  /** After a loss: closing this closes the one that was opened in its place. */
  replaceBy(again: Embedded): void;
  /** Lets go of it; the last one to let go stops the server. */
  close(): Promise<void>;
}

/** Two numbers of our own, for PostgreSQL's advisory locks. */
const users = 4_180_001;
const server = 4_180_002;
const attempts = 50;
const betweenAttemptsMs = 100;

/**
 * Opens the embedded database in `dataFolder`: makes it if it is not there, adopts the server
 * that is running or starts one. `exclusive` is for the service, of which a folder has one.
 * @throws Error with a sentence when another service has the folder, or the start fails
 */
export async function openEmbedded(
  dataFolder: string,
  options: EmbeddedOptions & { readonly exclusive?: boolean } = {},
): Promise<Embedded> {
  const ready = await readyCluster(dataFolder, options);
  for (let attempt = 1; ; attempt += 1) {
    const guard = await join(ready).catch((error: unknown) => {
      if (attempt >= attempts || !isPassing(error)) throw error;
    });
    if (guard) {
      if (options.exclusive) await claim(guard.client, dataFolder);
      await ensureDatabase(guard.client);
      return held(ready, guard);
    }
    await pause(betweenAttemptsMs); // the server was just being stopped: start it again
  }
}

interface Guard {
  readonly client: pg.Client;
  readonly address: Address;
}

async function join(ready: ReadyCluster): Promise<Guard> {
  const { cluster, password } = ready;
  const address = (await runningServer(cluster.folder)) ?? (await startServer(cluster));
  const client = new pg.Client({
    ...connectionTo(address, password, 'postgres'),
    application_name: `bowlworth ${process.pid}`,
  });
  await client.connect();
  client.on('error', () => undefined); // told by `end`
  await client.query('select pg_advisory_lock_shared($1)', [users]);
  return { client, address };
}

/** The server is going down or not yet up: worth another try. */
function isPassing(error: unknown): boolean {
  const code = (error as { code?: string }).code ?? '';
  const message = error instanceof Error ? error.message : '';
  return (
    ['57P01', '57P02', '57P03', 'ECONNREFUSED', 'ECONNRESET', 'ENOENT', 'EPIPE'].includes(code) ||
    message.includes('Connection terminated')
  );
}

async function claim(client: pg.Client, dataFolder: string): Promise<void> {
  const { rows } = await client.query<{ mine: boolean }>(
    'select pg_try_advisory_lock($1) as mine',
    [server],
  );
  if (rows[0]?.mine) return;
  const other = await client.query<{ name: string }>(
    `select a.application_name as name from pg_locks l join pg_stat_activity a using (pid)
     where l.locktype = 'advisory' and l.objid = $1 and l.granted`,
    [server],
  );
  await client.end();
  throw new Error(
    `The folder ${resolve(dataFolder)} is in use by another service ` +
      `(${other.rows[0]?.name ?? 'just leaving'}). Stop that one, ` +
      'or set BOWLWORTH_DATA to another folder.',
  );
}

async function ensureDatabase(client: pg.Client): Promise<void> {
  const { rowCount } = await client.query('select from pg_database where datname = $1', [
    clusterOwner,
  ]);
  if (rowCount === 0) {
    await client.query(`create database ${clusterOwner}`).catch((error: unknown) => {
      const code = (error as { code?: string }).code;
      if (code !== '42P04' && code !== '23505') throw error; // another process was first
    });
  }
}

function held(ready: ReadyCluster, { client, address }: Guard): Embedded {
  const listeners: (() => void)[] = [];
  let closing = false;
  let successor: Embedded | undefined;
  client.once('end', () => {
    if (!closing) listeners.forEach((listener) => listener());
  });
  return {
    connection: connectionTo(address, ready.password, clusterOwner),
    onLost: (listener) => void listeners.push(listener),
    replaceBy: (again) => (successor = again),
    close: async () => {
      if (closing) return;
      closing = true;
      if (successor) return successor.close();
      if (await isLastUser(client).catch(() => false)) await stopServer(ready.cluster, address);
      await client.end().catch(() => undefined);
    },
  };
}

async function isLastUser(client: pg.Client): Promise<boolean> {
  await client.query('select pg_advisory_unlock_shared($1)', [users]);
  const { rows } = await client.query<{ last: boolean }>(
    'select pg_try_advisory_lock($1) as last',
    [users],
  );
  return rows[0]?.last ?? false;
}

function connectionTo(address: Address, password: string, database: string): Connection {
  return { host: address.host, port: address.port, user: clusterOwner, password, database };
}

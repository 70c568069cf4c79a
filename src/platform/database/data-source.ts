/** The service's connections: TypeORM over one pool, as a role that owns nothing. */
import pg from 'pg';
import { DataSource } from 'typeorm';
import type { Connection } from './embedded.js';

/** A database to connect to: the parts of an address, or the text of `DATABASE_URL`. */
export type Target = Connection | string;

/** The role whose rights the service has once connected; migrations make it. */
export const serviceRole = 'bowlworth_service';

/** What a pool of connections is made with. */
export interface PoolOptions {
  /** The service's role instead of the owner's own. */
  readonly asService: boolean;
  /** At most so many connections. */
  readonly size?: number;
  /** Classes that TypeORM maps to tables. */
  readonly entities?: readonly (new () => object)[];
}

const oldestServer = 150_000;
const connectWithinMs = 5_000;

/** Session settings of every connection; times are stored and read as instants. */
const sessionWords = [
  '-c timezone=UTC',
  '-c lock_timeout=10s',
  '-c idle_in_transaction_session_timeout=60s',
];

/**
 * Connects and checks the server's version.
 * @throws Error with a sentence when the server is older than PostgreSQL 15
 */
export async function openDataSource(target: Target, options: PoolOptions): Promise<DataSource> {
  const dataSource = new DataSource({
    type: 'postgres',
    entities: [...(options.entities ?? [])],
    installExtensions: false,
    poolSize: options.size ?? 10,
    applicationName: `bowlworth ${process.pid}`,
    connectTimeoutMS: connectWithinMs,
    poolErrorHandler: () => undefined, // the next query says it, to somebody who can answer
    extra: { ...address(target, options.asService), pipeline: true, types: columnTypes, min: 0 },
  });
  await dataSource.initialize();
  try {
    await refuseOldServer(dataSource);
  } catch (error) {
    await dataSource.destroy();
    throw error;
  }
  return dataSource;
}

/** The pool configuration of `pg` for a target, for connections outside of TypeORM. */
export function address(target: Target, asService: boolean): pg.PoolConfig {
  const words = [...sessionWords, ...(asService ? [`-c role=${serviceRole}`] : [])].join(' ');
  if (typeof target !== 'string') return { ...target, options: words };
  const url = new URL(target);
  const own = url.searchParams.get('options');
  url.searchParams.set('options', own ? `${own} ${words}` : words);
  return { connectionString: url.toString() };
}

/** Days stay text: a day has no instant, and the driver would give it one of this machine. */
export const columnTypes: pg.CustomTypesConfig = {
  getTypeParser: (oid: number, format?: 'text' | 'binary') =>
    oid === (pg.types.builtins.DATE as number)
      ? (text: string) => text
      : (pg.types.getTypeParser(oid, format) as (text: string) => unknown),
};

async function refuseOldServer(dataSource: DataSource): Promise<void> {
  const rows = await dataSource.query<{ number: number; version: string }[]>(
    `select current_setting('server_version_num')::int as number,
            current_setting('server_version') as version`,
  );
  const found = rows[0];
  if (found && found.number < oldestServer) {
    throw new Error(
      `The database server is PostgreSQL ${found.version}. Bowlworth needs 15 or newer.`,
    );
  }
}

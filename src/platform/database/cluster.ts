/** The embedded database's files: made once, whole or not at all, owned by the right user. */
import { randomBytes, createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { chown, lstat, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join, resolve } from 'node:path';
import { findBinaries } from './binaries.js';
import type { Cluster } from './postmaster.js';
import { plainUserFor, startAs, type PlainUser } from './unprivileged.js';

/** How an embedded database may be opened. */
export interface EmbeddedOptions {
  /** Told once, before the seconds that making a new database takes. */
  readonly progress?: (line: string) => void;
  /** Loopback instead of a Unix socket; where there are no such sockets it is always so. */
  readonly loopback?: boolean;
  /** More PostgreSQL `name=value` settings. */
  readonly settings?: readonly string[];
}

/** A cluster that is there, and the password of its owner. */
export interface ReadyCluster {
  readonly cluster: Cluster;
  readonly password: string;
}

/** Owner of the embedded database's cluster. */
export const clusterOwner = 'bowlworth';

/** The longest socket path that every system takes, with the name the server adds to it. */
const longestSocketFolder = 103 - '/.s.PGSQL.5432'.length;

/**
 * Makes the cluster in `dataFolder` unless it is there, and says how to run it.
 * @throws Error with a sentence when it cannot be made
 */
export async function readyCluster(
  dataFolder: string,
  options: EmbeddedOptions = {},
): Promise<ReadyCluster> {
  const data = resolve(dataFolder);
  const folder = join(data, 'postgres');
  await mkdir(data, { recursive: true });
  const user = await plainUserFor(existsSync(folder) ? folder : data);
  const binaries = await findBinaries();
  const password = await ownPassword(join(data, 'password'));
  const loopback = options.loopback ?? process.platform === 'win32';
  const cluster: Cluster = {
    binaries,
    folder,
    logFile: join(data, 'postgres.log'),
    user,
    listen: loopback
      ? { loopbackPort: await freePort() }
      : { socketFolder: await ownSocketFolder(data, user) },
    settings: options.settings ?? [],
  };
  if (!existsSync(folder)) {
    options.progress?.('Making the database, once …');
    await makeCluster(cluster, data, password);
  }
  return { cluster, password };
}

/** Made beside its final name and moved there whole, so that an interruption leaves nothing. */
async function makeCluster(cluster: Cluster, data: string, password: string): Promise<void> {
  const work = join(data, `new-${process.pid}`);
  await rm(work, { recursive: true, force: true });
  await mkdir(work, { mode: 0o700 });
  const passwordFile = join(work, 'password');
  await writeFile(passwordFile, password, { mode: 0o600 });
  const made = join(work, 'postgres');
  await mkdir(made, { mode: 0o700 });
  for (const path of [work, passwordFile, made]) await give(path, cluster.user);
  try {
    await initialise({ ...cluster, folder: made }, passwordFile);
    await rename(made, cluster.folder).catch((error: unknown) => {
      if (!existsSync(cluster.folder)) throw error; // otherwise another process was first
    });
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** The locale that comes with the server: the same order and case on every machine. */
async function initialise(cluster: Cluster, passwordFile: string): Promise<void> {
  const child = await startAs(cluster.user, {
    file: cluster.binaries.initdb,
    args: [
      ...['-D', cluster.folder, '-U', clusterOwner, '--encoding=UTF8', '--locale=C'],
      ...['--locale-provider=builtin', '--builtin-locale=C.UTF-8', '--no-instructions'],
      ...['--auth=scram-sha-256', `--pwfile=${passwordFile}`],
    ],
    folder: cluster.folder,
    stdio: ['ignore', 'pipe', 'pipe'],
    outlivesUs: false,
  });
  let said = '';
  child.stdout?.on('data', (text: Buffer) => (said += text.toString()));
  child.stderr?.on('data', (text: Buffer) => (said += text.toString()));
  const code = await new Promise<number | string>((done) => {
    child.once('error', (error) => done(error.message));
    child.once('close', (status, signal) => done(status ?? signal ?? 'unknown'));
  });
  if (code !== 0) throw new Error(`The database could not be made (${code}).\n${said.trim()}`);
}

async function ownPassword(file: string): Promise<string> {
  const fresh = randomBytes(24).toString('base64url');
  await writeFile(file, fresh, { mode: 0o600, flag: 'wx' }).catch((error: unknown) => {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  });
  const known = await readFile(file, 'utf8').catch(() => {
    throw new Error(`${file} belongs to another user. Run as that user, or set BOWLWORTH_DATA.`);
  });
  return known.trim();
}

async function ownSocketFolder(data: string, user: PlainUser | undefined): Promise<string> {
  const beside = join(data, 'socket');
  const mark = createHash('sha256').update(data).digest('hex').slice(0, 12);
  const short = join('/tmp', `bowlworth-${mark}`);
  const folder = Buffer.byteLength(beside) <= longestSocketFolder ? beside : short;
  await mkdir(folder, { mode: 0o700 }).catch((error: unknown) => {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  });
  await give(folder, user);
  const found = await lstat(folder);
  if (!found.isDirectory() || (found.mode & 0o077) !== 0 || found.uid !== ownerOf(user)) {
    throw new Error(`The folder ${folder} belongs to somebody else. Remove it and start again.`);
  }
  return folder;
}

function ownerOf(user: PlainUser | undefined): number {
  return user?.uid ?? process.getuid?.() ?? 0;
}

async function give(path: string, user: PlainUser | undefined): Promise<void> {
  if (user) await chown(path, user.uid, user.gid);
}

function freePort(): Promise<number> {
  return new Promise((done, failed) => {
    const probe = createServer().once('error', failed);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      probe.close(() => done(port));
    });
  });
}

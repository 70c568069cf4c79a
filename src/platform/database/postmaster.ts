/** One PostgreSQL server process on one folder: is it up, start it, stop it. */
import { closeSync, openSync, statSync } from 'node:fs';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Binaries } from './binaries.js';
import { startAs, type PlainUser } from './unprivileged.js';

/** Where a running server listens: a folder with a Unix socket, or a loopback port. */
export interface Address {
  readonly processId: number;
  readonly host: string;
  readonly port: number;
}

/** A cluster on disk and how it is to be run. */
export interface Cluster {
  readonly binaries: Binaries;
  readonly folder: string;
  readonly logFile: string;
  readonly user: PlainUser | undefined;
  readonly listen: { readonly socketFolder: string } | { readonly loopbackPort: number };
  /** More `name=value` settings, later ones winning. */
  readonly settings: readonly string[];
}

const stepMs = 10;
const startWithinMs = 60_000;
const stopWithinMs = 30_000;
const largestLogBytes = 5_000_000;

/** Sized for one studio on a small machine; the disk is always asked to keep what was said. */
const modest = [
  'fsync=on',
  'synchronous_commit=on',
  'shared_buffers=64MB',
  'max_connections=60',
  'wal_level=minimal',
  'max_wal_senders=0',
  'max_wal_size=512MB',
  'checkpoint_timeout=10min',
  'io_method=sync',
  'jit=off',
  'timezone=UTC',
  'log_timezone=UTC',
  'log_min_messages=warning',
  'autovacuum_naptime=30s',
  'random_page_cost=1.1', // no disk that turns: an index pays from the second page on
];

/** The server that runs on this folder and is ready, if there is one. */
export async function runningServer(folder: string): Promise<Address | undefined> {
  const text = await readFile(join(folder, 'postmaster.pid'), 'utf8').catch(() => '');
  const [pid = '', , , port = '', socketFolder = '', host = '', , status = ''] = text.split('\n');
  const processId = Number.parseInt(pid, 10);
  if (!status.startsWith('ready') || !(await isServer(processId))) return undefined;
  return {
    processId,
    host: socketFolder.trim() || host.trim() || '127.0.0.1',
    port: Number.parseInt(port, 10),
  };
}

/**
 * Starts the server and waits until it takes connections, or until it gave up because another
 * process has started one on the same folder meanwhile.
 * @throws Error with the last lines of its log when it does not start
 */
export async function startServer(cluster: Cluster): Promise<Address> {
  await removeStaleLock(cluster.folder);
  const log = openSync(cluster.logFile, isLarge(cluster.logFile) ? 'w' : 'a', 0o600);
  const child = await launch(cluster, log);
  closeSync(log);
  let ended = false;
  child.once('error', () => (ended = true));
  child.once('exit', () => (ended = true));
  child.unref();
  for (let waited = 0; waited < startWithinMs; waited += stepMs) {
    const address = await runningServer(cluster.folder);
    if (address) return address;
    if (ended && process.platform !== 'win32' && !(await lockIsHeld(cluster.folder))) break;
    await pause(stepMs);
  }
  throw new Error(`The database did not start. Its log ends:\n${await lastLines(cluster.logFile)}`);
}

/** Asks the server to roll back what is open and end, and waits until it has. */
export async function stopServer(cluster: Cluster, address: Address): Promise<void> {
  if (process.platform === 'win32') {
    await startAs(undefined, {
      file: cluster.binaries.pgCtl,
      args: ['stop', '-m', 'fast', '-D', cluster.folder],
      folder: cluster.folder,
      stdio: 'ignore',
      outlivesUs: false,
    });
  } else {
    process.kill(address.processId, 'SIGINT');
  }
  for (let waited = 0; waited < stopWithinMs; waited += stepMs) {
    if (!(await isServer(address.processId))) return;
    await pause(stepMs);
  }
  throw new Error(`The database (process ${address.processId}) did not stop.`);
}

function launch(cluster: Cluster, log: number) {
  const settings = [...modest, ...listening(cluster.listen), ...cluster.settings];
  const words = settings.flatMap((setting) => ['-c', setting]);
  if (process.platform === 'win32') {
    // pg_ctl gives up an administrator's rights before it starts the server, which insists on it
    const options = settings.map((setting) => `-c "${setting}"`).join(' ');
    return startAs(undefined, {
      file: cluster.binaries.pgCtl,
      args: ['start', '-W', '-D', cluster.folder, '-l', cluster.logFile, '-o', options],
      folder: cluster.folder,
      stdio: 'ignore',
      outlivesUs: true,
    });
  }
  return startAs(cluster.user, {
    file: cluster.binaries.postgres,
    args: ['-D', cluster.folder, ...words],
    folder: cluster.folder,
    stdio: ['ignore', log, log],
    outlivesUs: true,
  });
}

function listening(where: Cluster['listen']): string[] {
  return 'socketFolder' in where
    ? [
        'listen_addresses=',
        `unix_socket_directories=${where.socketFolder}`,
        'unix_socket_permissions=0700',
      ]
    : ['listen_addresses=127.0.0.1', `port=${where.loopbackPort}`, 'unix_socket_directories='];
}

async function isServer(processId: number): Promise<boolean> {
  if (!Number.isSafeInteger(processId) || processId <= 0) return false;
  try {
    process.kill(processId, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EPERM') return false;
  }
  if (process.platform !== 'linux') return true;
  const words = await readFile(`/proc/${processId}/cmdline`, 'utf8').catch(() => undefined);
  return words === undefined ? !(await procIsThere()) : words.includes('postgres');
}

async function procIsThere(): Promise<boolean> {
  return (await readFile('/proc/self/cmdline', 'utf8').catch(() => '')) !== '';
}

async function lockIsHeld(folder: string): Promise<boolean> {
  const text = await readFile(join(folder, 'postmaster.pid'), 'utf8').catch(() => '');
  return isServer(Number.parseInt(text, 10));
}

/** After a crash of the machine, some other program may have got the old server's number. */
async function removeStaleLock(folder: string): Promise<void> {
  if (!(await lockIsHeld(folder))) await rm(join(folder, 'postmaster.pid'), { force: true });
}

function isLarge(file: string): boolean {
  return (statSync(file, { throwIfNoEntry: false })?.size ?? 0) > largestLogBytes;
}

async function lastLines(file: string): Promise<string> {
  return (await readFile(file, 'utf8').catch(() => '')).split('\n').slice(-8).join('\n');
}

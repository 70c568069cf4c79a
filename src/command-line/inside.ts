/** Opens the service from a command, without listening, and chooses the studio it is about. */
import { asOwner, studiosOf } from '../platform/database/owner.js';
import { reachDatabase, type Reached } from '../platform/database/reach.js';
import { readSettings, type Settings } from '../platform/settings.js';
import type { Service } from '../service.js';
import { progress } from './terminal.js';

/** Runs `work` with the service open; it joins a database that is up, or starts and stops it. */
export async function withService<T>(work: (service: Service) => Promise<T>): Promise<T> {
  const settings = readSettings(process.env);
  const service = await openEarly(settings, reachDatabase(settings, { progress }), 4);
  try {
    return await work(service);
  } finally {
    await service.close();
  }
}

/** Opens the service while its database is being reached: both take their time. */
export async function openEarly(
  settings: Settings,
  reached: Promise<Reached>,
  poolSize?: number,
): Promise<Service> {
  reached.catch(() => undefined); // told below, when it is waited for
  const { openService } = await import('../service.js');
  return openService(settings, {
    reached,
    progress,
    ...(poolSize === undefined ? {} : { poolSize }),
  });
}

/**
 * The studio that a command is about: the one named (by id or name), else the only one that is
 * not invented, else the only one.
 * @throws Error with a sentence when there is none, or several
 */
export async function chooseStudio(
  service: Service,
  named: string | undefined,
): Promise<{ id: string; name: string }> {
  const studios = await asOwner(service.database.target, studiosOf);
  const wanted = named?.toLowerCase();
  const fitting =
    wanted === undefined
      ? studios.filter((studio) => !studio.demo)
      : studios.filter(({ id, name }) => id === wanted || name.toLowerCase() === wanted);
  const choice = fitting.length === 0 && wanted === undefined ? studios : fitting;
  const [only, ...others] = choice;
  if (only && others.length === 0) return only;
  const names = studios.map((studio) => studio.name).join(', ') || 'none';
  throw new Error(
    only
      ? `There are several studios (${names}). Say which with --studio NAME.`
      : `There is no such studio (there are: ${names}). Open one with: bowlworth studio NAME`,
  );
}

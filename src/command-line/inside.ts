/** Opens the service from a command, without listening, and chooses the studio it is about. */
import { asOwner, studiosOf } from '../platform/database/owner.js';
import { readSettings } from '../platform/settings.js';
import { openService, type Service } from '../service.js';
import { progress } from './terminal.js';

/** Runs `work` with the service open; it joins a database that is up, or starts and stops it. */
export async function withService<T>(work: (service: Service) => Promise<T>): Promise<T> {
  const service = await openService(readSettings(process.env), { progress, poolSize: 4 });
  try {
    return await work(service);
  } finally {
    await service.close();
  }
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

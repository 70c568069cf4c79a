/** Loads the invented studio once, and remembers how to sign in to it. */
import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Demo } from '../../seed/load-demo.js';
import { asOwner, studiosOf } from '../platform/database/owner.js';
import type { Settings } from '../platform/settings.js';
import { readSettings } from '../platform/settings.js';
import type { Service } from '../service.js';
import { BenchesService } from '../studio/people/benches.service.js';
import { progress } from './terminal.js';

/** The invented studio, and a token that makes this computer its bench. */
export interface SignIn extends Demo {
  readonly token: string;
}

/** Loads the demo unless it is there; undefined when it is. */
export async function loadDemoOnce(service: Service): Promise<SignIn | undefined> {
  const studios = await asOwner(service.database.target, studiosOf);
  if (studios.some((studio) => studio.demo)) return undefined;
  const { loadDemo } = await import('../../seed/load-demo.js');
  const demo = await loadDemo({
    ...service,
    dataSource: service.database.dataSource,
    target: service.database.target,
    progress,
  });
  const made = await service.app.get(BenchesService).makeToken(demo.studioId, {
    name: 'This computer',
    role: 'bench',
    benchId: demo.benchId,
  });
  const signIn = { ...demo, token: made.token };
  await remember(readSettings(process.env), signIn);
  return signIn;
}

/** How to sign in to the demo, from the start that loaded it; undefined where that is unknown. */
export async function demoSignIn(settings: Settings): Promise<SignIn | undefined> {
  const text = await readFile(fileOf(settings), 'utf8').catch(() => undefined);
  return text === undefined ? undefined : (JSON.parse(text) as SignIn);
}

/** Everybody may know: the studio is invented. It is kept with the data that it opens. */
async function remember(settings: Settings, signIn: SignIn): Promise<void> {
  if (settings.databaseUrl !== undefined) return;
  await writeFile(fileOf(settings), JSON.stringify(signIn, null, 2), { mode: 0o600 });
}

function fileOf(settings: Settings): string {
  return join(resolve(settings.dataFolder), 'demo.json');
}

/** Reaches a database, starting the embedded one where need be; loads nothing it need not. */
import type { Settings } from '../settings.js';
import type { Target } from './data-source.js';
import { openEmbedded, type Embedded } from './embedded.js';

/** A database that can be connected to. */
export interface Reached {
  readonly target: Target;
  /** Absent where the settings name a server. */
  readonly embedded: Embedded | undefined;
  close(): Promise<void>;
}

/** Where the settings say that the database is. */
export type Whereabouts = Pick<Settings, 'databaseUrl' | 'dataFolder'>;

/** Reaches the embedded database, or names the server's. */
export async function reachDatabase(
  { databaseUrl, dataFolder }: Whereabouts,
  options: { readonly exclusive?: boolean; readonly progress?: (line: string) => void } = {},
): Promise<Reached> {
  if (databaseUrl !== undefined) {
    return { target: databaseUrl, embedded: undefined, close: () => Promise.resolve() };
  }
  const embedded = await openEmbedded(dataFolder, options);
  if (options.exclusive) bringBack(embedded, dataFolder);
  return { target: embedded.connection, embedded, close: () => embedded.close() };
}

/** A server that died under the service is started again; the pool finds it by itself. */
function bringBack(embedded: Embedded, dataFolder: string): void {
  embedded.onLost(() => {
    void openEmbedded(dataFolder, { exclusive: true }).then(
      (again) => {
        embedded.replaceBy(again);
        bringBack(again, dataFolder);
      },
      () => undefined, // requests are answered 503; the log of the database says why
    );
  });
}

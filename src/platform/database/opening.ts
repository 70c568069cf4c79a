/** Opens the database that the settings name, up to date, ready for the service's role. */
import type { DataSource } from 'typeorm';
import type { Settings } from '../settings.js';
import { openDataSource, type Target } from './data-source.js';
import { openEmbedded, type Embedded } from './embedded.js';
import { migrate, stepsDue, type SchemaStep } from './migrate.js';

/** How to open it. */
export interface OpeningOptions {
  readonly steps: readonly SchemaStep[];
  readonly entities: readonly (new () => object)[];
  /** For the service, of which an embedded database has one. */
  readonly exclusive?: boolean;
  readonly poolSize?: number;
  readonly progress?: (line: string) => void;
}

/** A database that is open. */
export interface Opened {
  readonly dataSource: DataSource;
  /** For connections as the owner. */
  readonly target: Target;
  /** Names of the steps of the schema that were run now. */
  readonly migrated: readonly string[];
  /** Disconnects; the last to leave an embedded database stops it. */
  close(): Promise<void>;
}

/** A database without its schema. */
export interface Reached {
  readonly target: Target;
  readonly embedded: Embedded | undefined;
  close(): Promise<void>;
}

/** Reaches the embedded database, starting it where need be, or names the server's. */
export async function reachDatabase(
  settings: Pick<Settings, 'databaseUrl' | 'dataFolder'>,
  options: Pick<OpeningOptions, 'exclusive' | 'progress'> = {},
): Promise<Reached> {
  if (settings.databaseUrl !== undefined) {
    return {
      target: settings.databaseUrl,
      embedded: undefined,
      close: () => Promise.resolve(),
    };
  }
  const embedded = await openEmbedded(settings.dataFolder, options);
  return { target: embedded.connection, embedded, close: () => embedded.close() };
}

/** Reaches the database, runs the steps that are due, and connects as the service. */
export async function openDatabase(
  settings: Pick<Settings, 'databaseUrl' | 'dataFolder'>,
  options: OpeningOptions,
): Promise<Opened> {
  const reached = await reachDatabase(settings, options);
  try {
    const { target } = reached;
    const migrated = await upToDate(target, options);
    const dataSource = await openDataSource(target, {
      asService: true,
      entities: options.entities,
      ...(options.poolSize === undefined ? {} : { size: options.poolSize }),
    });
    const close = async () => {
      await dataSource.destroy();
      await reached.close();
    };
    if (options.exclusive && reached.embedded) bringBack(reached.embedded, settings.dataFolder);
    return { dataSource, target, migrated, close };
  } catch (error) {
    await reached.close();
    throw error;
  }
}

async function upToDate(target: Target, options: OpeningOptions): Promise<readonly string[]> {
  const owner = await openDataSource(target, { asService: false, size: 1 });
  try {
    const due = await stepsDue(owner, options.steps);
    if (due.length === 0) return due;
    options.progress?.(`Bringing the database up to date (${due.length} steps) …`);
    return await migrate(owner, options.steps);
  } finally {
    await owner.destroy();
  }
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

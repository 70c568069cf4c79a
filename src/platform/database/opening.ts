/** Opens the database that the settings name, up to date, ready for the service's role. */
import type { DataSource } from 'typeorm';
import { openDataSource, type Target } from './data-source.js';
import { migrate, stepsDue, type SchemaStep } from './migrate.js';
import { reachDatabase, type Reached, type Whereabouts } from './reach.js';

/** How to open it. */
export interface OpeningOptions {
  readonly steps: readonly SchemaStep[];
  readonly entities: readonly (new () => object)[];
  readonly poolSize?: number;
  readonly progress?: (line: string) => void;
  /** Where it has been reached already, or is being reached. */
  readonly reached?: Promise<Reached>;
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

/** Reaches the database, runs the steps that are due, and connects as the service. */
export async function openDatabase(
  whereabouts: Whereabouts,
  options: OpeningOptions,
): Promise<Opened> {
  const reached = await (options.reached ?? reachDatabase(whereabouts, options));
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

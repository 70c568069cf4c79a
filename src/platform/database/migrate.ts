/** Brings a database's schema up to this program's, one step after the other, once. */
import type { DataSource, MigrationInterface, QueryRunner } from 'typeorm';

/** One step of the schema; its name is stored and never changes. */
export type SchemaStep = MigrationInterface & { readonly name: string };

/** An arbitrary number of our own, for PostgreSQL's advisory locks. */
const oneAtATime = 4_180_003;

/**
 * Runs the steps that the database has not seen, each in a transaction of its own; two copies of
 * the service that start together wait for each other.
 * @param dataSource connected as the owner of the schema
 * @param steps all steps of this program, in order
 * @returns names of the steps that were run now
 * @throws Error with a sentence when the database was used by a newer program
 */
export async function migrate(
  dataSource: DataSource,
  steps: readonly SchemaStep[],
): Promise<string[]> {
  const runner = dataSource.createQueryRunner();
  await runner.connect();
  try {
    await runner.query('select pg_advisory_lock($1)', [oneAtATime]);
    await runner.query(
      `create table if not exists schema_step (
         name text primary key, applied_at timestamptz not null default now())`,
    );
    const seen = await seenSteps(runner);
    refuseNewer(seen, steps);
    const due = steps.filter((step) => !seen.includes(step.name));
    for (const step of due) await run(runner, step);
    return due.map((step) => step.name);
  } finally {
    await runner.query('select pg_advisory_unlock($1)', [oneAtATime]).catch(() => undefined);
    await runner.release();
  }
}

/** Names of the steps that this database still needs; none when it is up to date. */
export async function stepsDue(
  dataSource: DataSource,
  steps: readonly SchemaStep[],
): Promise<string[]> {
  const runner = dataSource.createQueryRunner();
  try {
    const [there] = (await runner.query(
      `select to_regclass('schema_step') is not null as yes`,
    )) as { yes: boolean }[];
    const seen = there?.yes ? await seenSteps(runner) : [];
    refuseNewer(seen, steps);
    return steps.filter((step) => !seen.includes(step.name)).map((step) => step.name);
  } finally {
    await runner.release();
  }
}

async function seenSteps(runner: QueryRunner): Promise<string[]> {
  const rows = (await runner.query('select name from schema_step')) as { name: string }[];
  return rows.map((row) => row.name);
}

function refuseNewer(seen: readonly string[], steps: readonly SchemaStep[]): void {
  const known = new Set(steps.map((step) => step.name));
  const strange = seen.find((name) => !known.has(name));
  if (strange !== undefined) {
    throw new Error(
      `The database was last used by a newer Bowlworth (its step ${strange} is unknown here). ` +
        'Start that version, or restore a backup made by this one.',
    );
  }
}

async function run(runner: QueryRunner, step: SchemaStep): Promise<void> {
  await runner.startTransaction();
  try {
    await step.up(runner);
    await runner.query('insert into schema_step (name) values ($1)', [step.name]);
    await runner.commitTransaction();
  } catch (error) {
    await runner.rollbackTransaction();
    throw error;
  }
}

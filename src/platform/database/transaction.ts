/** Work on one studio's rows: in a transaction, repeated when it must be, or just reading. */
import { createHash } from 'node:crypto';
import type { ClientBase, QueryResult, QueryResultRow } from 'pg';
import type { DataSource, EntityManager, QueryRunner } from 'typeorm';
import { sqlState } from './away.js';
import { StatementBatch } from './statement-batch.js';

/** A statement that every connection keeps ready; for constant text that runs often. */
export interface Prepared {
  readonly name: string;
  readonly text: string;
}

/** Names a constant statement so that the server parses and plans it once a connection. */
export function prepared(text: string): Prepared {
  return { name: createHash('sha256').update(text).digest('hex').slice(0, 20), text };
}

/** Reads one studio's rows. */
export interface Reader {
  readonly studioId: string;
  /** Runs one statement; parameters are `$1`, `$2`, …; numerics come back as text. */
  query<Row extends QueryResultRow>(
    statement: string | Prepared,
    parameters?: readonly unknown[],
  ): Promise<Row[]>;
}

/** An open transaction on one studio's rows. */
export interface Transaction extends Reader {
  /** True when everything will be rolled back at the end, as asked for by `?dry=true`. */
  readonly dry: boolean;
  /** TypeORM's entities, inside of this transaction. */
  readonly manager: EntityManager;
  /**
   * A statement whose result nobody asks for, sent with whatever comes next, at the latest with
   * the commit. Where it fails, everything behind it fails with its error.
   */
  write(statement: string | Prepared, parameters?: readonly unknown[]): void;
  /** Number of rows that an insert, update or delete touched. */
  execute(statement: string | Prepared, parameters?: readonly unknown[]): Promise<number>;
  /**
   * The last statement and the end of the transaction in one journey; what comes after it is
   * refused. Locks are held for one journey less.
   */
  finish<Row extends QueryResultRow>(
    statement: string | Prepared,
    parameters?: readonly unknown[],
  ): Promise<Row[]>;
}

const begin = prepared('BEGIN ISOLATION LEVEL READ COMMITTED');
const commit = prepared('COMMIT');
const rollback = prepared('ROLLBACK');
const checkNow = prepared('SET CONSTRAINTS ALL IMMEDIATE');

const mostRetries = 3;
const inFailedTransaction = '25P02';
const worthRetrying = new Set(['40001', '40P01']);
const studioPattern = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * Runs `work` in one READ COMMITTED transaction that sees and writes this studio's rows only.
 * Serialisation failures and deadlocks (SQLSTATE 40001, 40P01) are repeated at most 3 times, each
 * time in a new transaction: `work` must not keep results of an earlier call. With `dry` the same
 * is done and rolled back.
 */
export async function inTransaction<T>(
  dataSource: DataSource,
  studioId: string,
  work: (tx: Transaction) => Promise<T>,
  options: { readonly dry?: boolean } = {},
): Promise<T> {
  for (let retries = 0; ; retries += 1) {
    try {
      return await once(dataSource, studioId, work, options.dry ?? false);
    } catch (error) {
      if (retries >= mostRetries || !worthRetrying.has(sqlState(error) ?? '')) throw error;
    }
  }
}

/** Reads this studio's rows, each statement by itself, outside of any transaction. */
export function forStudio(dataSource: DataSource, studioId: string): Reader {
  return {
    studioId,
    query: async <Row extends QueryResultRow>(
      statement: string | Prepared,
      parameters: readonly unknown[] = [],
    ) => {
      const runner = dataSource.createQueryRunner();
      try {
        const client = await connected(runner);
        const [, result] = await together([
          stand(client, studioId),
          send<Row>(client, statement, parameters),
        ]);
        return result.rows;
      } finally {
        await runner.release();
      }
    },
  };
}

async function once<T>(
  dataSource: DataSource,
  studioId: string,
  work: (tx: Transaction) => Promise<T>,
  dry: boolean,
): Promise<T> {
  const runner = dataSource.createQueryRunner();
  const open = new OpenTransaction(runner, await connected(runner), studioId, dry);
  try {
    const answer = await work(open);
    await open.end();
    return answer;
  } catch (error) {
    throw await open.abandon(error);
  } finally {
    await runner.release();
  }
}

/** Statements asked for in one go are sent together, and none waits for those before it. */
class OpenTransaction implements Transaction {
  private begun = false;
  private ended = false;
  private sending = false;
  /** What a write failed with while nobody waited for it. */
  private failure: unknown;
  private batch = new StatementBatch();

  constructor(
    private readonly runner: QueryRunner,
    private readonly client: ClientBase,
    readonly studioId: string,
    readonly dry: boolean,
  ) {}

  get manager(): EntityManager {
    // TypeORM asks its runner whether it must open a transaction of its own: it must not
    if (!this.runner.isTransactionActive) {
      Object.assign(this.runner, { isTransactionActive: true, transactionDepth: 1 });
      this.begin()?.catch(() => undefined); // said by the statement behind it
    }
    this.send();
    return this.runner.manager;
  }

  async query<Row extends QueryResultRow>(
    statement: string | Prepared,
    parameters: readonly unknown[] = [],
  ): Promise<Row[]> {
    return (await this.run<Row>(statement, parameters)).rows;
  }

  write(statement: string | Prepared, parameters: readonly unknown[] = []): void {
    this.run(statement, parameters).catch((error: unknown) => (this.failure ??= error));
  }

  async execute(statement: string | Prepared, parameters: readonly unknown[] = []) {
    return (await this.run(statement, parameters)).rowCount ?? 0;
  }

  async finish<Row extends QueryResultRow>(
    statement: string | Prepared,
    parameters: readonly unknown[] = [],
  ): Promise<Row[]> {
    const last = this.run<Row>(statement, parameters);
    const [result] = await together([last, this.end()]);
    return result.rows;
  }

  /** Commits (or, dry, rolls back) unless that has been done. */
  async end(): Promise<void> {
    if (this.ended) return;
    this.ended = true;
    if (!this.begun) return;
    // what a commit would check at its end, a dry run checks too
    const checked = this.dry ? this.batch.add(checkNow) : undefined;
    const over = this.batch.add(this.dry ? rollback : commit);
    this.send();
    try {
      const [, { command }] = await together([checked, over]);
      // a transaction in which a statement failed answers COMMIT with ROLLBACK
      if (!this.dry && command !== 'COMMIT') throw new Error('The transaction had failed.');
    } catch (error) {
      await this.rollBack();
      throw this.failure ?? error;
    }
  }

  /**
   * Rolls back what is open; a connection that cannot even do that is given up by the pool.
   * @returns why: what it was left for, or the write that failed before that
   */
  async abandon(error: unknown): Promise<unknown> {
    if (this.begun && !this.ended) {
      this.ended = true;
      this.send();
      await this.rollBack();
    }
    return sqlState(error) === inFailedTransaction ? (this.failure ?? error) : error;
  }

  private async run<Row extends QueryResultRow>(
    statement: string | Prepared,
    parameters: readonly unknown[],
  ): Promise<QueryResult<Row>> {
    if (this.ended) throw new Error('This transaction has ended.');
    const begun = this.begin();
    const values = [...parameters];
    const asked = this.batch.add<Row>(
      typeof statement === 'string' ? { text: statement, values } : { ...statement, values },
    );
    this.sendSoon();
    return begun ? (await together([begun, asked]))[1] : asked;
  }

  /** Once, before the first statement. */
  private begin(): Promise<unknown> | undefined {
    if (this.begun) return undefined;
    this.begun = true;
    return together([stand(this.client, this.studioId), this.batch.add(begin)]);
  }

  /** In a batch of its own: where the one before it failed, nothing behind would be run. */
  private async rollBack(): Promise<void> {
    const undone = this.batch.add(rollback);
    this.send();
    await undone.catch(() => undefined);
  }

  /** When all that can be asked for now has been asked for. */
  private sendSoon(): void {
    if (this.sending) return;
    this.sending = true;
    process.nextTick(() => this.send());
  }

  private send(): void {
    this.sending = false;
    const { batch } = this;
    this.batch = new StatementBatch();
    batch.sendBy(this.client);
  }
}

/** The studio that each pooled connection stands in at present. */
const standing = new WeakMap<ClientBase, string>();

/**
 * Puts a connection into a studio; costs a statement only when it was in another. It is sent
 * outside of any transaction, so that no rollback undoes it.
 */
async function stand(client: ClientBase, studioId: string): Promise<void> {
  if (standing.get(client) === studioId) return;
  if (!studioPattern.test(studioId)) throw new Error(`"${studioId}" is not the id of a studio.`);
  standing.set(client, studioId);
  try {
    await client.query(`SET bowlworth.studio_id = '${studioId}'`);
  } catch (error) {
    standing.delete(client);
    throw error;
  }
}

function send<Row extends QueryResultRow>(
  client: ClientBase,
  statement: string | Prepared,
  parameters: readonly unknown[],
): Promise<QueryResult<Row>> {
  const values = [...parameters];
  return typeof statement === 'string'
    ? client.query<Row>(statement, values)
    : client.query<Row>({ name: statement.name, text: statement.text, values });
}

async function connected(runner: QueryRunner): Promise<ClientBase> {
  return (await runner.connect()) as ClientBase;
}

/** Waits for all, also when one fails; then the first failure in their order is thrown. */
async function together<T extends readonly unknown[]>(sent: {
  [K in keyof T]: Promise<T[K]> | T[K];
}): Promise<T> {
  const settled = await Promise.allSettled(sent);
  for (const one of settled) if (one.status === 'rejected') throw one.reason;
  return settled.map((one) => (one as PromiseFulfilledResult<unknown>).value) as unknown as T;
}

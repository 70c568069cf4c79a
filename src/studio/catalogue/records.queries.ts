/** Rows of the catalogue's tables: read in pages, written many at once, changed under lock. */
import type {
  DataSource,
  EntityTarget,
  FindOptionsWhere,
  ObjectLiteral,
  QueryDeepPartialEntity,
} from 'typeorm';
import { IsNull, LessThan } from 'typeorm';
import { Problem } from '../../../shared/problems/problem.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { cursorValues, type PageRequest } from '../../platform/http/paging.js';
import type { RetirableRecord } from './record.entity.js';

/** A new row: everything but what the database numbers itself. */
export type NewRow<E> = Omit<E, 'seq' | 'studioId'>;

/**
 * Inserts rows of one entity in one statement, one or ten thousand: they travel as one JSON text.
 */
export async function insertRows<E extends ObjectLiteral>(
  tx: Transaction,
  entity: EntityTarget<E>,
  rows: readonly NewRow<E>[],
): Promise<void> {
  const { tableName, columns } = tx.manager.connection.getMetadata(entity);
  const written = columns.filter((column) => column.isInsert);
  const names = written.map((column) => `"${column.databaseName}"`).join(', ');
  const json = rows.map((row) =>
    Object.fromEntries(
      written.map((column): [string, unknown] => [
        column.databaseName,
        column.databaseName === 'studio_id'
          ? tx.studioId
          : (column.getEntityValue(row, true) ?? null),
      ]),
    ),
  );
  await tx.execute(
    `insert into "${tableName}" (${names})
     select ${names} from jsonb_populate_recordset(null::"${tableName}", $1::jsonb)`,
    [JSON.stringify(json)],
  );
}

/** One table of the catalogue whose rows can leave the lists and stay in history. */
export class Records<E extends RetirableRecord> {
  constructor(
    private readonly dataSource: DataSource,
    readonly entity: EntityTarget<E>,
    /** What one row is called in a sentence. */
    readonly what: string,
  ) {}

  /** The table's name. */
  get table(): string {
    return this.dataSource.getMetadata(this.entity).tableName;
  }

  /**
   * One page and the row after it, newest first; retired rows only when asked for.
   * @throws Problem `malformed_request` for a strange cursor
   */
  page(
    studioId: string,
    page: PageRequest & { readonly retired?: boolean },
    where: FindOptionsWhere<E> = {},
  ): Promise<E[]> {
    const [after] = cursorValues(page, 1) ?? [];
    const conditions: FindOptionsWhere<RetirableRecord> = {
      studioId,
      ...(page.retired ? {} : { retiredAt: IsNull() }),
      ...(after === undefined ? {} : { seq: LessThan(after) }),
    };
    return inTransaction(this.dataSource, studioId, (tx) =>
      tx.manager.find(this.entity, {
        where: { ...conditions, ...where } as FindOptionsWhere<E>,
        order: { seq: 'DESC' } as never,
        take: page.limit + 1,
      }),
    );
  }

  /** @throws Problem `not_found` */
  one(studioId: string, id: string): Promise<E> {
    return inTransaction(this.dataSource, studioId, (tx) => this.oneIn(tx, id));
  }

  /** One row inside of a transaction, locked where it is going to change. */
  async oneIn(tx: Transaction, id: string, lock = false): Promise<E> {
    const where = { studioId: tx.studioId, id } as FindOptionsWhere<E>;
    const row = await tx.manager.findOne(this.entity, {
      where,
      ...(lock ? { lock: { mode: 'for_no_key_update' as const } } : {}),
    });
    if (!row) throw new Problem('not_found', { what: this.what, id });
    return row;
  }

  /** A transaction of one studio, for what changes a row. */
  inOne<T>(studioId: string, work: (tx: Transaction) => Promise<T>): Promise<T> {
    return inTransaction(this.dataSource, studioId, work);
  }

  /** Changes one row under lock; `changes` sees it as it is. */
  async changeIn(tx: Transaction, id: string, changes: (row: E) => Partial<E>): Promise<E> {
    const row = await this.oneIn(tx, id, true);
    const changed = changes(row);
    if (Object.keys(changed).length > 0) {
      const key = { studioId: tx.studioId, id } as FindOptionsWhere<E>;
      await tx.manager.update(this.entity, key, changed as QueryDeepPartialEntity<E>);
    }
    return Object.assign(row, changed);
  }
}

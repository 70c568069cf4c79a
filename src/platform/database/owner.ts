/** A single connection as the owner of the schema, for what is not the service's business. */
import pg from 'pg';
import { address, type Target } from './data-source.js';

/** One connection of the owner. */
export interface Owner {
  query<Row extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]): Promise<Row[]>;
}

/** Connects as the owner for as long as `work` takes. */
export async function asOwner<T>(target: Target, work: (owner: Owner) => Promise<T>): Promise<T> {
  const client = new pg.Client(address(target, false));
  await client.connect();
  try {
    return await work({
      query: async <Row extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]) =>
        (await client.query<Row>(sql, values ? [...values] : undefined)).rows,
    });
  } finally {
    await client.end();
  }
}

/** Every studio in a database, invented ones last. */
export function studiosOf(owner: Owner): Promise<{ id: string; name: string; demo: boolean }[]> {
  return owner.query('select studio_id as id, name, demo from studio order by demo, name');
}

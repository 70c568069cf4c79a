/** Entities and tables say the same: every column, its type, whether it may be empty. */
import { forStudio } from '../../src/platform/database/transaction.js';
import { testDatabase, type TestDatabase } from '../support/database.js';

let database: TestDatabase;
beforeAll(async () => (database = await testDatabase({ size: 1 })));
afterAll(() => database.close());

const nowhere = '00000000-0000-4000-8000-000000000000';
const columnsOf = (table: string) =>
  forStudio(database.dataSource, nowhere).query<{ name: string; type: string; empty: boolean }>(
    `select column_name::text as name,
            case data_type when 'timestamp with time zone' then 'timestamptz'
                           when 'character' then 'char' else data_type end as type,
            is_nullable = 'YES' as empty
       from information_schema.columns where table_name = $1 order by 1`,
    [table],
  );

test('every entity maps its whole table', async () => {
  const entities = database.dataSource.entityMetadatas;
  expect(entities.length).toBeGreaterThan(0);
  for (const entity of entities) {
    const mapped = entity.columns.map((column) => ({
      name: column.databaseName,
      type: database.dataSource.driver
        .normalizeType(column)
        .replace('timestamp with time zone', 'timestamptz'),
      empty: column.isNullable,
    }));
    mapped.sort((a, b) => (a.name < b.name ? -1 : 1));
    expect({ table: entity.tableName, columns: mapped }).toEqual({
      table: entity.tableName,
      columns: await columnsOf(entity.tableName),
    });
  }
});

/** Copies of a whole database: rows as JSON lines in one compressed file, and back. */
import { createReadStream, createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import { asOwner, studiosOf, type Owner } from './owner.js';
import type { Target } from './data-source.js';

/** The first line of a copy. */
interface Header {
  readonly format: 'bowlworth-backup';
  readonly version: 1;
  readonly madeAt: string;
  /** Steps of the schema that the rows belong to. */
  readonly steps: readonly string[];
}

/** How many rows a copy holds. */
export interface CopyCount {
  readonly studios: number;
  readonly tables: number;
  readonly rows: number;
}

const rowsAtOnce = 2_000;

/** Studio tables, and those of their columns that are written (not computed by the server). */
const TABLES = `
  select c.relname as name,
         string_agg(quote_ident(a.attname), ', ' order by a.attnum) as columns
    from pg_class c
    join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
                       and a.attgenerated = ''
   where c.relnamespace = current_schema()::regnamespace and c.relkind = 'r'
   group by c.oid, c.relname
  having bool_or(a.attname = 'studio_id')
   order by c.relname`;

interface Table {
  readonly name: string;
  readonly columns: string;
}

/** Writes one consistent copy of every studio's rows to `file`, whole or not at all. */
export async function backUp(target: Target, file: string, madeAt: string): Promise<CopyCount> {
  const unfinished = `${file}.unfinished`;
  try {
    return await asOwner(target, async (owner) => {
      await owner.query('begin isolation level repeatable read read only');
      const count = { studios: 0, tables: 0, rows: 0 };
      const lines = Readable.from(linesOf(owner, madeAt, count));
      await pipeline(lines, createGzip(), createWriteStream(unfinished, { mode: 0o600 }));
      await rename(unfinished, file);
      return count;
    });
  } finally {
    await rm(unfinished, { force: true });
  }
}

async function* linesOf(
  owner: Owner,
  madeAt: string,
  count: { studios: number; tables: number; rows: number },
): AsyncGenerator<string> {
  const steps = await owner.query<{ name: string }>('select name from schema_step order by name');
  const names = steps.map((step) => step.name);
  const header: Header = { format: 'bowlworth-backup', version: 1, madeAt, steps: names };
  yield `${JSON.stringify(header)}\n`;
  const tables = await owner.query<Table>(TABLES);
  count.tables = tables.length;
  for (const studio of await studiosOf(owner)) {
    count.studios += 1;
    yield `${JSON.stringify({ studio: studio.id })}\n`;
    await standIn(owner, studio.id);
    for (const { name } of tables) {
      yield `${JSON.stringify({ table: name })}\n`;
      await owner.query(
        `declare copied no scroll cursor for
         select row_to_json(t)::text as row from ${quoted(name)} t
          where studio_id = '${studio.id}'`,
      );
      for (;;) {
        const rows = await owner.query<{ row: string }>(`fetch ${rowsAtOnce} from copied`);
        if (rows.length === 0) break;
        count.rows += rows.length;
        yield rows.map(({ row }) => `${row}\n`).join('');
      }
      await owner.query('close copied');
    }
  }
}

/**
 * Reads the steps of the schema that a copy belongs to.
 * @throws Error with a sentence when the file is no copy
 */
export async function stepsOfCopy(file: string): Promise<readonly string[]> {
  const first = await firstLine(file);
  const header = JSON.parse(first?.startsWith('{') ? first : '{}') as Partial<Header>;
  if (header.format === 'bowlworth-backup' && header.version === 1) return header.steps ?? [];
  throw new Error(`${file} is not a backup made by bowlworth backup.`);
}

async function firstLine(file: string): Promise<string | undefined> {
  try {
    for await (const line of readLines(file)) return line;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'Z_DATA_ERROR' && code !== 'Z_BUF_ERROR') throw error; // not compressed at all
  }
  return undefined;
}

/**
 * Puts a copy's rows into an empty database whose schema is the copy's. Triggers stand still (the
 * rows carry what triggers keep); every foreign key is checked at the end.
 * @throws Error with a sentence when the database holds studios already
 */
export async function restore(target: Target, file: string): Promise<CopyCount> {
  return asOwner(target, async (owner) => {
    await owner.query('begin');
    if ((await studiosOf(owner)).length > 0) {
      throw new Error('The database holds studios already. Restore into an empty one.');
    }
    const tables = await owner.query<Table>(TABLES);
    const keys = await liftForeignKeys(owner);
    await eachTable(owner, tables, (name) => `alter table ${name} disable trigger user`);
    const count = await load(owner, file, tables);
    await eachTable(owner, tables, (name) => `alter table ${name} enable trigger user`);
    await continueIdentities(owner);
    for (const key of keys) await owner.query(key);
    await owner.query('commit');
    await owner.query('analyze');
    return count;
  });
}

async function load(owner: Owner, file: string, tables: readonly Table[]): Promise<CopyCount> {
  const count = { studios: 0, tables: tables.length, rows: 0 };
  let table: Table | undefined;
  let waiting: string[] = [];
  const write = async () => {
    if (table && waiting.length > 0) {
      await owner.query(
        `insert into ${quoted(table.name)} (${table.columns}) overriding system value
         select ${table.columns} from json_populate_recordset(null::${quoted(table.name)}, $1)`,
        [`[${waiting.join(',')}]`],
      );
      count.rows += waiting.length;
    }
    waiting = [];
  };
  for await (const line of readLines(file)) {
    if (line.startsWith('{"format":')) continue;
    const mark = /^\{"(studio|table)":"([\w-]+)"\}$/.exec(line);
    if (!mark) {
      waiting.push(line);
      if (waiting.length >= rowsAtOnce) await write();
      continue;
    }
    await write();
    const [, kind, name = ''] = mark;
    if (kind === 'table') table = tables.find((known) => known.name === name);
    else {
      count.studios += 1;
      await standIn(owner, name);
    }
  }
  await write();
  return count;
}

async function liftForeignKeys(owner: Owner): Promise<string[]> {
  const keys = await owner.query<{ drop: string; add: string }>(`
    select format('alter table %s drop constraint %I', conrelid::regclass, conname) as drop,
           format('alter table %s add constraint %I %s', conrelid::regclass, conname,
                  pg_get_constraintdef(oid)) as add
      from pg_constraint
     where contype = 'f' and connamespace = current_schema()::regnamespace`);
  for (const key of keys) await owner.query(key.drop);
  return keys.map((key) => key.add);
}

async function eachTable(
  owner: Owner,
  tables: readonly Table[],
  statement: (name: string) => string,
): Promise<void> {
  for (const { name } of tables) await owner.query(statement(quoted(name)));
}

async function continueIdentities(owner: Owner): Promise<void> {
  const identities = await owner.query<{ statement: string }>(`
    select format('select setval(pg_get_serial_sequence(%L, %L), max(%I))'
                  ' from %s having max(%I) > 0',
                  c.oid::regclass, a.attname, a.attname, c.oid::regclass, a.attname) as statement
      from pg_attribute a join pg_class c on c.oid = a.attrelid
     where a.attidentity <> '' and c.relnamespace = current_schema()::regnamespace`);
  for (const { statement } of identities) await owner.query(statement);
}

async function standIn(owner: Owner, studioId: string): Promise<void> {
  await owner.query(`select set_config('bowlworth.studio_id', $1, true)`, [studioId]);
}

/** Line by line; what is wrong with the file is thrown to whoever reads. */
async function* readLines(file: string): AsyncGenerator<string> {
  const source = createReadStream(file);
  const text = source.pipe(createGunzip()).setEncoding('utf8');
  source.once('error', (error) => text.destroy(error));
  let rest = '';
  for await (const piece of text as AsyncIterable<string>) {
    const lines = (rest + piece).split('\n');
    rest = lines.pop() ?? '';
    yield* lines;
  }
  if (rest !== '') throw new Error(`${file} ends in the middle of a row. Use a whole backup.`);
}

function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}

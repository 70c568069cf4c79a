/** Files into the catalogue and out of it by the bowlworth command. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { CommandLine } from '../support/command.js';

let line: CommandLine;
beforeAll(async () => {
  line = await CommandLine.inNewFolder();
  const words = ['--owner', 'Heron Vale', '--currency', 'EUR', '--time-zone', 'Europe/Lisbon'];
  await line.answer('studio', 'Own', ...words);
});
afterAll(() => line.remove());

test('columns are told without a database', async () => {
  const told = await line.answer('import', 'suppliers', '--columns');
  expect(told.split('\n')[0]).toMatch(/^name +needed +name of the supplier/);
  expect(await line.run('import', 'wigs', 'x.csv')).toMatchObject({ code: 2, out: '' });
  expect(await line.run('import', 'suppliers')).toMatchObject({ code: 2, out: '' });
});

test('a file is tried, imported, refused the second time, and comes out again', async () => {
  const file = join(line.folder, 'suppliers.csv');
  const text =
    'name,lead_time_days,minimum_order,freight,free_freight_from,order_day\nQuay,3,,,,\n';
  await writeFile(file, text);
  expect(await line.answer('import', 'suppliers', file, '--dry')).toBe(
    'suppliers: 1 (could be imported; nothing was stored)',
  );
  const imported = await line.answer('import', 'suppliers', file, '--json');
  expect(JSON.parse(imported)).toEqual({ suppliers: 1, dry: false });
  const again = await line.run('import', 'suppliers', file);
  expect(again).toMatchObject({ code: 1, out: '' });
  expect(again.err).toMatch(/^line 2, name: There is a supplier called Quay already.*\nNothing/);
  expect((await line.run('export', 'suppliers')).out).toBe(text);
  const out = join(line.folder, 'out.csv');
  expect(await line.run('export', 'suppliers', '--out', out)).toMatchObject({ code: 0, out: '' });
  expect(await readFile(out, 'utf8')).toBe(text);
  const missing = await line.run('import', 'suppliers', join(line.folder, 'none.csv'));
  expect(missing).toMatchObject({ code: 1, err: expect.stringMatching(/ENOENT/) as string });
});

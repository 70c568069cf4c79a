/** Files into the studio and out of it by the bowlworth command. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { CommandLine } from '../support/command.js';

/** Every command is a process of its own, and a machine may be busy: milliseconds. */
const patient = 120_000;

let line: CommandLine;
beforeAll(async () => {
  line = await CommandLine.inNewFolder();
  const words = ['--owner', 'Heron Vale', '--currency', 'EUR', '--time-zone', 'Europe/Lisbon'];
  await line.answer('studio', 'Own', ...words);
}, patient);
afterAll(() => line.remove());

test(
  'columns are told without a database',
  async () => {
    const told = await line.answer('import', 'suppliers', '--columns');
    expect(told.split('\n')[0]).toMatch(/^name +needed +name of the supplier/);
    expect(await line.run('import', 'wigs', 'x.csv')).toMatchObject({ code: 2, out: '' });
    expect(await line.run('import', 'suppliers')).toMatchObject({ code: 2, out: '' });
  },
  patient,
);

test(
  'a file is tried, imported, refused the second time, and comes out again',
  async () => {
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
  },
  patient,
);

test(
  'a day of use goes in and comes out, with the movements that it made',
  async () => {
    const products = join(line.folder, 'products.csv');
    await writeFile(products, 'name,kind,unit\nFoil,sundry,piece\n');
    const arrived = join(line.folder, 'deliveries.csv');
    await writeFile(arrived, 'delivered_on,product,quantity,cost\n2026-01-12,Foil,500,12.50\n');
    const used = join(line.folder, 'usage.csv');
    const text = 'used_on,product,quantity,unit,purpose\n2026-01-20,Foil,30,piece,\n';
    await writeFile(used, text);
    await line.answer('import', 'products', products);
    expect(await line.answer('import', 'deliveries', arrived)).toBe(
      'deliveries: 1, lots: 1 (imported)',
    );
    expect(await line.answer('import', 'usage', used)).toBe('uses: 1, entries: 1 (imported)');
    expect(await line.run('import', 'usage', used)).toMatchObject({ code: 1, out: '' });
    expect((await line.run('export', 'usage')).out).toBe(text);
    const csv = await line.answer('export', 'movements');
    expect(csv.split('\r\n').map((row) => row.split(',').slice(3, 10).join())).toEqual([
      'journalKind,product,from,to,quantity,unit,value',
      'use,Foil,shelf,head,30,piece,0.750000',
      'delivery,Foil,supplier,shelf,500,piece,12.500000',
    ]);
    expect(JSON.parse(await line.answer('export', 'movements', '--json'))).toMatchObject([
      { journalKind: 'use', quantity: '30', happenedAt: '2026-01-20T12:00:00.000Z' },
      { journalKind: 'delivery', value: '12.500000' },
    ]);
    expect((await line.run('audit')).code).toBe(0);
  },
  patient,
);

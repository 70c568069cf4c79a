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

test(
  'a diary is tried, read over, and told by its line where it is cut',
  async () => {
    const file = join(line.folder, 'diary.ics');
    const soon = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10).replaceAll('-', '');
    const event = `BEGIN:VEVENT\nUID:1\nDTSTART:${soon}T100000Z\nSUMMARY:Ada Brook - Gloss`;
    await writeFile(file, `BEGIN:VCALENDAR\n${event}\nEND:VEVENT\nEND:VCALENDAR\n`);
    const tried = await line.answer('import', 'bookings', file, '--dry', '--named', 'first');
    expect(tried).toMatch(/^times found: 1, added: 1, .*\(could be imported; nothing was stored\)/);
    expect(await line.answer('import', 'bookings', file)).toMatch(/added: 1, .*\(imported\)/);
    const again = JSON.parse(await line.answer('import', 'bookings', file, '--json')) as object;
    expect(again).toMatchObject({ added: 0, same: 1, 'called off': 0 });
    await writeFile(file, `BEGIN:VCALENDAR\n${event}\n`);
    const cut = await line.run('import', 'bookings', file);
    expect(cut).toMatchObject({ code: 1, out: '' });
    expect(cut.err).toMatch(/^line 2: VEVENT begins here and never ends; the file is cut/);
    expect(await line.answer('import', 'bookings', '--columns')).toMatch(/^start +needed/);
  },
  patient,
);

/** A spreadsheet arrives: files into the catalogue and out again, all of a file or none of it. */
import type {
  FormulaView,
  ProductView,
  ServiceView,
  SupplierView,
} from '../../shared/contract/catalogue.js';
import type { ClientView } from '../../shared/contract/clients.js';
import { exportTable, type ExportKind } from '../../src/command-line/export/lines.js';
import { csvOf } from '../../src/command-line/export/text.js';
import type { Imported } from '../../src/command-line/import/kind.js';
import { importKinds } from '../../src/command-line/import/kinds.js';
import { BulkService } from '../../src/studio/catalogue/bulk.service.js';
import { HistoryService } from '../../src/studio/stock/history.service.js';
import { aService, type TestService, type TestStudio } from '../support/studio.js';

let service: TestService;
let studio: TestStudio;
beforeAll(async () => {
  service = await aService();
  studio = await service.studio();
});
afterEach(() => studio.audit());
afterAll(() => service.close());

const suppliers = `name,lead_time_days,minimum_order,order_day
Harbour Wholesale,3,150.00,2
"Quay, Sons",,,
`;

const packColumns = 'pack;pack_quantity;pack_unit;gtin;list_price';
const products = `name;line;kind;unit;strength;density;supplier;${packColumns}
Developer 20 vol;Tidewater;developer;ml;20;1,02;harbour wholesale;bottle;1;l;5901234123457;9,80
Developer 20 vol;Tidewater;;;;;;canister;5;l;;
Blonding powder;Tidewater;lightener;g;;;Quay, Sons;tub;500;;;24,5
Foil;;sundry;piece;;;;;;;;
`;

describe('a file that fits', () => {
  test('of suppliers is read, in any case of its header, after a byte order mark', async () => {
    const marked = `\uFEFF${suppliers.replace('name,lead_time_days', 'Name,Lead time days')}`;
    expect(await imported('suppliers', marked)).toEqual({ suppliers: 2 });
    const { items } = await studio.manager.get<{ items: SupplierView[] }>('/suppliers');
    expect(items).toMatchObject([
      { name: 'Quay, Sons', leadTimeDays: null },
      { name: 'Harbour Wholesale', leadTimeDays: 3, minimumOrder: '150', orderDay: 2 },
    ]);
  });

  test('of products has a line for each pack, and may be tried first', async () => {
    expect(await imported('products', products, true)).toEqual({ products: 3, packs: 3 });
    expect(await studio.manager.get('/products')).toEqual({ items: [], next: null });
    expect(await imported('products', products)).toEqual({ products: 3, packs: 3 });
    const { items } = await studio.manager.get<{ items: ProductView[] }>('/products');
    expect(items).toMatchObject([
      { name: 'Foil', unit: 'piece', packs: [] },
      { name: 'Blonding powder', packs: [{ label: 'tub', quantity: '500', listPrice: '24.5' }] },
      {
        ...{ name: 'Developer 20 vol', strength: '20', percent: '6', density: '1.02' },
        packs: [
          { label: 'bottle', quantity: '1000', gtin: '05901234123457', listPrice: '9.8' },
          { label: 'canister', quantity: '5000', gtin: null },
        ],
      },
    ]);
  });

  test('of prices finds packs by GTIN or by name', async () => {
    const file = 'gtin,name,pack,list_price\n5901234123457,,,10.20\n,blonding powder,tub,26\n';
    expect(await imported('prices', file)).toEqual({ prices: 2 });
    const { items } = await studio.manager.get<{ items: ProductView[] }>('/products');
    const prices = items.flatMap(({ packs }) => packs.map(({ listPrice }) => listPrice));
    expect(prices).toEqual(['26', '10.2', null]);
  });

  test('of services names products of its kits', async () => {
    const file = `name,price,hands_on_minutes,chair_minutes,kit,in_the_price
Half head of lights,85,75,120,Foil x 30,lightener 60 g | toner 1 bowl
`;
    expect(await imported('services', file)).toEqual({ services: 1 });
    const { items } = await studio.manager.get<{ items: ServiceView[] }>('/services');
    expect(items).toMatchObject([
      {
        kit: [{ quantity: '30', unit: 'piece' }],
        inThePrice: [
          { kind: 'lightener', grams: '60' },
          { kind: 'toner', bowls: '1' },
        ],
      },
    ]);
  });

  test('of clients keeps given numbers and goes on from the highest', async () => {
    const file = `number,name,hair_length,sixteen_or_older,notes
192,Ada Brook,medium,yes,"Two lines
of notes"
,Bo Quill,,no,
`;
    expect(await imported('clients', file)).toEqual({ clients: 2 });
    const { items } = await studio.manager.get<{ items: ClientView[] }>('/clients');
    expect(items).toMatchObject([
      { number: 193, name: 'Bo Quill', sixteenOrOlder: false },
      { number: 192, name: 'Ada Brook', hairLength: 'medium', notes: 'Two lines\nof notes' },
    ]);
  });

  test('of formulas reads plans in words', async () => {
    const file = `name,client,ratio,powders,strength,developers,additives,size,next_time
Roots,192,1:2,Blonding powder (Tidewater) x 2,13,Developer 20 vol,Foil 2 % of powder,60 g,=cool
Front,,1:1,Blonding powder,,Developer 20 vol x 3,Foil 1 dose per 30 g counted,20 g powder,
`;
    expect(await imported('formulas', file)).toEqual({ formulas: 2 });
    const ids = await productIds();
    const { items } = await studio.manager.get<{ items: FormulaView[] }>('/formulas');
    expect(items[0]?.plan).toEqual({
      ratio: '1:1',
      powders: [{ productId: ids['Blonding powder'] }],
      developers: [{ productId: ids['Developer 20 vol'], share: '3' }],
      additives: [{ productId: ids['Foil'], dosesPer: '30', counted: true }],
      size: { powder: { quantity: '20', unit: 'g' } },
    });
  });
});

test('what is exported can be imported again, and is the same', async () => {
  const other = await service.studio({ name: 'Another quay' });
  for (const kind of ['suppliers', 'products', 'services', 'clients', 'formulas'] as const) {
    const file = await exported(kind, studio);
    await imported(kind, file, false, other);
    expect(await exported(kind, other)).toBe(file);
    expect(file.split('\n').length).toBeGreaterThan(2);
  }
  expect(await exported('formulas', studio)).toContain(",'=cool");
});

describe('a file that does not fit is refused as a whole', () => {
  test('with every wrong cell by its line and column', async () => {
    const file = `name,line,kind,unit,strength,supplier,pack,pack_quantity,gtin,list_price
Developer 10 vol,Tidewater,developer,ml,10,,bottle,1000,5901234123458,9
Developer 60 vol,Tidewater,developer,ml,60,,,,,
"Developer 200 vol",Tidewater,developer,ml,200,,bottle,1000,,
Developer 5 vol,Tidewater,developer,ml,5,,bottle,1000,,
Developer 5 vol,Tidewater,,,,,BOTTLE,2000,,
`;
    await expect(imported('products', file)).rejects.toMatchObject({
      errors: [
        { line: 2, column: 'gtin', detail: expect.stringContaining('compare it') as string },
        { line: 3, column: 'strength' },
        { line: 4, column: 'strength' },
        { line: 6, column: 'pack' },
      ],
    });
    const after = await studio.manager.get<{ items: unknown[] }>('/products');
    expect(after.items).toHaveLength(3);
  });

  test('when it was imported before', async () => {
    await expect(imported('products', products)).rejects.toThrow(
      /line 2, name: There is a product called Developer 20 vol already/,
    );
    await expect(imported('suppliers', suppliers)).rejects.toThrow(/line 3, name/);
    const clients = 'number,name\n500,One\n192,Two\n500,Three\n';
    await expect(imported('clients', clients)).rejects.toMatchObject({
      errors: [
        { line: 3, column: 'number' },
        { line: 4, column: 'number' },
      ],
    });
  });

  test.each([
    ['suppliers', '', /line 1: The file is empty/],
    ['suppliers', 'name\n', /no line below the header/],
    ['suppliers', 'name,colour\nA,red\n', /line 1: There is no column "colour". Known: name/],
    ['suppliers', 'name,name\nA,B\n', /line 1: The column name is there twice/],
    ['suppliers', 'freight\n3\n', /line 1: The column name is needed/],
    ['suppliers', 'name,freight\n,3\n', /line 2, name: This cell is needed/],
    ['suppliers', 'name,freight\n\n\nA,"1,5"\n', /line 4, freight: Write a number/],
    ['suppliers', 'name\nA,B\n', /line 2: It has 2 cells, and the header 1/],
    ['suppliers', 'name\n"A\nB\n', /quotation mark/],
    ['suppliers', Buffer.from([0x6e, 0xe9, 0x0a]), /not UTF-8/],
    ['products', 'name,kind,unit\nA,cream,g\n', /line 2, kind: Give one of: lightener/],
    ['products', 'name,kind,unit\nA,care,g\nA,toner,g\n', /line 3, kind: It differs/],
    ['products', 'name,kind,unit,gtin\nA,care,g,123\n', /line 2, pack: A label is needed/],
    ['products', 'name\nA\n', /line 2, kind: This cell is needed/],
    ['products', 'name,kind,unit,supplier\nA,care,g,X\n', /line 2, supplier: There is no supplier/],
    ['prices', 'gtin,list_price\n123,3\n', /line 2, gtin: "123" is not a GTIN/],
    ['prices', 'name,list_price\nDeveloper 20 vol,3\n', /line 2, pack: Several packs fit/],
    ['prices', 'name,list_price\nBlonding powder,3\nblonding powder,4\n', /line 3: .* line 2/],
    ['services', 'name,price,kit\nA,1,Foil\n', /line 2, kit: "Foil" says no number/],
    ['services', 'name,price,in_the_price\nA,1,foil 3 g\n', /line 2, in_the_price: "foil 3 g"/],
    ['formulas', 'name,powders,size\nA,Sand,60 g\n', /line 2, powders: There is no product/],
    ['formulas', 'name,powders,size\nA,Foil,much\n', /line 2, size: "much" is no size/],
    ['formulas', 'name,powders,size,client\nA,Foil,6 g,7\n', /line 2, client: There is no client/],
    ['formulas', 'name,powders,size,ratio\nA,Foil,6 g,x\n', /line 2, ratio: "x" is not a ratio/],
  ])('%s %j', async (kind, content, sentence) => {
    await expect(imported(kind, content)).rejects.toThrow(sentence);
  });
});

test('ten thousand clients and as many packs are imported in a few seconds', async () => {
  const many = Array.from({ length: 10_000 }, (_, index) => index + 1);
  const clients = ['name,contact', ...many.map((n) => `Client ${n},${n}@example.org`)];
  const packs = [
    'name,kind,unit,pack,pack_quantity,list_price',
    ...many.map((n) => `Shade ${n},permanent,g,tube,60,${n % 30}.5`),
  ];
  const began = performance.now();
  expect(await imported('clients', clients.join('\n'))).toEqual({ clients: 10_000 });
  const between = performance.now();
  expect(await imported('products', packs.join('\n'))).toMatchObject({ packs: 10_000 });
  const ended = performance.now();
  const seconds = [between - began, ended - between].map((ms) => ms / 1000);
  expect(Math.max(...seconds)).toBeLessThan(10);
  if (process.env['SHOW_TIMES']) process.stderr.write(`${seconds.join(' s, ')} s\n`);
});

function imported(
  kind: string,
  content: string | Buffer,
  dry = false,
  into = studio,
): Promise<Imported> {
  const found = importKinds.find(({ name }) => name === kind);
  if (!found) throw new Error(`There is no import of ${kind}.`);
  return found.run(Buffer.from(content as string), { ...services(), studioId: into.id, dry });
}

async function exported(kind: ExportKind, from: TestStudio): Promise<string> {
  return csvOf(await exportTable({ ...services(), studioId: from.id }, kind));
}

function services() {
  return { bulk: service.app.get(BulkService), history: service.app.get(HistoryService) };
}

async function productIds(): Promise<Record<string, string>> {
  const { items } = await studio.manager.get<{ items: ProductView[] }>('/products');
  return Object.fromEntries(items.map(({ name, id }) => [name, id]));
}

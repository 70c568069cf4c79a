/** The past arrives in files: deliveries and uses of days gone by, all of a file or none of it. */
import type { DeliveryView, MovementView, UsageRowView } from '../../shared/contract/stock.js';
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
  studio = await service.studio({ timeZone: 'Europe/Athens' });
  await withCatalogue(studio);
});
afterEach(() => studio.audit());
afterAll(() => service.close());

const deliveries = `delivered_on,supplier,invoice_no,freight,product,packs,free_packs,pack_price,\
quantity,cost,expires_on,lot_code
2026-01-12,Quay,R-1,7,Blonding powder,2,,20.30,,,2027-06-30,L7
2026-01-05,,,,Foil,,,,500,12.50,,
2026-01-12,quay,R-1,,Developer 20 vol,3,1,,,,,
`;

const usage = `used_on;product;quantity;unit;purpose
2026-02-03;Developer 20 vol;60;ml;
2026-01-20;Foil;30;;
2026-01-20;blonding powder;45,5;g;
2026-01-20;Blonding powder;4,5;;strand test
`;

describe('a file of the past', () => {
  test('of deliveries makes one of the lines of a paper, freight by value', async () => {
    expect(await imported('deliveries', deliveries, true)).toEqual({ deliveries: 2, lots: 3 });
    expect(await studio.manager.get('/deliveries')).toEqual({ items: [], next: null });
    expect(await imported('deliveries', deliveries)).toEqual({ deliveries: 2, lots: 3 });
    const { items } = await studio.manager.get<{ items: DeliveryView[] }>('/deliveries');
    // 40.60 and 3 x 9.80 = 29.40 are 70.00; 7.00 of freight is a tenth of each
    expect(items).toMatchObject([
      {
        ...{ deliveredOn: '2026-01-12', invoiceNo: 'R-1', freight: '7.000000' },
        lines: [
          { quantity: '1000', packs: 2, cost: '44.660000', expiresOn: '2027-06-30' },
          { quantity: '4000', packs: 3, freePacks: 1, cost: '32.340000' },
        ],
      },
      { deliveredOn: '2026-01-05', supplierId: null, lines: [{ quantity: '500' }] },
    ]);
  });

  test('of uses is booked at noon of its days, from what was on the shelf', async () => {
    expect(await imported('usage', usage)).toEqual({ uses: 4, entries: 3 });
    const { items } = await studio.manager.get<{ items: MovementView[] }>('/movements?kind=use');
    expect(items.map(({ happenedAt, quantity, reason }) => [happenedAt, quantity, reason])).toEqual(
      [
        ['2026-02-03T10:00:00.000Z', '60', null],
        ['2026-01-20T10:00:00.000Z', '4.5', 'strand test'],
        ['2026-01-20T10:00:00.000Z', '45.5', null],
        ['2026-01-20T10:00:00.000Z', '30', null],
      ],
    );
    const asked = '/usage?from=2026-01-01&to=2026-03-01&by=product,month';
    const { rows } = await studio.manager.get<{ rows: UsageRowView[] }>(asked);
    // 50 of 1000 g at 44.66; 60 of 4000 ml at 32.34; 30 of 500 at 12.50
    expect(rows).toMatchObject([
      { name: 'Blonding powder', month: '2026-01', quantity: '50', value: '2.233000' },
      { name: 'Developer 20 vol', month: '2026-02', quantity: '60', value: '0.485100' },
      { name: 'Foil', month: '2026-01', quantity: '30', value: '0.750000' },
    ]);
  });

  test('is refused when it comes again, and an extended one names what is there', async () => {
    await expect(imported('deliveries', deliveries)).rejects.toMatchObject({
      errors: [
        { line: 2, detail: expect.stringMatching(/^An entry of 2026-01-12/) as string },
        { line: 3, detail: expect.stringMatching(/^An entry of 2026-01-05/) as string },
      ],
    });
    const more = `${usage}2026-02-10;Foil;5;;\n`;
    await expect(imported('usage', more)).rejects.toMatchObject({
      errors: [{ line: 2 }, { line: 3 }, { line: 5 }],
    });
  });
});

test('what is exported can be imported again, and is the same', async () => {
  const other = await service.studio({ timeZone: 'Europe/Athens' });
  await withCatalogue(other);
  for (const kind of ['deliveries', 'usage'] as const) {
    const file = await exported(kind, studio);
    await imported(kind, file, false, other);
    expect(await exported(kind, other)).toBe(file);
  }
  await other.audit();
  expect(await exported('usage', studio)).toBe(
    'used_on,product,quantity,unit,purpose\n2026-01-20,Blonding powder,50,g,\n' +
      '2026-01-20,Foil,30,piece,\n2026-02-03,Developer 20 vol,60,ml,\n',
  );
});

test('what was undone is not exported', async () => {
  const { items } = await studio.manager.get<{ items: MovementView[] }>('/movements?kind=use');
  const ofFoil = items.find(({ unit }) => unit === 'piece');
  await studio.manager.post(`/movements/${ofFoil?.journalId}/reversal`, {});
  expect(await exported('usage', studio)).toBe(
    'used_on,product,quantity,unit,purpose\n2026-01-20,Blonding powder,4.5,g,\n' +
      '2026-02-03,Developer 20 vol,60,ml,\n',
  );
});

describe('a file that does not fit is refused as a whole', () => {
  test('with every wrong line of several days', async () => {
    const file = `delivered_on,product,packs,pack,cost,pack_price
2026-02-02,Foil,1,,,
2026-02-01,Blonding powder,1,sack,,
2026-02-03,Developer 20 vol,1,,3,4
2026-03-03,Developer 20 vol,1,,,
2026-02-05,Developer 20 vol,1,,,
`;
    await expect(imported('deliveries', file)).rejects.toMatchObject({
      errors: [
        { line: 2, column: 'pack', detail: expect.stringContaining('Foil') as string },
        { line: 3, column: 'pack' },
        { line: 4, column: 'cost' },
        { line: 5, column: 'delivered_on', detail: expect.stringMatching(/today/) as string },
      ],
    });
    const { items } = await studio.manager.get<{ items: unknown[] }>('/deliveries');
    expect(items).toHaveLength(2);
  });

  test.each([
    ['deliveries', 'delivered_on,product\n2026-02-30,Foil\n', /line 2, delivered_on: .*calendar/],
    ['deliveries', 'delivered_on,product\n2026-02-03,Foil\n', /line 2: Say how much in packs/],
    ['deliveries', 'delivered_on,product\n2026-02-03,Wig\n', /line 2, product: There is no/],
    ['deliveries', 'delivered_on,product,supplier\n2026-02-03,Foil,X\n', /line 2, supplier/],
    [
      'deliveries',
      'delivered_on,product,quantity,freight\n2026-02-03,Foil,3,\n2026-02-03,Foil,3,2\n',
      /line 3, freight: Say it on line 2 only/,
    ],
    ['usage', 'used_on,product,quantity\n2026-03-09,Foil,3\n', /line 2, used_on: .*after today/],
    ['usage', 'used_on,product,quantity,unit\n2026-02-03,Foil,3,g\n', /line 2, unit: Foil/],
    ['usage', 'used_on,product,quantity\n2026-02-03,Foil,0\n', /line 2, quantity: .*more than 0/],
    ['usage', 'product,quantity\nFoil,3\n', /line 1: The column used_on is needed/],
  ])('%s %j', async (kind, content, sentence) => {
    await expect(imported(kind, content)).rejects.toThrow(sentence);
  });
});

async function withCatalogue(into: TestStudio): Promise<void> {
  await imported('suppliers', 'name\nQuay\n', false, into);
  const columns = 'name,kind,unit,strength,pack,pack_quantity,list_price';
  const powder = 'Blonding powder,lightener,g,,tub,500,24.50';
  const developer = 'Developer 20 vol,developer,ml,20,bottle,1000,9.80';
  const file = [columns, powder, developer, 'Foil,sundry,piece,,,,', ''].join('\n');
  await imported('products', file, false, into);
}

function imported(kind: string, content: string, dry = false, into = studio): Promise<Imported> {
  const found = importKinds.find(({ name }) => name === kind);
  if (!found) throw new Error(`There is no import of ${kind}.`);
  return found.run(Buffer.from(content), { ...services(), studioId: into.id, dry });
}

async function exported(kind: ExportKind, from: TestStudio): Promise<string> {
  return csvOf(await exportTable({ ...services(), studioId: from.id }, kind));
}

function services() {
  return { bulk: service.app.get(BulkService), history: service.app.get(HistoryService) };
}

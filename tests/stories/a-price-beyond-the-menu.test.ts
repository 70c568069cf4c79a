/** Charged beyond the menu; product bought again today; tax on top; a chair that is rented. */
import type { PersonView } from '../../shared/contract/people.js';
import type { PriceSheetView } from '../../shared/contract/pricing.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

function line(sheet: PriceSheetView, kind: string) {
  return sheet.lines.find((each) => each.kind === kind);
}

async function aService(inThePrice: object[]): Promise<string> {
  const service = { name: 'Roots', price: '60', inThePrice };
  return (await studio.owner.post<{ id: string }>('/services', service)).id;
}

test('grams beyond what is in the price, as applied; only a client is charged', async () => {
  const roots = await aService([{ kind: 'lightener', grams: '25' }]);
  const onTop = [{ kind: 'lightener', by: 'gram', rate: '0.2' }];
  await studio.owner.patch('/studio', { pricing: { onTop } });
  const services = [{ serviceId: roots }];
  const [client, model] = [
    await here.visit({ services }),
    await here.visit({ services, kind: 'model' }),
  ];
  for (const visit of [client, model]) {
    const bowl = await here.pour(visit.id, 'roots', [[here.shelf.powder, '50']]);
    await here.settle(bowl, '10');
  }
  const sheet = await here.sheet(client.id);
  // 40 g applied, 25 in the price: 15 x 0.20 net, and its tax: 3.69
  expect(line(sheet, 'on_top')).toMatchObject({
    amount: '3.69',
    formula: '((applied - in the price) x rate) x (1 + taxes)',
  });
  expect(sheet.totals.gross).toBe('63.69');
  expect(sheet.notes.map((note) => note.code)).toContain('charged_by_weight');
  expect((await here.sheet(model.id)).totals.gross).toBe('60.00');
  await studio.owner.patch('/studio', { pricing: { measuredOn: 'mixed' } });
  expect((await here.sheet(client.id)).totals.gross).toBe('66.15'); // 25 x 0.20 x 1.23 = 6.15
  await studio.owner.patch('/studio', { pricing: { onTop: [], measuredOn: 'applied' } });
});

test('started bowls above the number, but not the one that was spilled', async () => {
  const roots = await aService([{ kind: 'lightener', bowls: '1' }]);
  await studio.owner.patch('/studio', {
    pricing: { onTop: [{ kind: 'lightener', rate: '10', label: 'Another bowl' }] },
  });
  const visit = await here.visit({ services: [{ serviceId: roots }] });
  for (const [purpose, why] of [
    ['roots', 'left over'],
    ['ends', 'left over'],
    ['nape', 'spilled'],
  ] as const) {
    const parts = [
      [here.shelf.powder, '10'],
      [here.shelf.vol20, '20'],
    ] as const;
    await here.settle(await here.pour(visit.id, purpose, parts), '5', { why });
  }
  const gloss = await here.pour(visit.id, 'gloss', [[here.shelf.toner, '10']]);
  await here.settle(gloss, '0');
  expect(line(await here.sheet(visit.id), 'on_top')).toMatchObject({
    ...{ label: 'Another bowl', amount: '12.30' }, // one bowl above, 10.00 and its tax
  });
  await studio.owner.patch('/studio', { pricing: { onTop: [] } });
});

test('the same grams at today’s list price with its share of freight', async () => {
  const { id: supplierId } = await studio.owner.post<{ id: string }>('/suppliers', {
    name: 'Harbour Supply',
  });
  const cream = await studio.owner.post<{ id: string }>('/products', {
    ...{ name: 'Shingle cream', kind: 'permanent', unit: 'g', supplierId },
    packs: [{ label: '60 g tube', quantity: '60', listPrice: '9' }],
  });
  await studio.owner.post('/deliveries', {
    ...{ supplierId, deliveredOn: '2026-03-02', freight: '3' },
    lines: [{ productId: cream.id, packs: 5, packPrice: '6' }],
  });
  const visit = await here.visit();
  await here.settle(await here.pour(visit.id, 'roots', [[cream.id, '40']]), '0');
  const sheet = await here.sheet(visit.id);
  // it cost (30 + 3) / 300 a gram; bought again 9 / 60 a gram and a tenth for freight
  expect(line(sheet, 'product')).toMatchObject({ amount: '4.40', replacementAmount: '6.60' });
});

test('tax on top, two of them; who rents her chair has no commission and no hour', async () => {
  const other = await studio.service.studio({ name: 'Reed Bank', currency: 'CAD' });
  await other.owner.patch('/studio', {
    pricing: {
      priceMode: 'exclusive',
      taxes: [
        { label: 'GST', rate: '0.05' },
        { label: 'QST', rate: '0.09975' },
      ],
      hourRate: '30',
      commission: { share: '0.2', on: 'gross' },
    },
  });
  const service = await other.owner.post<{ id: string }>('/services', {
    ...{ name: 'Cut', price: '49.99', handsOnMinutes: 40 },
  });
  const sheetFor = async (personId: string) => {
    const visit = await other.owner.post<{ id: string }>('/visits', {
      ...{ personId, services: [{ serviceId: service.id }], startedAt: '2026-03-03T09:00:00Z' },
    });
    await other.owner.post(`/visits/${visit.id}/close`, {
      ...{ closedAt: '2026-03-03T10:00:00Z', payments: [{ method: 'cash', amount: '57.50' }] },
    });
    return other.owner.get<PriceSheetView>(`/visits/${visit.id}/price-sheet`);
  };
  const employed = await other.owner.post<PersonView>('/people', {
    name: 'Sedge',
    role: 'stylist',
  });
  const rents = await other.owner.post<PersonView>('/people', {
    ...{ name: 'Tern', role: 'stylist', kind: 'rents' },
  });
  // 49.99 + 2.50 + 4.99 = 57.48, in coins of 5 cents 57.50
  expect((await sheetFor(employed.id)).totals).toMatchObject({
    ...{ net: '49.99', tax: '7.49', gross: '57.48', cashRounding: '0.02', toTheTill: '57.50' },
    ...{ time: '20.00', commission: '11.50' }, // 40 min at 30; 20 % of gross
  });
  expect((await sheetFor(rents.id)).totals).toMatchObject({ time: '0.00', commission: '0.00' });
});

test('rules that cannot be meant are refused with the field', async () => {
  const twice = [
    { kind: 'toner', rate: '1' },
    { kind: 'toner', rate: '2' },
  ];
  expect(
    await studio.owner.refused('PATCH', '/studio', { pricing: { onTop: twice } }),
  ).toMatchObject({ status: 400, errors: [{ pointer: '/pricing/onTop/1/kind' }] });
  const taxes = [{ label: 'VAT', rate: '23' }];
  expect(await studio.owner.refused('PATCH', '/studio', { pricing: { taxes } })).toMatchObject({
    errors: [{ pointer: '/pricing/taxes/0/rate', code: 'too_large' }],
  });
  expect(
    await studio.owner.refused('PATCH', '/studio', { pricing: { overheadPerChairMinute: '-1' } }),
  ).toMatchObject({ errors: [{ pointer: '/pricing/overheadPerChairMinute' }] });
  expect(await studio.bench.get('/studio')).not.toHaveProperty('pricing');
  expect(await studio.manager.get('/studio')).toMatchObject({
    pricing: { priceMode: 'inclusive', rounding: 'half_up', taxes: [{ rate: '0.23' }] },
  });
});

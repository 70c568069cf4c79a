/** A supplier sends a new price list: what it would do first, then it is taken over. */
import type {
  AcceptedPricesView,
  PriceEffectView,
  PriceHistoryView,
} from '../../shared/contract/price-lists.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;
let supplierId: string;
let powder: string;
let cream: string;
let roots: string;

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
  supplierId = (await studio.owner.post<{ id: string }>('/suppliers', { name: 'Harbour Supply' }))
    .id;
  powder = await aProduct('Shingle powder', 'lightener', '500', '15', 'SP-5');
  cream = await aProduct('Shingle cream', 'permanent', '60', '9', 'SC-1');
  const service = { name: 'Roots', price: '60', handsOnMinutes: 40, chairMinutes: 60 };
  roots = (await studio.owner.post<{ id: string }>('/services', service)).id;
  // twice lights with 50 g of powder, four times roots with 40 g of cream
  for (let n = 0; n < 2; n += 1) await aVisit(here.lights, powder, '50');
  for (let n = 0; n < 4; n += 1) await aVisit(roots, cream, '40');
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

async function aProduct(
  name: string,
  kind: string,
  quantity: string,
  listPrice: string,
  orderCode: string,
): Promise<string> {
  const packs = [{ label: 'pack', quantity, listPrice, orderCode }];
  const product = { name, kind, unit: 'g', supplierId, packs };
  const made = await studio.owner.post<{ id: string }>('/products', product);
  await studio.owner.post('/openings', {
    lines: [{ productId: made.id, quantity: '1000', cost: '20' }],
  });
  return made.id;
}

async function aVisit(serviceId: string, productId: string, grams: string): Promise<void> {
  const visit = await here.visit({ services: [{ serviceId }] });
  await here.settle(await here.pour(visit.id, 'front', [[productId, grams]]), '0');
  await here.close(visit.id, { discount: '5' });
}

const effect = (body: object) => studio.manager.post<PriceEffectView>('/price-lists/effect', body);
const csv = 'order_code,product,list_price\nSP-5,,16.50\n,Shingle cream,12\n';

test('what it would do, the most money a month first; every figure', async () => {
  const found = await effect({ supplierId, csv, months: 2 });
  expect(found.prices).toEqual([
    expect.objectContaining({ productId: powder, before: '15', after: '16.5', change: '0.1' }),
    expect.objectContaining({ productId: cream, before: '9', after: '12', change: '0.333333' }),
  ]);
  expect(found.services.map(({ label, visits, perMonth }) => [label, visits, perMonth])).toEqual([
    ['Roots', 4, '4.00'], // 4 x 40 g x (12 - 9) / 60, over 2 months
    ['Half head of lights', 2, '0.15'], // 2 x 50 g x (16.50 - 15) / 500, over 2 months
  ]);
  expect(found.perMonth).toBe('4.15');
  const [first] = found.services;
  // net 48.78; product 6.00, time 16.00, chair 15.00, fee 0.95, commission 4.88: 5.95 is left
  expect(first).toMatchObject({
    ...{ key: roots, visitsPerMonth: '2', product: { before: '6.00', after: '8.00' } },
    margin: { before: '0.121976', after: '0.080976' }, // 5.95 and 3.95 of 48.78
    target: '0.121976',
    // (8 + 16 + 15 + 0.05) / (1 - 0.121976 - 0.015 x 1.23 - 0.1) = 39.05 / 0.759574 = 51.4104
    // and x 1.23 = 63.2348, up to the cent; before: 37.05 / 0.759574 x 1.23 = 59.9961
    price: { menu: '60.00', before: '60.00', after: '63.24' },
  });
  const lights = found.services[1];
  // 50 g at 0.03 and 30 foils at 0.05; at 0.033
  expect(lights).toMatchObject({ product: { before: '3.00', after: '3.15' } });
});

test('for another margin; one that no price reaches', async () => {
  const lines = [{ orderCode: 'sc-1', listPrice: '12' }];
  const quarter = await effect({ lines, margin: '0.25' });
  // 39.05 / (1 - 0.25 - 0.01845 - 0.1) x 1.23 = 39.05 / 0.63155 x 1.23 = 76.0539
  expect(quarter.services[0]).toMatchObject({ target: '0.25', price: { after: '76.06' } });
  expect(quarter.services[0]?.perMonth).toBe('2.67'); // 8.00 over 3 months
  expect((await effect({ lines, margin: '0.9' })).services[0]).toMatchObject({
    price: { menu: '60.00', before: null, after: null },
  });
});

test('looking stores nothing; prices that go down end the list', async () => {
  const lines = [{ orderCode: 'SP-5', listPrice: '5' }];
  const { services } = await effect({ lines, months: 1 });
  expect(services.map(({ label, perMonth }) => [label, perMonth])).toEqual([
    ['Roots', '0.00'],
    ['Half head of lights', '-2.00'], // 2 x 50 x 10 / 500
  ]);
  const product = await studio.manager.get<{ packs: object[] }>(`/products/${powder}`);
  expect(product.packs).toEqual([expect.objectContaining({ listPrice: '15' })]);
  expect(await studio.manager.get(`/products/${powder}/prices`)).toEqual({ rows: [] });
});

test('accepted: the catalogue has it, history says since when, old sheets stay', async () => {
  const id = crypto.randomUUID();
  const visit = (await studio.owner.get<{ items: { id: string }[] }>('/visits?limit=1')).items[0];
  const sheet = await here.sheet(visit?.id ?? '');
  const body = { id, supplierId, csv, startsOn: '2026-03-01' };
  const accepted = await studio.manager.post<AcceptedPricesView>('/price-lists', body);
  expect(accepted).toMatchObject({ id, startsOn: '2026-03-01', prices: [{ after: '16.5' }, {}] });
  expect(await studio.manager.post('/price-lists', body)).toEqual(accepted);
  const product = await studio.manager.get<{ packs: object[] }>(`/products/${cream}`);
  expect(product.packs).toEqual([expect.objectContaining({ listPrice: '12' })]);
  const again = {
    lines: [{ product: 'Shingle cream', listPrice: '12.6' }],
    startsOn: '2026-03-03',
  };
  await studio.manager.post('/price-lists', again);
  const history = await studio.manager.get<PriceHistoryView>(`/products/${cream}/prices`);
  expect(history.rows.map(({ price, startsOn }) => [price, startsOn])).toEqual([
    ['12.6', '2026-03-03'],
    ['12', '2026-03-01'],
    ['9', null],
  ]);
  expect(await here.sheet(visit?.id ?? '')).toEqual(sheet);
  // what it did is now what there is
  const { services } = await effect({ lines: [{ product: 'Shingle cream', listPrice: '12.6' }] });
  expect(services.find((service) => service.key === roots)).toMatchObject({
    ...{ product: { before: '8.40', after: '8.40' }, perMonth: '0.00' },
  });
});

test('what is wrong with a list is said line by line; a stylist has no prices', async () => {
  await aProduct('Shingle cream', 'permanent', '80', '11', 'SC-2');
  const wrong: readonly [object, string, RegExp][] = [
    [{ csv: 'order_code,list_price\nSP-5,abc\n' }, '/csv', /^Line 2, listPrice/],
    [{ csv: 'order_code,price\nSP-5,3\n' }, '/csv', /no column price/],
    [{ csv: 'order_code,list_price\nSP-5,3\nSP-5,4\n' }, '/csv', /^Line 3: .*came before/],
    [{ lines: [{ listPrice: '3' }] }, '/lines/0', /Give a gtin/],
    [{ lines: [{ orderCode: 'XX', listPrice: '3' }] }, '/lines/0', /No pack/],
    [{ lines: [{ product: 'Shingle cream', listPrice: '3' }] }, '/lines/0', /Several packs fit/],
    [{ lines: [{ orderCode: 'SP-5', listPrice: '-3' }] }, '/lines/0/listPrice', /at least 0/],
  ];
  for (const [body, pointer, detail] of wrong) {
    const { errors } = await studio.manager.refused('POST', '/price-lists/effect', body);
    expect(errors[0]).toMatchObject({ pointer, detail: expect.stringMatching(detail) as string });
  }
  const later = { lines: [{ orderCode: 'SP-5', listPrice: '3' }], startsOn: '2026-03-04' };
  expect(await studio.manager.refused('POST', '/price-lists', later)).toMatchObject({
    type: '/problems/prices_start_later',
  });
  expect(await studio.manager.refused('POST', '/price-lists', {})).toMatchObject({
    type: '/problems/one_of_two',
  });
  expect(await studio.stylist.refused('POST', '/price-lists/effect', { csv })).toMatchObject({
    status: 403,
  });
});

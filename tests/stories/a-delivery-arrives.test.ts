/** A delivery arrives: its cost with freight and free packs, its lots, what it explains, undone. */
import { randomUUID } from 'node:crypto';
import type {
  ArrivalAnswer,
  DeliveryView,
  LotView,
  MovementView,
  ReversalAnswer,
  ShelfItemView,
  TakenAnswer,
} from '../../shared/contract/stock.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let developer: string;
let powder: string;
beforeAll(async () => {
  studio = await aStudio();
  studio.clock.set('2026-03-10T15:00:00Z');
  developer = await product({
    name: 'Developer 20 vol',
    kind: 'developer',
    unit: 'ml',
    strength: '20',
    packs: [{ label: '1 l bottle', quantity: '1000', listPrice: '9.80' }],
  });
  powder = await product({
    name: 'Blue powder',
    kind: 'lightener',
    unit: 'g',
    packs: [
      { label: 'tub', quantity: '500', listPrice: '20' },
      { label: 'bag', quantity: '100' },
    ],
  });
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

async function product(body: Record<string, unknown>): Promise<string> {
  return (await studio.manager.post<{ id: string }>('/products', body)).id;
}

async function shelf(productId: string): Promise<ShelfItemView> {
  const { items } = await studio.manager.get<{ items: ShelfItemView[] }>('/shelf');
  return items.find((item) => item.productId === productId)!;
}

test('freight and discount are shared by price; free packs share their line’s cost', async () => {
  const answer = await studio.manager.post<ArrivalAnswer>('/deliveries', {
    deliveredOn: '2026-03-10',
    invoiceNo: '2026-0418',
    freight: '6.00',
    discount: '3.00',
    lines: [
      { productId: developer, packs: 2, freePacks: 1, expiresOn: '2028-03-31' },
      { productId: powder, packs: 2, packLabel: 'tub', packPrice: '20.20' },
    ],
  });
  // goods 19.60 + 40.40 = 60.00; 3.00 more to share: 0.98 and 2.02
  expect(answer.lots).toMatchObject([
    { quantity: '3000', unit: 'ml', cost: '20.580000', costFrom: 'list price' },
    { quantity: '1000', unit: 'g', cost: '42.420000', costFrom: 'given' },
  ]);
  expect(answer.cost).toBe('63.000000');
  expect(await shelf(developer)).toMatchObject({
    onHand: { quantity: '3000', unit: 'ml' },
    sealed: 3,
    started: 0,
    value: '20.580000',
    nextExpiry: '2028-03-31',
    flags: [],
  });
  const { items } = await studio.manager.get<{ items: DeliveryView[] }>('/deliveries');
  expect(items[0]).toMatchObject({
    id: answer.id,
    invoiceNo: '2026-0418',
    reversed: false,
    lines: [{ packs: 2, freePacks: 1, packLabel: '1 l bottle' }, { packPrice: '20.200000' }],
  });
});

test('sent twice it is booked once; a rehearsal is not booked at all', async () => {
  const body = {
    id: randomUUID(),
    deliveredOn: '2026-03-10',
    lines: [{ productId: developer, quantity: '1000', cost: '7' }],
  };
  const dry = await studio.manager.ask('POST', '/deliveries?dry=true', body);
  expect(dry.body).toMatchObject({ dry: true, cost: '7.000000' });
  const first = await studio.manager.ask('POST', '/deliveries', body);
  const again = await studio.manager.ask('POST', '/deliveries', body);
  expect(again.headers['replayed']).toBe('true');
  expect(again.body).toEqual(first.body);
  expect((await shelf(developer)).onHand.quantity).toBe('4000');
  const other = { ...body, lines: [{ productId: developer, quantity: '2000' }] };
  expect((await studio.manager.ask('POST', '/deliveries', other)).status).toBe(409);
});

test('used before it was booked: it gives back what the book lacked since its day', async () => {
  const toner = await product({ name: 'Toner 9', kind: 'toner', unit: 'g' });
  const used = await studio.manager.post<TakenAnswer>('/uses', {
    usedAt: '2026-03-10T11:00:00Z',
    lines: [{ productId: toner, quantity: '30', unit: 'g' }],
  });
  expect(used.lines[0]).toMatchObject({ value: '0.000000' });
  expect(used.flags.map(({ flag }) => flag)).toEqual(
    expect.arrayContaining(['recount', 'no_cost']),
  );
  const answer = await studio.manager.post<ArrivalAnswer>('/deliveries', {
    deliveredOn: '2026-03-10',
    lines: [{ productId: toner, quantity: '60', cost: '12' }],
  });
  expect(answer.lots[0]).toMatchObject({ givenBack: '30' });
  expect(await shelf(toner)).toMatchObject({
    onHand: { quantity: '30' },
    value: '6.000000',
    flags: ['reorder'], // 30 g in 10 days, a delivery takes 7 + 7: 3 x 14 x 1.5 = 63 g
  });
  // the use was a mistake: both the use and what was given back for it are undone
  await studio.manager.post(`/movements/${used.id}/reversal`, {});
  expect(await shelf(toner)).toMatchObject({ onHand: { quantity: '60' }, value: '12.000000' });
});

test('undone while untouched, with its shortfalls open again; then never', async () => {
  const cream = await product({ name: 'Cream', kind: 'care', unit: 'ml' });
  const use = (quantity: string) =>
    studio.manager.post<TakenAnswer>('/uses', {
      usedAt: '2026-03-10T14:00:00Z',
      lines: [{ productId: cream, quantity, unit: 'ml' }],
    });
  await use('20');
  const body = {
    deliveredOn: '2026-03-10',
    lines: [{ productId: cream, quantity: '500', cost: '10' }],
  };
  const wrong = await studio.manager.post<ArrivalAnswer>('/deliveries', body);
  const undone = await studio.manager.post<ReversalAnswer>(`/movements/${wrong.id}/reversal`, {});
  expect(undone).toMatchObject({ reverses: wrong.id, kind: 'delivery' });
  expect(undone.movements.map(({ from, to, quantity }) => `${from} > ${to} ${quantity}`)).toEqual([
    'correction > shelf 20',
    'shelf > supplier 500',
  ]);
  expect(await shelf(cream)).toMatchObject({
    onHand: { quantity: '0' },
    flags: ['reorder', 'recount', 'out'],
  });
  const twice = await studio.manager.ask('POST', `/movements/${wrong.id}/reversal`, {});
  expect(twice).toMatchObject({ status: 409, body: { type: '/problems/reversed_already' } });

  const right = await studio.manager.post<ArrivalAnswer>('/deliveries', body);
  expect(right.lots[0]).toMatchObject({ givenBack: '20' });
  const taken = await use('5');
  const refused = await studio.manager.ask('POST', `/movements/${right.id}/reversal`, {});
  expect(refused).toMatchObject({ status: 422, body: { type: '/problems/touched_since' } });
  // what touched it is undone: then it can be
  await studio.manager.post(`/movements/${taken.id}/reversal`, {});
  const { items } = await studio.manager.get<{ items: MovementView[] }>(
    `/movements?journal=${right.id}`,
  );
  await studio.manager.post(`/movements/${items[0]!.id}/reversal`, {});
  const final = await studio.manager.ask('POST', `/movements/${undone.id}/reversal`, {});
  expect(final).toMatchObject({ status: 422, body: { type: '/problems/reversal_is_final' } });
});

test('what cannot be right is refused with field and remedy, and nothing is written', async () => {
  const before = await studio.manager.get('/movements');
  const line = { productId: powder, packs: 1, packLabel: 'tub' };
  const rows: [body: Record<string, unknown>, status: number, pointer: string, code: string][] = [
    [{ lines: [{ ...line, packLabel: 'box' }] }, 422, '/lines/0/packLabel', 'unknown_pack'],
    [{ lines: [{ productId: powder, packs: 1 }] }, 422, '/lines/0/packLabel', 'unknown_pack'],
    [{ lines: [{ ...line, quantity: '5' }] }, 400, '/lines/0', 'packs_or_quantity'],
    [{ lines: [line, { ...line, packs: 0 }] }, 422, '/lines/1', 'quantity_not_positive'],
    [{ lines: [{ ...line, productId: randomUUID() }] }, 404, '/lines/0/productId', 'not_found'],
    [{ lines: [line], discount: '20.01' }, 422, '/discount', 'discount_above_price'],
    [{ lines: [line], supplierId: randomUUID() }, 404, '/supplierId', 'not_found'],
    [{ lines: [line], deliveredOn: '2026-03-11' }, 422, '/deliveredOn', 'day_in_future'],
    [{ lines: [{ ...line, grams: 5 }] }, 400, '/lines/0/grams', 'unknown_field'],
  ];
  for (const [body, status, pointer, code] of rows) {
    const answer = await studio.manager.ask<{ errors: { pointer: string; code: string }[] }>(
      'POST',
      '/deliveries',
      { deliveredOn: '2026-03-10', ...body },
    );
    expect({ status: answer.status, errors: answer.body.errors }).toMatchObject({
      status,
      errors: [{ pointer, code }],
    });
  }
  expect(await studio.manager.get('/movements')).toEqual(before);
});

test('a bench sees quantities, not money, and books no delivery', async () => {
  const { items } = await studio.bench.get<{ items: LotView[] }>(`/lots?productId=${developer}`);
  expect(items.map(({ onHand }) => onHand).sort()).toEqual(['1000', '3000']);
  expect(items[0]).not.toHaveProperty('cost');
  const answer = await studio.bench.ask('POST', '/deliveries', {});
  expect(answer.status).toBe(403);
});

/** From the learned reorder point to the order, its deliveries and its slip; figures by hand. */
import type { OrderView, ReorderPointView } from '../../shared/contract/purchasing.js';
import type { Shelf } from '../support/saltmarsh.js';
import { aStudio, type TestStudio } from '../support/studio.js';
import { usedForMonths } from '../support/used-for-months.js';

let studio: TestStudio;
let shelf: Shelf;
let supplier: string;

beforeAll(async () => {
  studio = await aStudio();
  shelf = await usedForMonths(studio, '2025-03', 12, () => ({ powder: '75', vol20: '100' }));
  const made = await studio.owner.post<{ id: string }>('/suppliers', {
    ...{ name: 'Harbour Wholesale', leadTimeDays: 10 },
    ...{ freight: '6', freeFreightFrom: '100' },
  });
  supplier = made.id;
  await studio.owner.patch(`/products/${shelf.powder}`, {
    supplierId: supplier,
    packs: [{ label: '500 g tub', quantity: '500', listPrice: '15', orderCode: 'L-500' }],
  });
}, 120_000);
afterEach(() => studio.audit());
afterAll(() => studio.close());

const order = (body: object) => studio.manager.post<OrderView>('/orders', body);
const points = async () => {
  const { items } = await studio.manager.post<{ items: ReorderPointView[] }>('/reorder-points');
  return (id: string) => items.find((item) => item.productId === id);
};
async function flagsOf(productId: string): Promise<string[]> {
  const { items } = await studio.manager.get<{ items: { productId: string; flags: string[] }[] }>(
    '/shelf',
  );
  return items.find((item) => item.productId === productId)?.flags ?? [];
}

test('a reorder point comes from demand over lead time and review, and says why', async () => {
  const powder = (await points())(shelf.powder);
  expect(powder?.rule).toBe('forecast');
  expect(powder?.basis).toMatchObject({
    ...{ leadTimeDays: '10', leadTimeFrom: 'declared', reviewDays: 7, days: '17' },
    serviceLevel: '0.95',
  });
  // 75 g on four days a month: in 17 days 2 or 3 of them fall, 150 to 225 g
  expect(Number(powder?.basis?.meanUse)).toBeGreaterThan(150);
  expect(Number(powder?.basis?.meanUse)).toBeLessThan(180);
  expect(Number(powder?.point?.quantity)).toBeGreaterThan(180);
  expect(Number(powder?.point?.quantity)).toBeLessThan(420);
  expect(powder?.sentence).toContain('only about one time in 20');
  const idle = (await points())(shelf.vol30);
  expect(idle).toMatchObject({ rule: 'none', point: null });
});

test('the shelf and the answer of a use flag by the learned point, on order counts', async () => {
  const point = Number((await points())(shelf.powder)?.point?.quantity);
  await studio.manager.post('/counts', {
    countedAt: '2026-03-01T08:50:00Z',
    lines: [
      { productId: shelf.powder, counted: { quantity: `${Math.ceil(point) + 20}`, unit: 'g' } },
    ],
  });
  expect(await flagsOf(shelf.powder)).not.toContain('reorder');
  const used = await studio.stylist.post<{ flags: object[] }>('/uses', {
    usedAt: '2026-03-01T08:55:00Z',
    lines: [{ productId: shelf.powder, quantity: '25', unit: 'g' }],
  });
  expect(used.flags).toContainEqual({ productId: shelf.powder, flag: 'reorder' });
  const sent = await order({ lines: [{ productId: shelf.powder, packs: 1 }] });
  expect(sent).toMatchObject({ state: 'sent', supplierId: supplier, goods: '15.00' });
  expect(await flagsOf(shelf.powder)).not.toContain('reorder');
  const cancelled = await studio.manager.post<OrderView>(`/orders/${sent.id}/cancel`, {});
  expect(cancelled.state).toBe('cancelled');
  expect(cancelled.lines[0]?.awaited.quantity).toBe('0');
  expect(await flagsOf(shelf.powder)).toContain('reorder');
  const again = await studio.manager.refused('POST', `/orders/${sent.id}/cancel`, {});
  expect([again.status, again.type]).toEqual([409, '/problems/order_is_closed']);
});

test('deliveries that name the order receive it, a reversal awaits it again', async () => {
  const sent = await order({
    supplierId: supplier,
    orderedOn: '2026-02-25',
    lines: [{ productId: shelf.powder, packs: 3 }],
  });
  // 3 x 15 = 45, below 100: freight 6
  expect([sent.goods, sent.freight]).toEqual(['45.00', '6.00']);
  const deliver = (packs: number) =>
    studio.manager.post<{ id: string }>('/deliveries', {
      supplierId: supplier,
      orderId: sent.id,
      deliveredOn: '2026-03-01',
      lines: [{ productId: shelf.powder, packs, packPrice: '15' }],
    });
  await deliver(2);
  const partly = await studio.manager.get<OrderView>(`/orders/${sent.id}`);
  expect(partly.state).toBe('partly received');
  expect(partly.lines[0]).toMatchObject({
    received: { quantity: '1000', unit: 'g' },
    awaited: { quantity: '500', unit: 'g' },
  });
  const last = await deliver(1);
  const whole = await studio.manager.get<OrderView>(`/orders/${sent.id}`);
  expect([whole.state, whole.deliveries.length]).toEqual(['received', 2]);
  const { items } = await studio.manager.get<{ items: { id: string; journalId: string }[] }>(
    '/movements?limit=10',
  );
  const moved = items.find(({ journalId }) => journalId === last.id);
  await studio.manager.post(`/movements/${moved?.id}/reversal`, {});
  const awaited = await studio.manager.get<OrderView>(`/orders/${sent.id}`);
  expect([awaited.state, awaited.lines[0]?.awaited.quantity]).toEqual(['partly received', '500']);
  const listed = await studio.manager.get<{ items: OrderView[] }>(
    '/orders?state=partly%20received',
  );
  expect(listed.items.map(({ id }) => id)).toEqual([sent.id]);
});

test('five deliveries teach the lead time, also those that only name their order', async () => {
  for (const [orderedOn, deliveredOn] of [
    ['2026-01-01', '2026-01-05'],
    ['2026-01-08', '2026-01-11'],
    ['2026-01-15', '2026-01-19'],
    ['2026-01-22', '2026-01-27'],
  ]) {
    await studio.manager.post('/deliveries', {
      ...{ supplierId: supplier, orderedOn, deliveredOn },
      lines: [{ productId: shelf.powder, packs: 1, packPrice: '15' }],
    });
  }
  // with the order of 25 February that came on 1 March: 4, 3, 4, 5, 4 days, mean 4
  const powder = (await points())(shelf.powder);
  expect(powder?.basis).toMatchObject({ leadTimeDays: '4', leadTimeFrom: 'deliveries' });
  expect(powder?.basis?.receipts).toBe(5);
});

test('the slip prints as PDF and reads as CSV', async () => {
  const sent = await order({
    lines: [{ productId: shelf.powder, packs: 2, packPrice: '14.5' }],
    note: 'Side door.',
  });
  const csv = await studio.manager.ask<string>('GET', `/orders/${sent.id}/slip?format=csv`);
  expect(csv.body).toBe(
    'order_code,product,pack,packs,pack_price,price\r\n' +
      'L-500,Tide lightener,500 g tub,2,14.50,29.00\r\n',
  );
  const pdf = await studio.manager.ask<string>('GET', `/orders/${sent.id}/slip`);
  expect(pdf.headers['content-type']).toBe('application/pdf');
  expect(pdf.body.slice(0, 5)).toBe('%PDF-');
});

test('an order is entered once, and refused with what to do', async () => {
  const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
  const body = { id, lines: [{ productId: shelf.powder, packs: 1 }] };
  const first = await order(body);
  const second = await studio.manager.ask<OrderView>('POST', '/orders', body);
  expect([second.body, second.headers['replayed']]).toEqual([first, 'true']);
  const pack = await studio.manager.refused('POST', '/orders', {
    lines: [{ productId: shelf.powder, packLabel: 'barrel', packs: 1 }],
  });
  expect(pack.detail).toContain('500 g tub');
  expect(pack.errors[0]?.pointer).toBe('/lines/0/packLabel');
  const none = await studio.owner.post<{ id: string }>('/products', {
    ...{ name: 'Foil', kind: 'sundry', unit: 'piece' },
  });
  const bare = await studio.manager.refused('POST', '/orders', {
    lines: [{ productId: none.id, packs: 1 }],
  });
  expect(bare.detail).toContain('Enter its packs');
  expect((await studio.stylist.refused('POST', '/orders', body)).status).toBe(403);
});

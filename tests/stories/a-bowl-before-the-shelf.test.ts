/** Mixed before anybody counted: the shelf is told afterwards, what was poured gets its cost. */
import { randomUUID } from 'node:crypto';
import type { ArrivalAnswer, ShelfItemView } from '../../shared/contract/stock.js';
import type { ProductView } from '../../shared/contract/catalogue.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeEach(async () => (studio = await aStudio()));
afterEach(async () => {
  await studio.audit();
  await studio.close();
});

const aPowder = () =>
  studio.manager.post<ProductView>('/products', {
    ...{ name: 'Lightener powder', kind: 'lightener', unit: 'g' },
    packs: [{ label: '500 g tub', quantity: '500' }],
  });
const item = async (productId: string) => {
  const { items } = await studio.manager.get<{ items: ShelfItemView[] }>('/shelf');
  return items.find((each) => each.productId === productId);
};
const pourOf = async (productId: string, quantity: string) => {
  const bowl = await studio.stylist.post<{ id: string }>('/bowls', { purpose: 'front' });
  await studio.stylist.post(`/bowls/${bowl.id}/pours`, {
    ...{ id: randomUUID(), productId, quantity, unit: 'g' },
    pouredAt: studio.clock.now(),
  });
};

test('what is counted afterwards is what is there; the pour before it has its cost', async () => {
  const { id: productId } = await aPowder();
  expect(await item(productId)).toMatchObject({ entered: false, onHand: { quantity: '0' } });
  await pourOf(productId, '30');
  // a pour beyond the book says nothing of what is there
  const before = await item(productId);
  expect(before?.entered).toBe(false);
  expect(before?.flags).toContain('recount');
  studio.clock.pass({ minutes: 5 });
  const lines = [{ productId, quantity: '470', cost: '14.10' }];
  const opened = await studio.manager.post<ArrivalAnswer>('/openings', { asCounted: true, lines });
  // 14.10 x 500 / 470 = 15: 30 g of it were poured already
  expect(opened.lots).toMatchObject([{ quantity: '500', cost: '15.000000', givenBack: '30' }]);
  expect(await item(productId)).toMatchObject({
    entered: true,
    onHand: { quantity: '470' },
    value: '14.100000',
    flags: expect.not.arrayContaining(['recount', 'no_cost']) as string[],
  });
});

test('an opening without that word is what was there before the pour', async () => {
  const { id: productId } = await aPowder();
  await pourOf(productId, '30');
  studio.clock.pass({ minutes: 5 });
  const lines = [{ productId, packs: 1, cost: '15' }];
  await studio.manager.post('/openings', { lines });
  expect(await item(productId)).toMatchObject({ onHand: { quantity: '470' } });
});

test('nothing there is an answer too', async () => {
  const { id: productId } = await aPowder();
  const lines = [{ productId, counted: { quantity: '0', unit: 'g' } }];
  await studio.manager.post('/counts', { countedAt: studio.clock.now(), lines });
  expect(await item(productId)).toMatchObject({ entered: true, onHand: { quantity: '0' } });
});

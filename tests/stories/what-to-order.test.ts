/** The owner asks what to order: packs with reasons, terms of the supplier, a budget too small. */
import type {
  OrderPlanView,
  OrderTermsView,
  PlanLineView,
} from '../../shared/contract/purchasing.js';
import type { Shelf } from '../support/saltmarsh.js';
import { aStudio, type TestStudio } from '../support/studio.js';
import { usedForMonths } from '../support/used-for-months.js';

let studio: TestStudio;
let shelf: Shelf;
let supplier: string;

beforeAll(async () => {
  studio = await aStudio();
  // every week or so: 250 g powder, 400 ml of 20 vol, 30 g toner
  shelf = await usedForMonths(studio, '2025-03', 12, () => ({
    ...{ powder: '250', vol20: '400', toner: '30' },
  }));
  const made = await studio.owner.post<{ id: string }>('/suppliers', {
    ...{ name: 'Harbour Wholesale', leadTimeDays: 4, orderDay: 2 },
    ...{ freight: '6', freeFreightFrom: '150', minimumOrder: '20' },
  });
  supplier = made.id;
  const packs = {
    powder: { label: '500 g tub', quantity: '500', listPrice: '15' },
    vol20: { label: '1000 ml bottle', quantity: '1000', listPrice: '6' },
    toner: { label: '60 g tube', quantity: '60', listPrice: '9' },
  };
  for (const [key, pack] of Object.entries(packs)) {
    const id = shelf[key as keyof Shelf];
    await studio.owner.patch(`/products/${id}`, { supplierId: supplier, packs: [pack] });
  }
  // what the book says is wrong after a year without deliveries: all of it is counted
  await studio.manager.post('/counts', {
    countedAt: '2026-03-01T08:00:00Z',
    lines: [
      { productId: shelf.powder, counted: { quantity: '100', unit: 'g' } },
      { productId: shelf.vol20, counted: { quantity: '200', unit: 'ml' } },
      { productId: shelf.toner, counted: { quantity: '600', unit: 'g' } },
    ],
  });
}, 120_000);
afterEach(() => studio.audit());
afterAll(() => studio.close());

const plan = (query = '') => studio.manager.get<OrderPlanView>(`/order-plan${query}`);
const lineOf = (column: { lines: PlanLineView[] }, productId: string) =>
  column.lines.find((line) => line.productId === productId);

test('whole packs for the next order day, with a reason and what one fewer risks', async () => {
  const { today, bare, comfortable, difference } = await plan();
  expect(today).toBe('2026-03-01');
  const powder = lineOf(bare, shelf.powder);
  // the next Tuesday is 3 March, the one after 10 March, and 4 days later it is there: 14 March;
  // 12000 g a year are about 430 g in 13 days; with 100 g there, one tub more would just hold
  // that, but fail more often than one time in 20: 2 tubs
  expect(powder).toMatchObject({ orderDay: '2026-03-03', packs: 2, cost: '30.00' });
  expect(powder?.why).toContain('100 g on the shelf and on order');
  expect(powder?.why).toContain('used by 2026-03-14');
  expect(Number(powder?.shortRisk)).toBeLessThanOrEqual(0.05);
  expect(Number(powder?.onePackFewer.shortRisk)).toBeGreaterThan(0.05);
  expect(powder?.onePackFewer.words).toMatch(/^One pack fewer: short/);
  // 600 g of toner last twenty weeks
  expect(lineOf(bare, shelf.toner)).toBeUndefined();
  expect(bare.short).toEqual([]);
  expect(Number(bare.total)).toBeCloseTo(Number(bare.goods) + Number(bare.freight), 9);
  expect(Number(comfortable.total)).toBeGreaterThanOrEqual(Number(bare.total));
  expect(difference.words).toContain('one order in 50 instead of one order in 20');
  expect(Number(bare.proof.gap)).toBeLessThanOrEqual(0.01);
});

test('three order days need more than one, and each covers until the next', async () => {
  const { bare } = await plan('?orderDays=3');
  const days = new Set(bare.lines.map(({ orderDay }) => orderDay));
  for (const day of days) expect(['2026-03-03', '2026-03-10', '2026-03-17']).toContain(day);
  const tubs = bare.lines
    .filter(({ productId }) => productId === shelf.powder)
    .reduce((total, { packs }) => total + packs, 0);
  expect(tubs).toBeGreaterThan(1);
});

test('a price break that is worth it is taken and said', async () => {
  const terms = await studio.manager.put<OrderTermsView>(`/products/${shelf.powder}/order-terms`, {
    priceBreaks: [{ fromPacks: 4, packPrice: '10' }],
  });
  expect(terms.priceBreaks).toEqual([{ packLabel: '500 g tub', fromPacks: 4, packPrice: '10' }]);
  const powder = lineOf((await plan()).bare, shelf.powder);
  // 4 at 10 instead of 2 at 15: two tubs ahead for 10; five would only tie money up
  expect(powder).toMatchObject({ packs: 4, packPrice: '10.00', cost: '40.00' });
  expect(powder?.why).toContain('better price');
  const wrong = await studio.manager.refused('PUT', `/products/${shelf.powder}/order-terms`, {
    priceBreaks: [{ fromPacks: 4, packPrice: '16' }],
  });
  expect([wrong.status, wrong.type]).toEqual([422, '/problems/breaks_out_of_order']);
  const room = await studio.manager.put<OrderTermsView>(`/products/${shelf.powder}/order-terms`, {
    mostPacks: 2,
    priceBreaks: [{ fromPacks: 4, packPrice: '10' }],
  });
  expect(room.mostPacks).toBe(2);
  expect(lineOf((await plan()).bare, shelf.powder)?.packs).toBeLessThanOrEqual(2);
  await studio.manager.put(`/products/${shelf.powder}/order-terms`, {});
});

test('a budget too small says what stays short and how likely that is', async () => {
  const { bare } = await plan('?budget=24');
  expect(Number(bare.total)).toBeLessThanOrEqual(24);
  expect(bare.words).toContain('It does not all fit');
  expect(bare.short.length).toBeGreaterThan(0);
  for (const { shortRisk, words, missing } of bare.short) {
    expect(Number(shortRisk)).toBeGreaterThan(0.05);
    expect(words).toMatch(/^Short/);
    expect(Number(missing.quantity)).toBeGreaterThan(0);
  }
  const nothing = await plan('?budget=0');
  expect(nothing.bare.lines).toEqual([]);
  expect(nothing.bare.short.length).toBe(2);
});

test('a product that keeps n sealed follows that, without any use', async () => {
  await studio.owner.patch(`/products/${shelf.vol30}`, {
    supplierId: supplier,
    packs: [{ label: '1000 ml bottle', quantity: '1000', listPrice: '6' }],
    reorder: { keepSealed: 3 },
  });
  const line = lineOf((await plan()).bare, shelf.vol30);
  // one bottle is there, unopened
  expect(line?.packs).toBe(2);
  expect(line?.why).toContain('3 packs to be kept sealed');
});

test('packs that a person has changed stay, and the risk is worked out anew', async () => {
  const edited = await studio.manager.post<OrderPlanView>('/order-plans', {
    keep: [
      { productId: shelf.powder, packs: 5 },
      { productId: shelf.vol20, packs: 0 },
    ],
  });
  expect(lineOf(edited.bare, shelf.powder)?.packs).toBe(5);
  expect(lineOf(edited.bare, shelf.vol20)).toBeUndefined();
  expect(edited.bare.short.map(({ productId }) => productId)).toEqual([shelf.vol20]);
  const strange = await studio.manager.refused('POST', '/order-plans', {
    keep: [{ productId: supplier, packs: 1 }],
  });
  expect(strange.errors[0]?.pointer).toBe('/keep/0/productId');
});

test('what is on order is not ordered again', async () => {
  const { bare } = await plan();
  const lines = bare.lines.map(({ productId, packLabel, packs }) => ({
    ...{ productId, packLabel, packs },
  }));
  await studio.manager.post('/orders', { supplierId: supplier, lines });
  expect((await plan()).bare.lines).toEqual([]);
});

test('levels that no stock reaches, and days beyond three, are refused in a sentence', async () => {
  for (const level of ['0', '1']) {
    const problem = await studio.manager.refused('GET', `/order-plan?serviceLevel=${level}`);
    expect([problem.status, problem.type]).toEqual([422, '/problems/service_level_out_of_reach']);
    expect(problem.detail).toContain('such as 0.95');
  }
  expect((await studio.manager.refused('GET', '/order-plan?orderDays=4')).status).toBe(400);
  expect((await studio.stylist.refused('GET', '/order-plan')).status).toBe(403);
});

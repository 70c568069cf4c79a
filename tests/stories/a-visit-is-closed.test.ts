/** Closing a visit: bowls still open, what was used, what was paid, who may, kinds of visit. */
import { randomUUID } from 'node:crypto';
import type { VisitView } from '../../shared/contract/visits.js';
import { onHandOf } from '../support/saltmarsh.js';
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

const closedAt = '2026-03-03T11:00:00Z';

test('with a bowl open it asks: refused, or all of it counted as applied', async () => {
  const visit = await here.visit();
  const bowl = await here.pour(visit.id, 'front', [[here.shelf.powder, '30']]);
  await here.pour(visit.id, 'gloss', [[here.shelf.toner, '10']]);
  const refused = await studio.owner.refused('POST', `/visits/${visit.id}/close`, { closedAt });
  expect(refused).toMatchObject({
    ...{ status: 422, type: '/problems/bowls_still_open' },
    facts: { bowls: 2, purposes: ['front', 'gloss'] },
    errors: [{ pointer: '/openBowls' }],
  });
  expect((await studio.owner.get<VisitView>(`/visits/${visit.id}`)).closedAt).toBeNull();
  const closed = await here.close(visit.id, { openBowls: 'all-applied' });
  expect(closed.settledBowls).toHaveLength(2);
  expect(await studio.owner.get(`/bowls/${bowl}`)).toMatchObject({
    ...{ state: 'settled', estimated: true, settledAt: '2026-03-03T11:00:00.000Z' },
    wasted: { quantity: '0', unit: 'g' },
  });
  const sheet = await here.sheet(visit.id);
  expect(sheet).toMatchObject({ state: 'final', totals: { product: '2.40' } }); // 0.90 + 1.50
  expect(sheet.notes).toContainEqual({
    code: 'not_weighed',
    text: '2 bowls were not weighed at the end.',
  });
});

test('dry tells all and stores nothing; the same id closes once', async () => {
  const visit = await here.visit();
  const before = await onHandOf(studio, here.foils);
  const request = { id: randomUUID(), closedAt, payments: [{ method: 'card', amount: '120' }] };
  const dry = await studio.owner.post(`/visits/${visit.id}/close?dry=true`, request);
  expect(dry).toMatchObject({ dry: true, price: { toTheTill: '120.00' } });
  expect(await onHandOf(studio, here.foils)).toBe(before);
  const first = await studio.owner.ask('POST', `/visits/${visit.id}/close`, request);
  const again = await studio.owner.ask('POST', `/visits/${visit.id}/close`, request);
  expect(again.headers['replayed']).toBe('true');
  expect(again.body).toEqual(first.body);
  expect(BigInt(before) - BigInt(await onHandOf(studio, here.foils))).toBe(30n);
  const other = await studio.owner.refused('POST', `/visits/${visit.id}/close`, { closedAt });
  expect(other).toMatchObject({ status: 409, type: '/problems/visit_closed_already' });
});

test('reopened and closed again: the kit is not booked twice, the sheet is replaced', async () => {
  const visit = await here.visit();
  await here.close(visit.id);
  const first = await here.sheet(visit.id);
  const before = await onHandOf(studio, here.foils);
  await studio.manager.post(`/visits/${visit.id}/reopen`, {});
  const closed = await here.close(visit.id, {
    minutes: [{ personId: here.wren, minutes: 60 }],
    chairMinutes: 90,
  });
  expect(closed).toMatchObject({ uses: [], chairMinutes: 90 });
  expect(await onHandOf(studio, here.foils)).toBe(before);
  const second = await here.sheet(visit.id);
  expect(second).toMatchObject({
    ...{ version: 2, replaces: first.id },
    totals: { sundries: '1.50', time: '24.00', overhead: '22.50' },
  });
  const open = await here.visit();
  expect(await studio.manager.refused('POST', `/visits/${open.id}/reopen`, {})).toMatchObject({
    type: '/problems/visit_is_open',
  });
});

test('a discount, a deposit, and coins: what goes to the till', async () => {
  const visit = await here.visit();
  const closed = await here.close(visit.id, {
    uses: [{ productId: here.foils, quantity: '40', unit: 'piece' }],
    discount: { share: '0.1' },
    deposits: [{ amount: '20' }],
    payments: [{ method: 'cash', amount: '88' }],
    tip: { amount: '3', method: 'cash' },
  });
  // 120 less 10 % = 108.00, 20.00 paid before; no card, so no fee
  expect(closed.price).toEqual({
    ...{ currency: 'EUR', net: '87.80', tax: '20.20', gross: '108.00', due: '88.00' },
    ...{ cashRounding: '0.00', tip: '3.00', toTheTill: '91.00' },
  });
  const sheet = await here.sheet(visit.id);
  expect(sheet.totals).toMatchObject({ sundries: '2.00', fee: '0.00' });
  const half = { closedAt, tip: '0.005' };
  const open = await here.visit();
  expect(await studio.owner.refused('POST', `/visits/${open.id}/close`, half)).toMatchObject({
    ...{ status: 400 },
    errors: [{ pointer: '/tip/amount', code: 'too_many_decimals' }],
  });
  const much = { closedAt, discount: '130' };
  expect(await studio.owner.refused('POST', `/visits/${open.id}/close`, much)).toMatchObject({
    type: '/problems/discount_above_price',
  });
  const early = { closedAt: '2026-03-03T08:00:00Z' };
  expect(await studio.owner.refused('POST', `/visits/${open.id}/close`, early)).toMatchObject({
    type: '/problems/closed_before_start',
  });
});

test('without a tax rule a visit closes, and its sheet says what is missing', async () => {
  const other = await studio.service.studio({ name: 'Reed Bank' });
  const service = await other.owner.post<{ id: string }>('/services', { name: 'Cut', price: '30' });
  const visit = await other.owner.post<VisitView>('/visits', {
    ...{ services: [{ serviceId: service.id }], startedAt: '2026-03-03T09:00:00Z' },
  });
  const closed = await other.owner.post(`/visits/${visit.id}/close`, { closedAt });
  expect(closed).not.toHaveProperty('price');
  const path = `/visits/${visit.id}/price-sheet`;
  expect(await other.owner.refused('GET', path)).toMatchObject({ type: '/problems/no_tax_rule' });
  await other.owner.patch('/studio', { pricing: { taxes: [] } });
  expect(await other.owner.get(path)).toMatchObject({ state: 'final', totals: { net: '30.00' } });
});

test('a redo costs nothing and stands under the first visit', async () => {
  const first = await here.visit();
  await here.close(first.id);
  expect(
    await studio.owner.refused('POST', '/visits', {
      ...{ kind: 'redo', startedAt: '2026-03-03T11:30:00Z' },
    }),
  ).toMatchObject({ type: '/problems/redo_of_needed', errors: [{ pointer: '/redoOf' }] });
  const redo = await here.visit({
    ...{ kind: 'redo', redoOf: first.id, startedAt: '2026-03-03T11:30:00Z' },
  });
  expect(redo.services[0]?.price).toBe('0');
  const bowl = await here.pour(redo.id, 'front', [[here.shelf.powder, '50']]);
  await here.settle(bowl, '0');
  await here.close(redo.id, { closedAt: '2026-03-03T11:55:00Z', uses: [] });
  const again = await here.sheet(redo.id);
  expect(again).toMatchObject({
    ...{ visitKind: 'redo' },
    totals: { gross: '0.00', fee: '0.00', margin: null, contribution: '-31.50' }, // 1.50 + 30
  });
  const sheet = await here.sheet(first.id);
  // 97.56 - 1.50 - 30 - 9.76 commission - 1.85 fee (1.5 % of 120 and 0.05)
  expect(sheet.totals.contribution).toBe('54.45');
  expect(sheet.redone).toEqual({
    visits: [{ visitId: redo.id, contribution: '-31.50' }],
    contributionAfter: '22.95',
  });
});

test('a bench sees today without money; a stylist her own; prices are a manager’s', async () => {
  const visit = await here.visit();
  const seen = await studio.bench.get<VisitView>(`/visits/${visit.id}`);
  expect(seen).not.toHaveProperty('money');
  expect(seen.services[0]).not.toHaveProperty('price');
  const earlier = await here.visit({ startedAt: '2026-03-01T09:00:00Z' });
  expect(await studio.bench.refused('GET', `/visits/${earlier.id}`)).toMatchObject({ status: 404 });
  const page = await studio.bench.get<{ items: VisitView[] }>('/visits?limit=500');
  expect(page.items.map(({ id }) => id)).toContain(visit.id);
  expect(page.items.map(({ id }) => id)).not.toContain(earlier.id);
  const path = `/visits/${visit.id}`;
  expect(await studio.stylist.refused('POST', `${path}/close`, { closedAt })).toMatchObject({
    type: '/problems/not_your_right',
  });
  expect(await studio.stylist.refused('GET', `${path}/price-sheet`)).toMatchObject({ status: 403 });
  const cheap = { services: [{ serviceId: here.lights, price: '1' }], startedAt: closedAt };
  expect(await studio.bench.refused('POST', '/visits', cheap)).toMatchObject({
    ...{ status: 403, type: '/problems/price_needs_manager' },
    errors: [{ pointer: '/services/0/price' }],
  });
});

test('a stylist closes her own visit and sees its price, never its cost', async () => {
  const sorrel = await studio.owner.post<{ id: string }>('/people', {
    ...{ name: 'Sorrel Quay', role: 'stylist', pin: '4444' },
  });
  const made = await studio.owner.post<{ token: string }>('/tokens', { name: 'Tablet' });
  const tablet = studio.service.nobody.with(made.token);
  await tablet.post('/session', { personId: sorrel.id, pin: '4444' });
  const services = [{ serviceId: here.lights }];
  const visit = await tablet.post<VisitView>('/visits', { services, startedAt: closedAt });
  expect(visit).toMatchObject({ personId: sorrel.id, services: [{ price: '120' }] });
  const bowl = await here.pour(visit.id, 'front', [[here.shelf.powder, '20']]);
  await here.settle(bowl, '2');
  const closed = await tablet.post(`/visits/${visit.id}/close`, { closedAt });
  expect(closed).toMatchObject({ price: { toTheTill: '120.00' } });
  const path = `/visits/${visit.id}/price-sheet`;
  expect(await tablet.refused('GET', path)).toMatchObject({ status: 403 });
  const other = await here.visit();
  expect(await tablet.get(`/visits/${other.id}`)).not.toHaveProperty('money');
  expect(await tablet.refused('POST', `/visits/${other.id}/close`, { closedAt })).toMatchObject({
    type: '/problems/not_your_right',
  });
  const left = await tablet.get<{ rows: unknown[] }>('/waste?by=person');
  expect(left.rows).toEqual([]); // that bowl was sized by another
});

test('a walk-in is named later; the list is paged', async () => {
  const walkIn = await studio.bench.post<VisitView>('/visits', { startedAt: closedAt });
  const client = await studio.owner.post<{ id: string; number: number }>('/clients', {
    name: 'Ada Maria Brook',
  });
  const named = await studio.owner.patch<VisitView>(`/visits/${walkIn.id}`, {
    clientId: client.id,
    services: [{ serviceId: here.lights, price: '99.50' }],
  });
  expect(named.client).toEqual({ number: client.number, name: 'Ada Maria Brook' });
  expect(named.services[0]?.price).toBe('99.5');
  const seen = await studio.bench.get<VisitView>(`/visits/${walkIn.id}`);
  expect(seen.client?.name).toBe('Ada B.');
  const first = await studio.owner.get<{ items: VisitView[]; next: string }>('/visits?limit=2');
  const rest = await studio.owner.get<{ items: VisitView[] }>(`/visits?cursor=${first.next}`);
  const ids = [...first.items, ...rest.items].map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const his = await studio.owner.get<{ items: VisitView[] }>(`/visits?clientId=${client.id}`);
  expect(his.items.map(({ id }) => id)).toEqual([walkIn.id]);
});

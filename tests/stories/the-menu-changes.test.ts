/** The menu and the rules of price change from a day on; what was priced before stays. */
import { randomUUID } from 'node:crypto';
import type { ServiceView } from '../../shared/contract/catalogue.js';
import type { MenuView, ServiceVersionsView } from '../../shared/contract/menu.js';
import type { RulesVersionView } from '../../shared/contract/people.js';
import type { PriceSheetView } from '../../shared/contract/pricing.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;

beforeEach(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio); // lights at 120.00; the clock stands at 2026-03-03 noon
});
afterEach(async () => {
  await studio.audit();
  await studio.close();
});

const versionsOf = (id: string) =>
  studio.manager.get<ServiceVersionsView>(`/services/${id}/versions`);

/** Closed at 120.00, its gloss weighed; a late pour of 10 g can still arrive. */
async function aClosedVisit(): Promise<{ id: string; bowl: string; sheet: PriceSheetView }> {
  const { id } = await here.visit();
  const bowl = await here.pour(id, 'front', [[here.shelf.powder, '30']]);
  await here.settle(bowl, '6');
  await here.close(id);
  return { id, bowl, sheet: await here.sheet(id) };
}

test('a closed visit keeps its sheet when price, kit and rules change', async () => {
  const before = await aClosedVisit();
  await studio.manager.patch(`/services/${here.lights}`, {
    ...{ price: '150', handsOnMinutes: 90, chairMinutes: 180, kit: [] },
    inThePrice: [{ kind: 'lightener', grams: '10' }],
  });
  await studio.owner.patch('/studio', {
    pricing: {
      ...{ overheadPerChairMinute: '0.5', taxes: [{ label: 'VAT', rate: '0.1' }] },
      onTop: [{ kind: 'lightener', by: 'gram', rate: '1' }],
    },
  });
  expect(await here.sheet(before.id)).toEqual(before.sheet);
  const { rows } = await studio.manager.get<{ rows: object[] }>(
    `/visits/${before.id}/price-sheets`,
  );
  expect(rows).toHaveLength(1);
});

test('a late pour makes a new sheet of an old visit at the old price and rules', async () => {
  const { id, bowl, sheet } = await aClosedVisit();
  await studio.manager.patch(`/services/${here.lights}`, { price: '150', chairMinutes: 180 });
  await studio.owner.patch('/studio', { pricing: { overheadPerChairMinute: '0.5' } });
  await studio.owner.post(`/bowls/${bowl}/pours`, {
    ...{ id: randomUUID(), productId: here.shelf.powder, quantity: '10', unit: 'g' },
    pouredAt: '2026-03-03T10:20:00Z',
  });
  const late = await here.sheet(id);
  expect(late).toMatchObject({ version: 2, replaces: sheet.id });
  expect(late.totals.product).not.toBe(sheet.totals.product);
  // 120.00 with 23 % within, a chair of 120 minutes at 0.25, 75 minutes at 24.00 the hour
  expect(late.totals).toMatchObject({
    ...{ gross: '120.00', net: '97.56', tax: '22.44', overhead: '30.00', time: '30.00' },
  });
});

test('a planned price holds from its day on, not the day before', async () => {
  const { id } = await studio.manager.post<{ id: string }>(`/services/${here.lights}/versions`, {
    ...{ startsOn: '2026-04-01', price: '129' },
    onTop: [{ kind: 'lightener', by: 'bowl', rate: '11' }],
  });
  expect(await studio.manager.get<ServiceView>(`/services/${here.lights}`)).toMatchObject({
    price: '120',
  });
  const priceOn = async (startedAt: string) => {
    const visit = await here.visit({ startedAt });
    return [visit.services[0]?.price, visit.chairMinutes];
  };
  studio.clock.set('2026-04-02T12:00:00Z');
  expect(await priceOn('2026-03-31T17:00:00Z')).toEqual(['120', 120]);
  // midnight in Lisbon is 23:00 UTC since 29 March
  expect(await priceOn('2026-03-31T22:59:00Z')).toEqual(['120', 120]);
  expect(await priceOn('2026-03-31T23:00:00Z')).toEqual(['129', 120]);
  expect(await studio.manager.get<ServiceView>(`/services/${here.lights}`)).toMatchObject({
    ...{ price: '129', handsOnMinutes: 75 },
    onTop: [{ kind: 'lightener', by: 'bowl', rate: '11' }],
  });
  expect((await versionsOf(here.lights)).rows).toMatchObject([
    { id, startsOn: '2026-04-01', state: 'in force', price: '129' },
    { id: null, startsOn: null, state: 'over', price: '120' },
  ]);
});

test('the menu of a day says since when and what comes next', async () => {
  await here.visit();
  await studio.manager.patch(`/services/${here.lights}`, { price: '125' });
  await studio.manager.post(`/services/${here.lights}/versions`, {
    ...{ startsOn: '2026-05-01', price: '131.5' },
  });
  const menuOn = async (on: string) =>
    (await studio.manager.get<MenuView>(`/menu?on=${on}`)).rows.find(
      ({ serviceId }) => serviceId === here.lights,
    );
  expect(await menuOn('2026-03-02')).toMatchObject({
    ...{ price: '120', startsOn: null, next: { startsOn: '2026-03-03', price: '125' } },
  });
  expect(await menuOn('2026-03-03')).toMatchObject({
    ...{ price: '125', startsOn: '2026-03-03', next: { startsOn: '2026-05-01', price: '131.5' } },
  });
  expect(await menuOn('2026-05-01')).toMatchObject({ price: '131.5', next: null });
});

test('what has started is not taken back; no past is planned', async () => {
  const path = `/services/${here.lights}/versions`;
  const planned = await studio.manager.post<{ id: string }>(path, {
    ...{ startsOn: '2026-03-20', price: '140' },
  });
  await studio.manager.post(`${path}/${planned.id}/withdraw`, {});
  expect((await versionsOf(here.lights)).rows.map(({ state }) => state)).toEqual([
    'withdrawn',
    'in force',
  ]);
  const now = await studio.manager.post<{ id: string }>(path, {
    ...{ startsOn: '2026-03-03', price: '121' },
  });
  expect(await studio.manager.refused('POST', `${path}/${now.id}/withdraw`, {})).toMatchObject({
    ...{ status: 409, type: '/problems/started_already' },
  });
  const past = { startsOn: '2026-03-02', price: '1' };
  expect(await studio.manager.refused('POST', path, past)).toMatchObject({
    ...{ status: 422, type: '/problems/starts_in_the_past' },
    detail: '2026-03-02 is over, and what was priced then stays. Give 2026-03-03 or a later day.',
  });
  expect(
    await studio.manager.refused('POST', path, { startsOn: '2026-03-09', price: '-1' }),
  ).toMatchObject({ status: 400 });
  expect(await studio.manager.refused('POST', path, { startsOn: '2026-03-09' })).toMatchObject({
    type: '/problems/nothing_to_change',
  });
});

test('a service’s own rule of what is on top stands in place of the studio’s', async () => {
  await studio.owner.patch('/studio', {
    pricing: { onTop: [{ kind: 'lightener', by: 'bowl', rate: '10' }] },
  });
  const { id: serviceId } = await studio.manager.post<{ id: string }>('/services', {
    ...{ name: 'Roots', price: '60', inThePrice: [{ kind: 'lightener', grams: '20' }] },
    onTop: [{ kind: 'lightener', by: 'gram', rate: '0.2', label: 'More lightener' }],
  });
  const visit = await here.visit({ services: [{ serviceId }] });
  await here.settle(await here.pour(visit.id, 'roots', [[here.shelf.powder, '50']]), '10');
  // 40 g applied, 20 in the price: 20 x 0.20 net, x 1.23
  const { lines } = await here.sheet(visit.id);
  expect(lines.find(({ kind }) => kind === 'on_top')).toMatchObject({
    ...{ label: 'More lightener', amount: '4.92' },
  });
  const { rows } = await studio.manager.get<MenuView>('/menu');
  expect(rows.find((row) => row.serviceId === serviceId)?.notes).toEqual([]);
});

test('grams in the price beside bowls on top are pointed out on the menu', async () => {
  await studio.owner.patch('/studio', {
    pricing: { onTop: [{ kind: 'toner', by: 'bowl', rate: '7' }] },
  });
  await studio.manager.patch(`/services/${here.lights}`, {
    inThePrice: [{ kind: 'toner', grams: '35' }],
  });
  const { rows } = await studio.manager.get<MenuView>('/menu');
  expect(rows.flatMap(({ notes }) => notes.map(({ text }) => text))).toEqual([
    '35 g of toner is in the price, and toner on top is charged by the bowl: ' +
      'nothing of it counts as in the price. Say both the same way.',
  ]);
});

test('rules of price from a day on: each visit by those of its closing', async () => {
  await aClosedVisit();
  const path = '/studio/rules';
  const planned = await studio.owner.post<RulesVersionView>(path, {
    startsOn: '2026-04-01',
    pricing: { taxes: [{ label: 'VAT', rate: '0.2' }] },
  });
  expect(planned).toMatchObject({ state: 'planned', rules: { overheadPerChairMinute: '0.25' } });
  studio.clock.set('2026-04-01T18:00:00Z');
  const taxOf = async (day: string) => {
    const { id } = await here.visit({ startedAt: `${day}T09:00:00Z` });
    await here.close(id, { closedAt: `${day}T11:00:00Z` });
    return (await here.sheet(id)).totals.tax;
  };
  expect(await taxOf('2026-03-31')).toBe('22.44'); // 120 x 0.23 / 1.23
  expect(await taxOf('2026-04-01')).toBe('20.00'); // 120 x 0.20 / 1.20
  const { rows } = await studio.manager.get<{ rows: RulesVersionView[] }>(path);
  expect(rows).toMatchObject([
    { id: planned.id, state: 'in force', startsOn: '2026-04-01' },
    { id: null, state: 'over', rules: { taxes: [{ rate: '0.23' }] } },
  ]);
  expect(await studio.owner.refused('POST', `${path}/${planned.id}/withdraw`, {})).toMatchObject({
    type: '/problems/started_already',
  });
  const later = await studio.owner.post<RulesVersionView>(path, {
    ...{ startsOn: '2026-06-01', pricing: { hourRate: '30' } },
  });
  await studio.owner.post(`${path}/${later.id}/withdraw`, {});
  const stylists = await studio.stylist.refused('GET', path);
  expect(stylists.status).toBe(403);
});

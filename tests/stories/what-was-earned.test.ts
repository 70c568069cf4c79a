/** What final sheets add up to by month, service, person; the house; who rents a chair. */
import type { EarningsReportView, StatementView } from '../../shared/contract/earnings.js';
import type { PersonView } from '../../shared/contract/people.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;
let first: string;
let april: string;

const card = { payments: [{ method: 'card', amount: '120' }] };
const inApril = { settledAt: '2026-04-02T10:50:00Z' };

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
  const { powder, vol6, vol20, toner } = here.shelf;
  const visit = await here.visit();
  const front = [
    [powder, '30'],
    [vol6, '30'],
    [vol20, '30'],
  ] as const;
  const gloss = [
    [toner, '40'],
    [vol6, '40'],
  ] as const;
  await here.settle(await here.pour(visit.id, 'front', front), '9');
  await here.settle(await here.pour(visit.id, 'gloss', gloss), '8');
  await here.close(visit.id, card);
  first = visit.id;
  studio.clock.set('2026-04-03T12:00:00Z');
  const later = await here.visit();
  await here.settle(await here.pour(later.id, 'front', [[powder, '30']]), '0', inApril);
  await here.close(later.id, { ...card, closedAt: '2026-04-02T11:00:00Z' });
  april = later.id;
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

const earned = (query = '', as = studio.manager) =>
  as.get<EarningsReportView>(`/earnings?from=2026-03-01&to=2026-05-01${query}`);

/** All the ledger has to head and bin, less what was taken back. */
async function inTheLedger(): Promise<number> {
  const rows = await studio.service.database.asOwner<{ value: string }>(`
    select (sum(value) filter (where to_place in ('head', 'bin'))
      - coalesce(sum(value) filter (where from_place in ('head', 'bin')), 0)) * 1000000 as value
      from movement where studio_id = '${studio.id}'`);
  return parseInt(rows[0]?.value ?? '0', 10);
}

/** Millionths of the currency, exact. */
const millionths = (text: string) => parseInt(text.replace('.', ''), 10);

function inTheReport({ totals, redone, house }: EarningsReportView): number {
  const sheets = [totals.ledger, redone.ledger].flatMap(({ product, sundries, notCharged }) => [
    ...[product, sundries, notCharged],
  ]);
  const values = [...sheets, house.uses, house.discards, ...house.rows.map((row) => row.value)];
  return values.map(millionths).reduce((a, b) => a + b, 0);
}

test('by month, every figure', async () => {
  const { rows, totals, running, currency } = await earned('&by=month');
  expect({ currency, running }).toEqual({ currency: 'EUR', running: 0 });
  expect(rows.map(({ key, label }) => [key, label])).toEqual([
    ['2026-03', '2026-03'],
    ['2026-04', '2026-04'],
  ]);
  expect(rows[0]).toMatchObject({
    ...{ visits: 1, noCost: 0, gross: '120.00', net: '97.56' },
    ...{ product: '7.50', sundries: '1.50', time: '30.00', overhead: '30.00' }, // 1.26 + 6.24
    fee: '1.85', // 1.5 % of 120 and 0.05
    commission: '9.76',
    contribution: '46.95', // 97.56 - 7.50 - 1.50 - 30 - 1.85 - 9.76
    profit: '16.95',
    margin: '0.173739', // 16.95 / 97.56
    // a tenth of 1.26 and of 6.24
    ledger: { product: '7.500000', leftOver: '0.750000', sundries: '1.500000' },
    redone: { visits: 0, contribution: '0.00' },
  });
  expect(rows[1]).toMatchObject({ product: '0.90', contribution: '53.55', profit: '23.55' });
  expect(totals).toMatchObject({
    ...{ visits: 2, net: '195.12', contribution: '100.50' },
    margin: '0.207565', // 40.50 / 195.12
  });
});

test('running visits are left out and counted', async () => {
  const visit = await here.visit({ startedAt: '2026-04-03T09:00:00Z' });
  expect(await earned()).toMatchObject({ running: 1, totals: { visits: 2 } });
  await here.close(visit.id, { closedAt: '2026-04-03T10:00:00Z', uses: [], ...card });
  expect(await earned()).toMatchObject({ running: 0, totals: { visits: 3, net: '292.68' } });
  const open = await here.pour(visit.id, 'late', [[here.shelf.powder, '10']]);
  expect(await earned()).toMatchObject({ running: 1, totals: { visits: 2 } });
  // nobody looks at its sheet; the report makes the new one
  await here.settle(open, '0', { settledAt: '2026-04-03T11:00:00Z' });
  const { running, totals } = await earned();
  expect([running, totals.visits, totals.product]).toEqual([0, 3, '8.70']); // and 0.30
});

test('a bowl that is moved to another visit takes its cost along', async () => {
  const costs = async () => (await earned('&by=month')).rows.map((row) => [row.key, row.product]);
  const asItWas = [
    ['2026-03', '7.50'],
    ['2026-04', '1.20'],
  ];
  expect(await costs()).toEqual(asItWas);
  const { bowls } = await studio.owner.get<{ bowls: { id: string }[] }>(`/visits/${april}`);
  const closings = [
    [first, '2026-03-03T11:00:00Z'],
    [april, '2026-04-02T11:00:00Z'],
  ] as const;
  const move = async (visitId: string) => {
    for (const [id] of closings) await studio.owner.post(`/visits/${id}/reopen`, {});
    await studio.owner.post(`/bowls/${bowls[0]?.id}/move`, { visitId });
    expect(await earned()).toMatchObject({ running: 2, totals: { visits: 1 } });
    for (const [id, closedAt] of closings) await here.close(id, { ...card, closedAt });
  };
  await move(first);
  // the last bowl of the first visit is now one of April
  expect(await costs()).toEqual([['2026-04', '8.70']]);
  await move(april);
  expect(await costs()).toEqual(asItWas);
});

test('what was done again stands under its service, never under a person', async () => {
  const redo = await here.visit({ kind: 'redo', redoOf: first });
  const bowl = await here.pour(redo.id, 'front', [[here.shelf.powder, '10']]);
  await here.settle(bowl, '0', inApril);
  await here.close(redo.id, { closedAt: '2026-04-02T12:00:00Z' });
  const { rows, totals, redone } = await earned('&by=service');
  expect(rows).toHaveLength(1);
  expect(rows[0]).toMatchObject({
    ...{ key: here.lights, label: 'Half head of lights', visits: 3 },
    // 0.30 of product, 1.50 of foils, 30.00 of time
    redone: { visits: 1, contribution: '-31.80', ledger: { product: '0.300000' } },
  });
  expect(totals.visits).toBe(3);
  expect(redone).toEqual(rows[0]?.redone);
  const byPerson = await earned('&by=person', studio.owner);
  expect(byPerson.rows).toHaveLength(1);
  expect(byPerson.rows[0]).not.toHaveProperty('redone');
  expect(byPerson.rows[0]).toMatchObject({ key: here.wren, label: 'Wren Tallis', visits: 3 });
});

test('what the house used is beside it, and all of it is what the ledger has', async () => {
  expect(inTheReport(await earned())).toBe(await inTheLedger());
  const { powder, toner } = here.shelf;
  await here.settle(await here.pour(null, 'strand test', [[powder, '20']]), '5', inApril);
  const model = await here.visit({ kind: 'model' });
  await here.settle(await here.pour(model.id, 'gloss', [[toner, '10']]), '0', inApril);
  await here.close(model.id, { closedAt: '2026-04-02T12:00:00Z' });
  const piece = { productId: here.foils, quantity: '20', unit: 'piece' };
  const usedAt = '2026-04-02T12:30:00Z';
  await studio.owner.post('/uses', { purpose: 'practice', usedAt, lines: [piece] });
  await studio.owner.post('/discards', {
    ...{ why: 'spilled', at: usedAt, lines: [{ productId: powder, quantity: '10', unit: 'g' }] },
  });
  const spilled = await here.visit();
  const bowl = await here.pour(spilled.id, 'front', [[powder, '30']]);
  await here.settle(bowl, '20', { why: 'spilled', ...inApril });
  await here.close(spilled.id, { closedAt: '2026-04-02T12:00:00Z', uses: [] });
  const report = await earned();
  expect(report.house).toEqual({
    bowls: 2,
    rows: [
      { kind: 'no visit', bowls: 1, value: '0.600000' },
      { kind: 'model', bowls: 1, value: '1.500000' },
    ],
    uses: '2.500000', // 20 foils, and the 30 of the model
    discards: '0.300000',
  });
  expect(report.totals.ledger.notCharged).toBe('0.600000'); // 20 of the 30 g
  expect(inTheReport(report)).toBe(await inTheLedger());
});

test('a product without a cost is in no margin; a cost that is found later is in all', async () => {
  const found = await studio.owner.post<{ id: string }>('/products', {
    ...{
      name: 'Old cream',
      kind: 'permanent',
      unit: 'g',
      packs: [{ label: 'tube', quantity: '60' }],
    },
  });
  const visit = await here.visit();
  await here.settle(await here.pour(visit.id, 'roots', [[found.id, '40']]), '0', inApril);
  await here.close(visit.id, { closedAt: '2026-04-02T12:00:00Z', uses: [] });
  const before = await earned();
  expect(before.totals).toMatchObject({ visits: 5, noCost: 1 });
  const line = { productId: found.id, unitCost: '0.2' };
  await studio.owner.post('/cost-corrections', { lines: [line] });
  const after = await earned();
  expect(after.totals.noCost).toBe(0);
  const grown = millionths(after.totals.ledger.product) - millionths(before.totals.ledger.product);
  expect(grown).toBe(8_000_000); // 40 g at 0.20
  expect(inTheReport(after)).toBe(await inTheLedger());
});

test('who rents her chair is billed what she took, at cost and a markup', async () => {
  const tern = await studio.owner.post<PersonView>('/people', {
    ...{ name: 'Tern Ashby', role: 'stylist', kind: 'rents' },
  });
  const visit = await here.visit({ personId: tern.id });
  const { powder, vol20 } = here.shelf;
  const parts = [
    [powder, '25'],
    [vol20, '50'],
  ] as const;
  await here.settle(await here.pour(visit.id, 'front', parts), '15');
  await here.settle(await here.pour(visit.id, 'nape', [[powder, '10']]), '4', { why: 'spilled' });
  await here.close(visit.id, { uses: [] });
  const ask = (query: string) => studio.manager.get<StatementView>(`/statements?${query}`);
  const march = await ask(`personId=${tern.id}&month=2026-03&markup=0.15`);
  expect(march).toEqual({
    ...{ personId: tern.id, person: 'Tern Ashby', month: '2026-03', currency: 'EUR' },
    markup: '0.15',
    rows: [
      // 50 x 0.006 = 0.30, x 1.15 = 0.345
      {
        ...{ productId: vol20, product: 'Tide developer 20', quantity: '50', unit: 'ml' },
        ...{ value: '0.300000', charge: '0.34' },
      },
      // 31 x 0.03 = 0.93, x 1.15 = 1.0695
      {
        ...{ productId: powder, product: 'Tide lightener', quantity: '31', unit: 'g' },
        ...{ value: '0.930000', charge: '1.07' },
      },
    ],
    value: '1.230000',
    charge: '1.41', // 1.23 x 1.15 = 1.4145; 0.34 and 1.06, and one more where 0.0095 was cut
    notCharged: '0.120000', // 4 g spilled
    openBowls: 0,
  });
  expect(await ask(`personId=${tern.id}&month=2026-04`)).toMatchObject({
    rows: [],
    charge: '0.00',
  });
  expect(
    await studio.manager.refused('GET', `/statements?personId=${here.wren}&month=2026-03`),
  ).toMatchObject({ type: '/problems/rents_no_chair' });
});

test('margins by person are the owner’s; a stylist sees none', async () => {
  expect(await studio.manager.refused('GET', '/earnings?by=person')).toMatchObject({
    ...{ status: 403, type: '/problems/not_your_right' },
  });
  expect(await studio.stylist.refused('GET', '/earnings')).toMatchObject({ status: 403 });
  expect(
    await studio.owner.refused('GET', '/earnings?from=2026-04-01&to=2026-04-01'),
  ).toMatchObject({ type: '/problems/from_after_to' });
  expect(await studio.owner.refused('GET', '/earnings?by=week')).toMatchObject({ status: 400 });
});

/** A visit from the chair to the till: bowls, closing, its sheet; figures worked out by hand. */
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

/** 1.26 at 13 vol, 0.84 at 30 vol, 6.24 of toner at 6 vol: 8.34. */
async function threeBowls(visitId: string): Promise<string[]> {
  const { powder, vol6, vol20, vol30, toner } = here.shelf;
  const front = [
    [powder, '30'],
    [vol6, '30'],
    [vol20, '30'],
  ] as const;
  const bowls = [
    await here.pour(visitId, 'front', front),
    await here.pour(visitId, 'back', [
      [powder, '20'],
      [vol30, '40'],
    ]),
    await here.pour(visitId, 'gloss', [
      [toner, '40'],
      [vol6, '40'],
    ]),
  ];
  await here.settle(bowls[0] as string, '9');
  await here.settle(bowls[1] as string, '0');
  await here.settle(bowls[2] as string, '8');
  return bowls;
}

test('three bowls of three strengths, closed, paid by card with a tip', async () => {
  const visit = await here.visit();
  expect(visit.services).toEqual([expect.objectContaining({ price: '120' })]);
  await threeBowls(visit.id);
  const running = await here.sheet(visit.id);
  expect(running).toMatchObject({ id: null, state: 'running', totals: { product: '8.34' } });
  const closed = await here.close(visit.id, {
    payments: [{ method: 'card', amount: '120' }],
    tip: '5',
  });
  expect(closed.price).toMatchObject({ gross: '120.00', tip: '5.00', toTheTill: '125.00' });
  expect(closed.uses).toEqual([{ productId: here.foils, quantity: '30', unit: 'piece' }]);
  expect(closed.minutes).toEqual([{ personId: here.wren, minutes: 75 }]);
  const sheet = await here.sheet(visit.id);
  expect(sheet).toMatchObject({ state: 'final', version: 1, currency: 'EUR', noCost: [] });
  expect(sheet.totals).toMatchObject({
    product: '8.34', // 1.26 + 0.84 + 6.24
    sundries: '1.50', // 30 x 0.05
    time: '30.00', // 75 min at 24.00 an hour
    overhead: '30.00', // 120 min at 0.25
    cost: '69.84',
    tax: '22.44', // 120 x 0.23 / 1.23 = 22.439
    net: '97.56',
    gross: '120.00',
    fee: '1.93', // 1.5 % of 120 + 5, and 0.05: 1.925, half up
    commission: '9.76', // 10 % of 97.56 = 9.756
    contribution: '46.03',
    profit: '16.03',
    margin: '0.164309', // 16.03 / 97.56
    toTheTill: '125.00',
    replacementProduct: '8.34',
  });
  expect(sheet.notes.map((note) => note.code)).toEqual([]);
  const product = sheet.lines.filter((line) => line.kind === 'product');
  expect(product.map((line) => [line.label, line.amount])).toEqual([
    ['Tide lightener, front', '0.90'],
    ['Tide developer 6, front', '0.18'],
    ['Tide developer 20, front', '0.18'],
    ['Tide lightener, back', '0.60'],
    ['Tide developer 30, back', '0.24'],
    ['Dune toner 9, gloss', '6.00'],
    ['Tide developer 6, gloss', '0.24'],
  ]);
  expect(product[0]).toMatchObject({
    inputs: [
      { name: 'quantity', value: '30', unit: 'g' },
      { name: 'value', value: '0.9', unit: 'EUR' },
    ],
    formula: 'value of what went to head and bin',
  });
});

test('asked again it is the same sheet; a second witness in SQL agrees', async () => {
  const visit = await here.visit();
  await threeBowls(visit.id);
  await here.close(visit.id);
  const first = await here.sheet(visit.id);
  studio.clock.pass({ minutes: 5 });
  await studio.owner.patch(`/services/${here.lights}`, { price: '150' });
  expect(await here.sheet(visit.id)).toEqual(first);
  await studio.owner.patch(`/services/${here.lights}`, { price: '120' });
  const witness = await studio.service.database.asOwner<{ value: string }>(`
    select round(sum(case when m.to_place = 'bowl' then -m.value else m.value end), 2) as value
      from movement m join bowl b on b.id in (m.from_bowl_id, m.to_bowl_id)
     where b.visit_id = '${visit.id}'
       and (m.to_place in ('head', 'bin') or m.from_place in ('head', 'bin'))`);
  expect(first.totals.product).toBe(witness[0]?.value);
});

test('a target is reached within a step, with the other two beside it', async () => {
  const visit = await here.visit();
  await threeBowls(visit.id);
  await here.close(visit.id);
  const { target } = await here.sheet(visit.id, '?margin=0.25');
  // net = (69.84 + 0.05) / (1 - 0.25 - 0.015 x 1.23 - 0.1) = 69.89 / 0.63155 = 110.664
  // seen = 110.664 x 1.23 = 136.1169 -> 136.12; tax 25.45, net 110.67, fee 2.09, commission 11.07
  expect(target).toEqual({
    price: '136.12',
    gross: '136.12',
    tax: '25.45',
    net: '110.67',
    contribution: '57.67', // 110.67 - 8.34 - 1.50 - 30 - 2.09 - 11.07
    profit: '27.67',
    margin: '0.250023',
    contributionPerHour: '28.84', // over two hours, half up
    productMarkup: '12.269784', // 110.67 / 8.34 - 1
  });
  const unreachable = await studio.owner.refused(
    'GET',
    `/visits/${visit.id}/price-sheet?margin=0.9`,
  );
  expect(unreachable).toMatchObject({
    type: '/problems/margin_unreachable',
    facts: { highest: '0.88155' },
  });
  const two = `/visits/${visit.id}/price-sheet?margin=0.2&productMarkup=1`;
  expect(await studio.owner.refused('GET', two)).toMatchObject({ type: '/problems/one_target' });
});

test('a late bowl makes a new sheet; the old one stays as it was', async () => {
  const visit = await here.visit();
  await threeBowls(visit.id);
  await here.close(visit.id);
  const first = await here.sheet(visit.id);
  const late = await here.pour(visit.id, 'nape', [
    [here.shelf.powder, '10'],
    [here.shelf.vol20, '20'],
  ]);
  expect((await here.sheet(visit.id)).state).toBe('running');
  await here.settle(late, '3');
  const second = await here.sheet(visit.id);
  expect(second).toMatchObject({
    state: 'final',
    version: 2,
    replaces: first.id,
    totals: { product: '8.76' }, // and 10 x 0.03 + 20 x 0.006
  });
  const all = await studio.owner.get<{ rows: unknown[] }>(`/visits/${visit.id}/price-sheets`);
  expect(all.rows).toEqual([second, first]);
  await expect(
    studio.service.database.asOwner(`update price_sheet set version = 9`),
  ).rejects.toThrow(/never changes/);
});

test('asked by many at once, a new sheet is made once', async () => {
  const visit = await here.visit();
  await here.close(visit.id);
  const late = await here.pour(visit.id, 'nape', [[here.shelf.powder, '10']]);
  await here.settle(late, '0');
  const asked = await Promise.all([1, 2, 3, 4, 5].map(() => here.sheet(visit.id)));
  expect(new Set(asked.map((sheet) => sheet.id)).size).toBe(1);
  const all = await studio.owner.get<{ rows: unknown[] }>(`/visits/${visit.id}/price-sheets`);
  expect(all.rows).toHaveLength(2);
});

test('two benches close one visit: one of them is told', async () => {
  const visit = await here.visit();
  for (const purpose of ['front', 'back']) {
    await here.pour(visit.id, purpose, [
      [here.shelf.powder, '10'],
      [here.shelf.vol20, '20'],
    ]);
  }
  const closing = { closedAt: '2026-03-03T11:00:00Z', openBowls: 'all-applied' };
  const answers = await Promise.all(
    [1, 2].map(() => studio.owner.ask('POST', `/visits/${visit.id}/close`, closing)),
  );
  expect(answers.map((answer) => answer.status).sort()).toEqual([200, 409]);
  expect((await here.sheet(visit.id)).totals).toMatchObject({ product: '0.84', sundries: '1.50' });
});

test('a rate that changes later leaves old visits as they were', async () => {
  const visit = await here.visit();
  await threeBowls(visit.id);
  await here.close(visit.id);
  await studio.owner.patch('/studio', { pricing: { taxes: [{ label: 'VAT', rate: '0.5' }] } });
  const late = await here.pour(visit.id, 'nape', [[here.shelf.powder, '10']]);
  await here.settle(late, '0');
  expect((await here.sheet(visit.id)).totals).toMatchObject({ product: '8.64', tax: '22.44' });
  await studio.owner.post(`/visits/${visit.id}/reopen`, { newTerms: true });
  await here.close(visit.id);
  expect((await here.sheet(visit.id)).totals.tax).toBe('40.00'); // 120 x 0.5 / 1.5
  await studio.owner.patch('/studio', { pricing: { taxes: [{ label: 'VAT', rate: '0.23' }] } });
});

test('a bowl counts for the visit it belongs to now, whatever its entries say', async () => {
  const [one, other] = [await here.visit(), await here.visit()];
  const bowl = await here.pour(one.id, 'front', [[here.shelf.powder, '30']]);
  await here.settle(bowl, '0');
  expect((await here.sheet(one.id)).totals.product).toBe('0.90');
  await studio.owner.post(`/bowls/${bowl}/move`, { visitId: other.id });
  expect((await here.sheet(one.id)).totals.product).toBe('0.00');
  expect((await here.sheet(other.id)).totals.product).toBe('0.90');
});

test('what the studio bears is shown and not charged', async () => {
  const visit = await here.visit();
  const bowl = await here.pour(visit.id, 'front', [[here.shelf.powder, '30']]);
  await here.settle(bowl, '20', { why: 'spilled' });
  const { totals, lines } = await here.sheet(visit.id);
  expect(totals).toMatchObject({ product: '0.30', notCharged: '0.60' }); // 10 g and 20 g
  expect(lines.find((line) => line.kind === 'not_charged')?.amount).toBe('0.60');
});

/** Left over by many keys, held against the arithmetic itself; sizes; whose figures are shown. */
import type { SizeView, WasteRowView, WasteView } from '../../shared/contract/waste.js';
import { canonical, decimal, round, type Decimal } from '../../shared/decimal.js';
import { leftOver, type SettledBowl } from '../../shared/waste.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;

/** Grams of lightener mixed at 0.03 a gram, grams left, and how it was settled. */
const fronts: readonly (readonly [mixed: string, left: string, rest?: object])[] = [
  ['50', '5'],
  ['60', '12'],
  ['40', '0'],
  ['55', '3.5'],
  ['45', '9'],
  ['52', '1'],
  ['30', '6', { estimated: true }],
  ['48', '30', { why: 'spilled' }],
  ['20', '10', { why: 'stopped' }],
];

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
  for (const [mixed, left, rest] of fronts) {
    const bowl = await here.pour(null, 'front', [[here.shelf.powder, mixed]]);
    await here.settle(bowl, left, rest);
  }
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

function ask(by: string, rest = '') {
  return studio.owner.get<WasteView>(`/waste?by=${by}${rest}`);
}

function rowOf(view: WasteView, key: string): WasteRowView {
  const row = view.rows.find((each) => each.key === key);
  if (!row) throw new Error(`No row ${key} in ${JSON.stringify(view.rows)}`);
  return row;
}

const short = (value: Decimal | undefined) => value && canonical(round(value, 6, 'half_even'));

test('a ratio of sums; what was not weighed or is the studio’s stands beside', async () => {
  const row = rowOf(await ask('purpose'), 'front');
  expect(row).toMatchObject({
    ...{ label: 'front', bowls: 6, estimatedBowls: 1, remadeBowls: 2, ranOut: 0 },
    mixed: { quantity: '302', unit: 'g' },
    wasted: { quantity: '30.5', unit: 'g' },
    applied: { quantity: '271.5', unit: 'g' },
    remade: { quantity: '40', unit: 'g' },
    share: '0.100993', // 30.5 / 302
    notWeighedShare: '0.142857', // 1 of 7
    value: '0.915000', // 30.5 x 0.03
  });
});

test('the interval worked out in SQL is that of the arithmetic', async () => {
  const bowls = fronts.slice(0, 6).map(([mixed, left]): SettledBowl => {
    const [mixed_g, wasted_g] = [decimal(mixed), decimal(left)];
    const values = { mixedValue: mixed_g.times('0.03'), wastedValue: wasted_g.times('0.03') };
    return { mixed_g, wasted_g, ...values, estimated: false, why: 'left_over' };
  });
  const witness = leftOver(bowls);
  for (const row of [
    rowOf(await ask('purpose'), 'front'),
    rowOf(await ask('product'), here.shelf.powder),
    rowOf(await ask('month'), '2026-03'),
    rowOf(await ask('service'), 'none'),
    rowOf(await ask('hair'), 'none'),
  ]) {
    expect([row.share, row.shareLow, row.shareHigh]).toEqual([
      short(witness.share ?? undefined),
      short(witness.interval?.low),
      short(witness.interval?.high),
    ]);
  }
});

test('a bowl belongs to the day of its last pour; under five there is no interval', async () => {
  expect((await ask('purpose', '&from=2026-03-04&to=2026-03-05')).rows).toEqual([]);
  expect((await ask('purpose', '&to=2026-03-03')).rows).toEqual([]);
  const bowl = await here.pour(null, 'nape', [[here.shelf.powder, '20']]);
  await here.settle(bowl, '2');
  expect(rowOf(await ask('purpose', '&from=2026-03-03&to=2026-03-04'), 'nape')).toMatchObject({
    ...{ bowls: 1, share: '0.1', shareLow: null, shareHigh: null },
  });
  const backwards = await studio.owner.refused('GET', '/waste?from=2026-03-04&to=2026-03-04');
  expect(backwards).toMatchObject({ type: '/problems/from_after_to' });
});

test('a second mix of one purpose in a visit ran out; after a spill it did not', async () => {
  const visit = await here.visit();
  const first = await here.pour(visit.id, 'ends', [[here.shelf.powder, '20']]);
  await here.settle(first, '0');
  const second = await here.pour(visit.id, 'ends', [[here.shelf.powder, '10']]);
  await here.settle(second, '1');
  expect(rowOf(await ask('purpose'), 'ends')).toMatchObject({ bowls: 2, ranOut: 1 });
  const other = await here.visit();
  const spilled = await here.pour(other.id, 'roots', [[here.shelf.powder, '20']]);
  await here.settle(spilled, '20', { why: 'spilled' });
  const again = await here.pour(other.id, 'roots', [[here.shelf.powder, '20']]);
  await here.settle(again, '0');
  expect(rowOf(await ask('purpose'), 'roots')).toMatchObject({ bowls: 1, ranOut: 0 });
  expect((await ask('service')).rows.map((row) => row.label)).toContain('Half head of lights');
});

test('people are shown from twenty bowls; a device is nobody', async () => {
  const before = await ask('person');
  expect(before.rows.map((row) => row.key)).not.toContain(here.wren);
  for (let bowls = 0; bowls < 12; bowls += 1) {
    const bowl = await here.pour(null, 'gloss', [[here.shelf.vol6, '10']]);
    await here.settle(bowl, '1');
  }
  const row = rowOf(await ask('person'), here.wren);
  expect(row).toMatchObject({ label: 'Wren Tallis' });
  expect(row.bowls).toBeGreaterThanOrEqual(20);
  expect(await studio.stylist.refused('GET', '/waste')).toMatchObject({
    type: '/problems/needs_a_person',
  });
  expect(await studio.bench.refused('GET', '/waste')).toMatchObject({ status: 403 });
});

test('the right size is what nine heads of ten took, in steps of 5 g', async () => {
  const few = await studio.bench.get<SizeView>('/sizes?purpose=tips');
  expect(few).toMatchObject({ size: null, heads: 0 });
  // applied 31 to 40 g, 10 g left of each: the 90 % point of ten is 39, rounded up 40
  for (let applied = 31; applied <= 40; applied += 1) {
    const bowl = await here.pour(null, 'tips', [[here.shelf.vol20, String(applied + 10)]]);
    await here.settle(bowl, '10');
  }
  expect(await studio.bench.get<SizeView>('/sizes?purpose=tips')).toMatchObject({
    ...{ size: { quantity: '40', unit: 'g' }, heads: 10, pooled: false, lowerBound: false },
  });
  const narrow = await studio.bench.get<SizeView>(`/sizes?purpose=tips&serviceId=${here.lights}`);
  expect(narrow).toMatchObject({
    heads: 0,
    widerHeads: 10,
    pooled: true,
    size: { quantity: '40' },
  });
  const median = await studio.bench.get<SizeView>('/sizes?purpose=tips&point=0.5');
  expect(median.size).toEqual({ quantity: '35', unit: 'g' });
});

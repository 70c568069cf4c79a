/** Open bowls in a real browser: recognised on the plate, weighed out of a tub, divided, moved. */
import type { BowlView } from '../../shared/contract/bowls.js';
import { atThePage, type AtThePage } from '../support/at-the-page.js';
import { aBench, practise, type Bench } from '../support/bench-page.js';
import { faultsOf } from '../support/manager-page.js';

let bench: Bench;
beforeAll(async () => {
  bench = await aBench();
  const vessels = [
    { label: 'Black bowl', mark: 'triangle', tare: '182', brush: { quantity: '24', unit: 'g' } },
    { label: 'White bowl', mark: 'cross', tare: '121' },
  ];
  for (const { tare, ...vessel } of vessels) {
    const grams = { quantity: tare, unit: 'g' };
    await bench.studio.bench.post('/vessels', { ...vessel, tare: grams });
  }
}, 60_000);
afterAll(() => bench.close());

async function open(): Promise<AtThePage> {
  const at = atThePage(await bench.open());
  await practise(at.page);
  return at;
}

/** Sets the black bowl down, plans 60 g in it, and pours 20 g of powder and 40 g of developer. */
async function mix(at: AtThePage, purpose: string): Promise<void> {
  await at.setDown(182);
  await at.follow(/A new bowl: Black bowl, triangle, empty/);
  await at.plan(purpose, 60);
  await at.tap('Pour');
  await at.read('Its known weight, 182 g, is taken off.');
  await at.page.getByLabel('Practice hand').getByRole('button', { name: 'Pour' }).first().click();
  await at.read('Developer 20 vol');
  await at.drips();
  await at.page.getByLabel('Practice hand').getByRole('button', { name: 'Pour' }).first().click();
  await at.read('All poured. Lift the bowl.');
  await at.drips();
}

async function openBowls(): Promise<BowlView[]> {
  return (await bench.studio.owner.get<{ items: BowlView[] }>('/bowls?state=open')).items;
}

/** Waits until the service has open bowls that hold just this, in grams. */
async function hold(at: AtThePage, grams: readonly string[]): Promise<BowlView[]> {
  for (;;) {
    const bowls = await openBowls();
    const held = bowls.map(({ holds }) => holds.quantity);
    if (JSON.stringify(held.toSorted()) === JSON.stringify(grams.toSorted())) return bowls;
    await at.page.waitForTimeout(200);
  }
}

test('a bowl is recognised on the plate, and settled only with a yes', async () => {
  const at = await open();
  await mix(at, 'front');
  const [bowl] = await hold(at, ['60']);
  expect(bowl?.vesselId).not.toBeNull();
  await at.tap('Lift the bowl');
  await at.tap('To the bench');
  // 182 + 60 is what it weighed: it goes on by itself
  await at.setDown(242);
  await at.read('Back on the plate: 60 g.');
  await at.tap('Lift the bowl');
  await at.tap('To the bench');
  // 21 g have gone onto the head: offered, and what is left is asked about
  await at.setDown(221);
  await at.read('221 g on the plate. Which bowl is it?');
  expect(await faultsOf(at.page)).toEqual([]);
  await at.follow(/front, 20 vol, triangle.*held 60 g/s);
  await at.read('More than half is left. Is the brush in it?');
  expect((await openBowls()).length).toBe(1);
  await at.page.getByText('brush is in (24 g)').click();
  await at.tap('Settle');
  await at.read(/^45\sg went onto the head, 15\sg is left/);
  await hold(at, []);
  await at.page.context().close();
  await bench.studio.audit();
}, 90_000);

test('what is missing in the tub is the pour', async () => {
  const at = await open();
  await at.follow('Plan a bowl');
  await at.plan('nape', 60);
  await at.tap('Pour');
  await at.tap('Weigh it out');
  await at.read('Set the tub, tube or bottle on the scale.');
  await at.setDown(500);
  await at.read(/^Take out of it/);
  await at.tap('Take it out');
  await at.read('That is it. Take the tub, tube or bottle off the scale.');
  await at.tap('Lift the bowl');
  await at.setDown(202);
  // the bowl weighs 202 with 20 g of powder in it
  await at.read('Back on the plate: 20 g.');
  await at.drips();
  await at.tap('Press the plate');
  await at.read('Nothing has been poured yet.');
  await at.tap('Pour half');
  await at.drips();
  // a press on the plate says "that's all" of 20 g of developer
  await at.tap('Press the plate');
  const [bowl] = await hold(at, ['40']);
  expect(bowl?.pours.map(({ grams }) => grams)).toEqual(['20', '20']);
  expect(bowl?.tare).toBeNull();
  await at.page.goto(`${bench.origin}/#/bowl/${bowl?.id}/left`);
  await at.tap('It is empty');
  await hold(at, []);
  await at.page.context().close();
  await bench.studio.audit();
}, 90_000);

test('a bowl is divided in its proportion; to another client only untouched', async () => {
  const visits = [];
  for (const name of ['Ada Brook', 'Mara Sill']) {
    const { id } = await bench.studio.stylist.post<{ id: string }>('/clients', { name });
    const startedAt = new Date().toISOString();
    visits.push(await bench.studio.stylist.post('/visits', { clientId: id, startedAt }));
  }
  const at = await open();
  await mix(at, 'front');
  await at.tap('Another visit');
  await at.tap('Ada B.');
  await at.tap('Divide');
  await at.read('Divide the bowl');
  await at.tap('Lift the bowl');
  await at.read('Set the second bowl on the scale, empty.');
  await at.setDown(121);
  await at.read('Pour over what goes into it.');
  await at.page.getByLabel('Practice hand').getByRole('button', { name: 'Pour' }).first().click();
  await at.read('g poured over');
  await at.page.getByText('Mara S.').click();
  await at.read(/What has been on a brush stays with its client/);
  expect(await faultsOf(at.page)).toEqual([]);
  const key = at.page.getByRole('button', { name: 'Divide', exact: true });
  expect(await key.isDisabled()).toBe(true);
  await at.page.getByText('yes', { exact: true }).click();
  await at.read(/^Only from an untouched bowl/);
  expect(await key.isDisabled()).toBe(true);
  await at.page.getByText('no, it is untouched').click();
  await key.click();
  // 20 of 60 g: a third of 20 g powder and of 40 g developer
  const bowls = await hold(at, ['40', '20']);
  const second = bowls.find(({ holds }) => holds.quantity === '20');
  expect(second?.pours.map(({ kind, grams }) => [kind, grams])).toEqual([
    ['received', '6.667'],
    ['received', '13.333'],
  ]);
  expect(second?.visitId).not.toBe(bowls.find((each) => each !== second)?.visitId);
  const first = bowls.find((each) => each !== second);
  expect(first?.noted.map(({ code }) => code)).toContain('stays_with_client');
  await at.page.context().close();
  await bench.studio.audit();
}, 90_000);

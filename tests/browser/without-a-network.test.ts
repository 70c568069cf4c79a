/** A bench whose network goes away: it opens, weighs and settles; all of it is booked, once. */
import type { BowlView } from '../../shared/contract/bowls.js';
import {
  aBenchBehindDoor,
  beginBowl,
  byHand,
  emptyGrams,
  finishBowl,
  isDue,
  isToGo,
  poured,
  setDownEmpty,
  settleBowl,
  type BenchBehindDoor,
} from '../support/away.js';
import { faultsOf } from '../support/manager-page.js';

let bench: BenchBehindDoor;
beforeAll(async () => {
  bench = await aBenchBehindDoor();
}, 60_000);
afterEach(() => bench.door.open());
afterAll(() => bench.close());

/** 1 : 2 of 90 g at 20 vol. */
const whole = () => [
  [bench.products['Blonding powder'], '30'],
  [bench.products['Developer 20 vol'], '60'],
];

/** The one settled bowl of this purpose, as soon as the service has it. */
async function theBowlOf(purpose: string): Promise<BowlView | undefined> {
  for (let tries = 0; tries < 50; tries += 1) {
    const found = (await bench.bowls('settled')).filter((bowl) => bowl.purpose === purpose);
    if (found.length > 0) {
      expect(found).toHaveLength(1);
      return found[0];
    }
    await new Promise((go) => setTimeout(go, 200));
  }
  throw new Error(`No bowl ${purpose} was settled.`);
}

test('a whole bowl without a network, the page reloaded in the middle of a pour', async () => {
  const at = await bench.tablet();
  await bench.door.shut();
  await at.page.reload();
  await at.read('The service does not answer. The bench goes on;');
  await beginBowl(at, 'front', 90);
  await byHand(at, 'Pour half');
  await isToGo(at, 15);
  await at.page.reload();
  await at.setDown(emptyGrams + 15);
  await isToGo(at, 15);
  await byHand(at, 'Pour');
  await finishBowl(at, 9);
  expect(await bench.bowls('settled')).toEqual([]);

  await bench.door.open();
  await bench.allSent(at);
  const bowl = await theBowlOf('front');
  expect(poured(bowl)).toEqual(whole());
  expect(bowl).toMatchObject({ mixed: { quantity: '90' }, wasted: { quantity: '9' } });
  expect(bowl?.visitId).not.toBeNull();
  await bench.studio.audit();
  await at.page.context().close();
}, 120_000);

test('a tab that dies before a pour has dripped out loses nothing of it', async () => {
  const at = await bench.tablet();
  await beginBowl(at, 'nape', 90);
  await byHand(at, 'Pour');
  await isDue(at, 'Developer 20 vol');
  // still its 3 seconds for drips: it is on the sheet, and not in the outbox yet
  await at.page.close({ runBeforeUnload: false });
  const again = await bench.tab(at.page.context());
  await again.page.getByRole('link', { name: /nape/ }).click();
  await again.setDown(emptyGrams + 30);
  await finishBowl(again, 0);
  await bench.allSent(again);
  expect(poured(await theBowlOf('nape'))).toEqual(whole());
  await bench.studio.audit();
  await again.page.context().close();
}, 120_000);

test('two tabs: the second one says that the bowl is in hand, and goes on with it', async () => {
  const at = await bench.tablet();
  await beginBowl(at, 'crown', 90);
  await byHand(at, 'Pour');
  await isDue(at, 'Developer 20 vol');
  const other = await bench.tab(at.page.context());
  await other.page.getByRole('link', { name: /crown/ }).click();
  await other.page.getByRole('heading', { name: /^In hand in another tab/ }).waitFor();
  await other.tap('Go on here');
  await at.page.getByRole('heading', { name: /^In hand in another tab/ }).waitFor();
  await other.setDown(emptyGrams + 30);
  await other.read('Back on the plate: 30 g.');
  await byHand(other, 'Pour');
  await isDue(other, undefined);
  // back to the first tab: it knows what the second one poured
  await at.tap('Go on here');
  await at.page.getByRole('row', { name: /Developer 20 vol 60 60/ }).waitFor();
  await settleBowl(at, 9);
  await bench.allSent(at);
  await other.page.goto(`${bench.door.origin}/#/bench`);
  await other.read('No bowl is open.');
  const bowl = await theBowlOf('crown');
  expect(poured(bowl)).toEqual(whole());
  expect(bowl).toMatchObject({ mixed: { quantity: '90' }, wasted: { quantity: '9' } });
  await bench.studio.audit();
  await at.page.context().close();
}, 120_000);

test('two benches on one visit, one of them cut off: both end with the same', async () => {
  const near = await bench.tablet();
  await beginBowl(near, 'ends', 90);
  await byHand(near, 'Pour');
  await finishBowl(near, 9);
  const far = await bench.tablet();
  await far.page
    .getByRole('link', { name: /^Walk-in/ })
    .first()
    .click();
  await far.page.getByRole('link', { name: 'Plan a bowl', exact: true }).click();
  await far.page.getByRole('heading', { name: /^Plan a bowl/ }).waitFor();
  await bench.door.shut();
  await far.plan('gloss', 60);
  await far.tap('Pour');
  await setDownEmpty(far);
  await byHand(far, 'Pour');
  await finishBowl(far, 6);
  await bench.door.open();
  await bench.allSent(far);
  await bench.allSent(near);
  const [ends, gloss] = [await theBowlOf('ends'), await theBowlOf('gloss')];
  expect(gloss?.visitId).toBe(ends?.visitId);
  // 1 : 2 of 60 g
  expect(poured(gloss)).toEqual([
    [bench.products['Blonding powder'], '20'],
    [bench.products['Developer 20 vol'], '40'],
  ]);
  expect(gloss).toMatchObject({ mixed: { quantity: '60' }, wasted: { quantity: '6' } });
  await bench.studio.audit();
  await near.page.context().close();
  await far.page.context().close();
}, 180_000);

test('what the service refuses needs a look; what does not depend on it goes on', async () => {
  const { owner } = bench.studio;
  const at = await bench.tablet();
  await at.tap('Walk-in, named later');
  await at.page.getByRole('link', { name: 'Plan a bowl', exact: true }).click();
  await at.page.getByRole('heading', { name: /^Plan a bowl/ }).waitFor();
  const visitId = /plan\/([^/]+)$/.exec(at.page.url())?.[1] ?? '';
  await bench.allSent(at);
  await bench.door.shut();
  // somebody closes the visit meanwhile; the bench cannot know
  await owner.post(`/visits/${visitId}/close`, { closedAt: new Date().toISOString() });
  await at.page.goto(`${bench.door.origin}/#/plan/${visitId}`);
  await at.plan('fringe', 90);
  await at.tap('Pour');
  await setDownEmpty(at);
  await byHand(at, 'Pour');
  await finishBowl(at, 9);
  await at.tap('To the bench');
  await byHand(at, 'Lift the bowl');
  await beginBowl(at, 'sides', 90);
  await byHand(at, 'Pour');
  await finishBowl(at, 9);
  await bench.door.open();
  await at.page.getByRole('link', { name: '1 entry needs a look' }).click();
  await at.read('bowl fringe: opened');
  await at.read('A new bowl needs an open visit. Reopen the visit, or choose another;');
  // both pours and what was left of the refused bowl; the other bowl is booked whole
  await at.read('3 entries wait for it.');
  expect(poured(await theBowlOf('sides'))).toEqual(whole());
  expect(await faultsOf(at.page)).toEqual([]);
  // nothing leaves the tray by itself
  await at.page.reload();
  await at.read('3 entries wait for it.');
  await bench.studio.audit();

  await owner.post(`/visits/${visitId}/reopen`, {});
  await at.page.getByRole('button', { name: 'Send again: bowl fringe: opened' }).click();
  await at.read('Nothing was refused.');
  await bench.allSent(at);
  const bowl = await theBowlOf('fringe');
  expect(poured(bowl)).toEqual(whole());
  expect(bowl).toMatchObject({ visitId, wasted: { quantity: '9' } });
  await bench.studio.audit();
  await at.page.context().close();
}, 180_000);

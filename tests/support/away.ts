/** A tablet behind a door, and what is done at it while nobody answers. */
import type { BrowserContext, Page } from 'playwright-core';
import type { BowlView } from '../../shared/contract/bowls.js';
import { atThePage, type AtThePage } from './at-the-page.js';
import { aBench, practise, type Bench } from './bench-page.js';
import { doorTo, type Door } from './door.js';

/** The usual bowl of the practice scale, empty, in grams. */
export const emptyGrams = 182;

export interface BenchBehindDoor extends Bench {
  readonly door: Door;
  /** A tablet that was on the network long enough to go on without; Wren is signed in. */
  tablet(): Promise<AtThePage>;
  /** One more tab of a tablet. */
  tab(context: BrowserContext): Promise<AtThePage>;
  /** Waits until the page says that all is sent, and what needs a look is on its tray. */
  allSent(at: AtThePage): Promise<void>;
  /** Bowls of the service that are so. */
  bowls(state: BowlView['state']): Promise<BowlView[]>;
}

/** Opens service, studio, browser and a door between them. Close it in `afterAll`. */
export async function aBenchBehindDoor(): Promise<BenchBehindDoor> {
  const bench = await aBench();
  const door = await doorTo(bench.origin);
  return {
    ...bench,
    door,
    tablet: async () => {
      const page = await bench.open({ origin: door.origin });
      await isStocked(page);
      return atThePage(page);
    },
    tab: async (on) => atThePage(await bench.open({ origin: door.origin, on })),
    allSent: async (at) => {
      await at.page.goto(`${door.origin}/#/unsent`);
      await at.read('All is sent.');
    },
    bowls: async (state) =>
      (await bench.studio.owner.get<{ items: BowlView[] }>(`/bowls?state=${state}`)).items,
    close: async () => {
      await door.close();
      await bench.close();
    },
  };
}

/** Waits until the page and the answers it needs are on the device. */
export async function isStocked(page: Page): Promise<void> {
  await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  await page.waitForFunction(keptAnswers);
}

/** Products, vessels, purposes, studio, names, formulas, visits, open bowls. */
const keptAnswers = `(async () => {
  const [found] = await indexedDB.databases();
  if (!found) return false;
  const database = await new Promise((done) => {
    indexedDB.open(found.name).onsuccess = ({ target }) => done(target.result);
  });
  const kept = await new Promise((done) => {
    const asked = database.transaction('answers').objectStore('answers').count();
    asked.onsuccess = () => done(asked.result);
  });
  database.close();
  return kept >= 8;
})()`;

/** Plans 1 : 2 at 20 vol for a walk-in, sets the bowl down; powder is due. */
export async function beginBowl(at: AtThePage, purpose: string, grams: number): Promise<void> {
  await at.tap('Walk-in, named later');
  await at.page.getByRole('link', { name: 'Plan a bowl', exact: true }).click();
  await at.page.getByRole('heading', { name: /^Plan a bowl/ }).waitFor();
  await at.plan(purpose, grams);
  await at.tap('Pour');
  await setDownEmpty(at);
}

/** Sets the empty bowl of a planned one down on the practice scale; powder is due. */
export async function setDownEmpty(at: AtThePage): Promise<void> {
  await choosePractice(at);
  await at.setDown(emptyGrams);
  await at.read('Empty bowl: 182 g, taken off.');
}

/** The practice scale; a tablet that has it already keeps it. */
async function choosePractice(at: AtThePage): Promise<void> {
  const chosen = at.page.getByRole('button', { name: /^Scale: practice/ });
  const choosing = at.page.getByRole('button', { name: 'Choose how this bench weighs.' });
  await chosen.or(choosing).first().waitFor();
  if (await choosing.isVisible()) await practise(at.page);
}

/** Waits until a product is due, or nothing more is. */
export async function isDue(at: AtThePage, product: string | undefined): Promise<void> {
  if (product === undefined) await at.read('All poured. Lift the bowl.');
  else await at.page.locator('.figure-line .what', { hasText: product }).waitFor();
}

/** Waits until so many grams are to go. */
export async function isToGo(at: AtThePage, grams: number): Promise<void> {
  await at.page.locator('.to-go .large', { hasText: new RegExp(`^${grams}$`) }).waitFor();
}

/** Lets the practice hand do something, by the name of its key. */
export function byHand(at: AtThePage, name: string): Promise<void> {
  return at.page
    .getByLabel('Practice hand')
    .getByRole('button', { name, exact: true })
    .first()
    .click();
}

/** Pours the developer too, weighs what is left and settles. */
export async function finishBowl(at: AtThePage, leftGrams: number): Promise<void> {
  await isDue(at, 'Developer 20 vol');
  await at.drips();
  await byHand(at, 'Pour');
  await isDue(at, undefined);
  await at.drips();
  await settleBowl(at, leftGrams);
}

/** Weighs what is left of the bowl on the plate, and settles. */
export async function settleBowl(at: AtThePage, leftGrams: number): Promise<void> {
  await at.page.getByRole('button', { name: 'What’s left' }).click();
  await byHand(at, 'Lift the bowl');
  await at.setDown(emptyGrams + leftGrams);
  await at.tap('Weigh it');
  await at.page.getByText('brush is out').click();
  await at.tap('Settle');
  await at.page.getByRole('heading', { name: /^Settled/ }).waitFor();
}

/** What went into a bowl, by product. */
export function poured(bowl: BowlView | undefined): (readonly [string, string])[] {
  const standing = (bowl?.pours ?? []).filter(({ reversed }) => !reversed);
  return standing.map(({ productId, grams }) => [productId, grams] as const);
}

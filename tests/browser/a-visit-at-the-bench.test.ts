/** A visit at the bench in a real browser: asked first, as last time, one caution, kept formula. */
import { randomUUID } from 'node:crypto';
import type { BowlView } from '../../shared/contract/bowls.js';
import type { FormulaView } from '../../shared/contract/catalogue.js';
import { atThePage, type AtThePage } from '../support/at-the-page.js';
import { aBench, type Bench } from '../support/bench-page.js';
import { faultsOf } from '../support/manager-page.js';

let bench: Bench;
let clientId: string;
let visitId: string;

const daysAgo = (days: number, minutes = 0) =>
  new Date(Date.now() - days * 86_400_000 + minutes * 60_000).toISOString();

/** A visit so many days ago whose bowl of 1 : 2 took so many grams of 60. */
async function visitBefore(days: number, applied: number): Promise<void> {
  const { owner } = bench.studio;
  const visit = await owner.post<{ id: string }>('/visits', { clientId, startedAt: daysAgo(days) });
  const plan = {
    ...{ ratio: '1:2', powders: [{ productId: bench.products['Blonding powder'] }] },
    ...{ developers: [bench.products['Developer 20 vol']], strength: '20' },
    ...{ size: { total: { quantity: '60', unit: 'g' } }, contact: 'off-scalp' },
  };
  const pour = (name: string, quantity: string) => ({
    ...{ id: randomUUID(), productId: bench.products[name], quantity, unit: 'g' },
    pouredAt: daysAgo(days, 10),
  });
  await owner.post('/bowls/record', {
    id: randomUUID(),
    bowl: {
      ...{ id: randomUUID(), visitId: visit.id, purpose: 'front', contact: 'off-scalp', plan },
      plannedAt: daysAgo(days, 5),
    },
    pours: [pour('Blonding powder', '20'), pour('Developer 20 vol', '40')],
    settlement: {
      ...{ id: randomUUID(), leftover: { quantity: `${60 - applied}`, unit: 'g' } },
      settledAt: daysAgo(days, 40),
    },
  });
}

beforeAll(async () => {
  bench = await aBench();
  const { stylist } = bench.studio;
  const nextTime = 'start the nape with 10 vol';
  const client = { name: 'Ada Brook', nextTime, sixteenOrOlder: true };
  clientId = (await stylist.post<{ id: string }>('/clients', client)).id;
  await visitBefore(60, 48);
  await visitBefore(30, 54);
  const visit = { clientId, startedAt: daysAgo(0, -1) };
  visitId = (await stylist.post<{ id: string }>('/visits', visit)).id;
}, 60_000);
afterAll(() => bench.close());

/** Answers one of the questions. */
async function answer(at: AtThePage, question: RegExp, said: string): Promise<void> {
  await at.page
    .getByRole('radiogroup', { name: question })
    .getByText(said, { exact: true })
    .click();
}

/** Types what the scale shows and enters it. */
async function type(at: AtThePage, total: string): Promise<void> {
  for (const digit of total) await at.tap(digit);
  await at.tap('Enter');
}

async function bowlOf(id: string): Promise<BowlView> {
  return bench.studio.owner.get<BowlView>(`/bowls/${id}`);
}

const bowlAt = (at: AtThePage) => /#\/bowl\/([0-9a-f-]{36})/.exec(at.page.url())?.[1] ?? '';

/** Waits until something is so at the service. */
async function until(at: AtThePage, isSo: () => Promise<boolean>): Promise<void> {
  while (!(await isSo())) await at.page.waitForTimeout(200);
}

test('asked, as last time, by the keypad alone, one caution a visit, a formula kept', async () => {
  const at = atThePage(await bench.open());
  await at.follow('Ada B.');
  await at.read('start the nape with 10 vol');
  await at.read('the last 2 like this took 48 g to 54 g; plan 55 g');
  await answer(at, /^The scalp.*not asked yet$/, 'yes');
  await at.read(/A sensitive, irritated or damaged scalp, or a rash, is noted/);
  await answer(at, /^Henna or metallic salts/, 'no');
  expect(await at.page.getByRole('radiogroup', { name: /answered$/ }).count()).toBe(3);
  expect(await faultsOf(at.page)).toEqual([]);
  await at.tap('As last time');
  await at.tap('As last time');
  const mix = at.page.getByRole('button', { name: /^mix now: front/ });
  await mix.nth(1).waitFor();
  await at.page
    .getByRole('button', { name: /^5 g less: front/ })
    .first()
    .click();
  await at.read(/Blonding powder 16\.7\sg, Developer 20 vol 33\.3\sg/);
  await mix.first().click();

  // the worst interrupts, and goes with the keyboard alone
  const dialog = at.page.getByRole('alertdialog');
  await dialog.waitFor();
  await at.page.keyboard.press('Escape');
  expect(await dialog.innerText()).toContain('sensitive, irritated or damaged scalp');
  await at.page.keyboard.press('Enter');
  await dialog.waitFor({ state: 'detached' });
  await at.read('First powder of the day');
  expect(await faultsOf(at.page)).toEqual([]);
  await at.tap('Noted');
  await at.tap('Choose how this bench weighs.');
  await at.tap('keypad: type what the scale shows');
  await type(at, '17');
  await at.read(/^Next: Developer 20 vol, 33\.3\sg\.|20 vol/);
  await type(at, '50');
  await at.read('All poured. Lift the bowl.');
  const first = bowlAt(at);
  await at.tap('What’s left');
  await type(at, '4');
  await at.page.getByText('brush is out').click();
  await at.tap('Settle');
  await at.read(/^46\sg went onto the head, 4\sg is left/);
  await until(at, async () => (await bowlOf(first)).state === 'settled');
  const bowl = await bowlOf(first);
  expect(bowl.pours.map(({ grams }) => grams)).toEqual(['17', '33']);
  const noted = bowl.noted.map(({ code }) => code);
  expect(noted.toSorted()).toEqual(['gloves', 'powder_dust', 'scalp_not_sound']);

  // the second bowl of the visit says it as a line, and is called off
  await at.tap('To the bench');
  await at.follow('Ada B.');
  await mix.first().click();
  await at.read(/A sensitive, irritated or damaged scalp, or a rash, is noted/);
  expect(await dialog.count()).toBe(0);
  await at.tap('Call it off');

  await at.follow('Ada B.');
  await at.tap('Keep as a formula: front');
  await at.page.getByRole('textbox', { name: 'Minutes on the hair' }).fill('35');
  await at.page.getByRole('textbox', { name: 'Next time' }).fill('leave the ends');
  await at.tap('Keep it');
  await at.read('Kept.');
  const formulas = () =>
    bench.studio.stylist.get<{ items: FormulaView[] }>(`/formulas?clientId=${clientId}`);
  await until(at, async () => (await formulas()).items.length === 1);
  const [formula] = (await formulas()).items;
  expect(formula).toMatchObject({ name: 'front', minutesOnHair: 35, nextTime: 'leave the ends' });
  // 17 + 33 g were poured, 46 g of them applied: that is the size to begin with
  expect(formula?.poured).toMatchObject({
    ...{ ratio: '1:1.941', size: { total: { quantity: '46', unit: 'g' } } },
  });
  await until(at, async () => {
    const client = await bench.studio.stylist.get<{ nextTime: string }>(`/clients/${clientId}`);
    return client.nextTime === 'leave the ends';
  });
  const kept = await bench.studio.service.database.asOwner<{ scalp_sound: boolean | null }>(
    'select scalp_sound from visit_answer where visit_id = $1 order by seq',
    [visitId],
  );
  expect(kept.map((each) => each.scalp_sound)).toEqual([false, null]);
  await at.page.context().close();
  await bench.studio.audit();
}, 90_000);

test('the page of a visit has no fault that axe can find, dark and on a desktop', async () => {
  const at = atThePage(await bench.open({ dark: true, width: 1440, height: 900 }));
  await at.follow('Ada B.');
  await at.read('Before the first bowl');
  expect(await faultsOf(at.page)).toEqual([]);
  await at.page.context().close();
}, 60_000);

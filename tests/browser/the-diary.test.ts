/** The diary in a real browser: read over, its words told, days closed, a booked visit begun. */
import type { Page } from 'playwright-core';
import { aManagerAtPage, faultsOf, type ManagerAtPage } from '../support/manager-page.js';

let studio: ManagerAtPage;
beforeAll(async () => {
  studio = await aManagerAtPage();
}, 60_000);
afterAll(() => studio.close());

/** Two bookings of today, one with words that mean nothing yet. */
function diary(): string {
  const today = new Date().toISOString().slice(0, 10);
  return `start,what,who,id\n${today},Lights,Ada Brook,1\n${today},Root retouch,Bo Vale,2\n`;
}

async function openDiary(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Ordering' }).click();
  await page.getByRole('link', { name: 'Diary' }).click();
  await page.getByRole('heading', { name: 'Read the diary' }).waitFor();
}

test.each([
  ['light', false, 1024],
  ['dark', true, 1440],
])(
  'in %s axe finds no fault on the diary’s pages',
  async (_, dark, width) => {
    const page = await studio.openAsManager({ dark, width });
    await openDiary(page);
    await page.getByLabel('Or paste its text here').fill(diary());
    await page.getByRole('button', { name: 'Look at it first' }).click();
    await page.getByRole('rowheader').first().waitFor();
    const found: Record<string, string[]> = { read: await faultsOf(page) };
    await page.getByText('Its words', { exact: true }).click();
    await page.getByRole('heading', { name: 'A new rule' }).waitFor();
    found['words'] = await faultsOf(page);
    await page.getByText('Closed days', { exact: true }).click();
    await page.getByRole('button', { name: 'Close these days' }).waitFor();
    found['closed'] = await faultsOf(page);
    await page.context().close();
    expect(found).toEqual({ read: [], words: [], closed: [] });
  },
  60_000,
);

test('a diary is read over, a word is told by one tap, and the visit begins from it', async () => {
  const page = await studio.openAsManager();
  await openDiary(page);
  await page.getByRole('button', { name: 'Look at it first' }).click();
  await page.getByText('Choose a file or paste its text first.').waitFor();
  const field = page.getByLabel('Or paste its text here');
  await field.fill('start,what\nTuesday,Lights\n');
  await page.getByRole('button', { name: 'Look at it first' }).click();
  await page.getByText(/^Line 2: “Tuesday” is no time/).waitFor();
  expect(await field.inputValue()).toContain('Tuesday');
  await field.fill(diary());
  await page.getByRole('button', { name: 'Look at it first' }).click();
  await page.getByText(/2 new/).waitFor();
  await page.getByRole('button', { name: 'Take it over' }).click();
  await page.getByText('Taken over.').waitFor();
  await page.getByRole('button', { name: 'Say what the words mean' }).click();
  await page.getByRole('button', { name: '“Root retouch” means' }).click();
  await page.getByRole('menuitem', { name: 'Lights' }).click();
  await page.getByText('Every word of the diary is known.').waitFor();
  await page.getByRole('link', { name: 'Bench' }).click();
  await page.getByRole('button', { name: /^Bo V\. is here/ }).click();
  await page.waitForURL(/#\/visit\//);
  const { items } = await studio.studio.manager.get<{ items: { state: string }[] }>('/bookings');
  expect(items.map(({ state }) => state).sort()).toEqual(['booked', 'here']);
  await studio.studio.audit();
}, 60_000);

test('days without a product are marked on its page, and taken back', async () => {
  const page = await studio.openAsManager();
  await page.getByRole('link', { name: 'Ordering' }).click();
  await page.getByRole('link', { name: 'What will be used' }).click();
  await page.getByRole('link', { name: 'Blonding powder' }).click();
  await page.getByRole('button', { name: 'Mark these days' }).click();
  await page.getByText('Choose the first day without it.').waitFor();
  await page.getByLabel('There was none from').fill('2026-02-03');
  await page.getByLabel('until', { exact: true }).fill('2026-02-01');
  await page.getByRole('button', { name: 'Mark these days' }).click();
  await page.getByText(/there is no day/).waitFor();
  await page.getByLabel('until', { exact: true }).fill('2026-02-05');
  await page.getByRole('button', { name: 'Mark these days' }).click();
  const back = page.getByRole('button', { name: /^It was there after all: 3 February 2026/ });
  await back.waitFor();
  expect(await faultsOf(page)).toEqual([]);
  await back.click();
  await back.waitFor({ state: 'detached' });
}, 60_000);

/** A whole bowl in a real browser: planned, poured on the practice scale with too much, settled. */
import type { Page } from 'playwright-core';
import type { BowlView } from '../../shared/contract/bowls.js';
import { aBench, planAtTheBench, practise, type Bench } from '../support/bench-page.js';

let bench: Bench;
beforeAll(async () => {
  bench = await aBench();
}, 60_000);
afterAll(() => bench.close());

/** The figures of the page under the beam, a row a line. */
async function rows(page: Page): Promise<string[][]> {
  const cells = await page.locator('table.book tbody tr').all();
  return Promise.all(
    cells.map(async (row) => {
      const texts = await row.locator('th, td:not(.act)').allInnerTexts();
      return texts.map((text) => text.replace('now', '').trim());
    }),
  );
}

const hand = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const said = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();

test('6 g too much powder: the developer follows the offer that is chosen', async () => {
  const page = await bench.open();
  await planAtTheBench(page, 13);
  await hand(page, 'Pour');
  // 1 : 2 of 90 g; 13 vol lies in the middle of 6 and 20
  await practise(page);
  expect(await rows(page)).toEqual([
    ['Blonding powder', '30', '', ''],
    ['Developer 6 vol', '30', '', ''],
    ['Developer 20 vol', '30', '', ''],
  ]);
  await hand(page, 'Set the bowl down');
  await said(page, 'Empty bowl: 182 g, taken off.');
  await hand(page, 'Pour 6 g too much');
  await said(page, 'Too much. What now?');
  await page.getByText('Grow to 108 g').click();
  // T = 36 / (30 / 90) = 108: 36 g of each developer
  expect(await rows(page)).toEqual([
    ['Blonding powder', '30', '36', '6 over'],
    ['Developer 6 vol', '36', '', ''],
    ['Developer 20 vol', '36', '', ''],
  ]);

  const height = await page.evaluate<number>(digitHeight);
  expect(height).toBeGreaterThanOrEqual((2.5 / 2.54) * 96);

  await page.waitForTimeout(3100); // what drips in the first 3 s belongs to the powder
  await hand(page, 'Pour');
  await said(page, 'Developer 20 vol');
  await page.locator('.bottle-strength b', { hasText: '20' }).waitFor();
  await page.waitForTimeout(3100);
  await hand(page, 'Pour');
  await said(page, 'All poured. Lift the bowl.');
  await hand(page, 'A drop more');
  await said(page, '1 g dripped after it and belong to it.');

  await page.getByRole('button', { name: 'What’s left' }).click();
  await hand(page, 'Lift the bowl');
  await hand(page, 'Set it down with a tenth left');
  await page.getByRole('button', { name: 'Weigh it' }).click();
  await page.getByText('brush is out').click();
  await hand(page, 'Settle');
  await said(page, 'Settled');
  await page.locator('table.book').waitFor();

  const { items } = await bench.studio.owner.get<{ items: BowlView[] }>('/bowls?state=settled');
  const [bowl] = items;
  expect(items).toHaveLength(1);
  // the drop belongs to the pour before it
  expect(bowl?.pours.map(({ productId, grams }) => [productId, grams])).toEqual([
    [bench.products['Blonding powder'], '36'],
    [bench.products['Developer 6 vol'], '36'],
    [bench.products['Developer 20 vol'], '37'],
  ]);
  // a tenth of 109 g was set down again
  expect(bowl).toMatchObject({ mixed: { quantity: '109' }, wasted: { quantity: '11' } });
  expect(bowl).toMatchObject({ purpose: 'front', mark: 'triangle', why: 'left over' });
  expect(bowl?.tare).toEqual({ quantity: '182', unit: 'g' });
  await bench.studio.audit();
}, 80_000);

/** Height in CSS pixels of a digit of the figure to go, as it is drawn. */
const digitHeight = `(() => {
  const figure = document.querySelector('.to-go .large');
  const style = getComputedStyle(figure);
  const context = document.createElement('canvas').getContext('2d');
  context.font = style.fontWeight + ' ' + style.fontSize + ' ' + style.fontFamily;
  return context.measureText('3').actualBoundingBoxAscent;
})()`;

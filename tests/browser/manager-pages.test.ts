/** The manager's pages in a real browser: a visit is priced, closed and shown to its client. */
import type { Page } from 'playwright-core';
import { aManagerAtPage, faultsOf, manager, type ManagerAtPage } from '../support/manager-page.js';

let studio: ManagerAtPage;
beforeAll(async () => {
  studio = await aManagerAtPage();
}, 60_000);
afterAll(() => studio.close());

/** Amounts of the sheet by what they are of. */
async function amounts(page: Page): Promise<Record<string, string>> {
  const rows = await page.locator('table.account tbody tr:not(.group)').all();
  const read = rows.map(async (row) => {
    const name = (await row.locator('th').innerText()).split('\n')[0] ?? '';
    return [name.trim(), await row.locator('td').first().innerText()] as const;
  });
  return Object.fromEntries(await Promise.all(read));
}

async function openSheet(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Pricing' }).click();
  await page.getByRole('heading', { name: /^Pricing/ }).waitFor();
  await page.getByRole('link', { name: 'Walk-in' }).click();
  await page.getByRole('heading', { name: 'Price sheet' }).waitFor();
}

describe.each([
  ['light', false, 1024],
  ['dark', true, 1440],
])('in %s', (_, dark, width) => {
  test('axe finds no fault on the pages of ordering', async () => {
    const page = await studio.openAsManager({ dark, width });
    const found: Record<string, string[]> = {};
    await page.getByRole('link', { name: 'Ordering' }).click();
    await page.getByRole('heading', { name: /^Slip for Causeway/ }).waitFor();
    await page.getByRole('button', { name: 'Ask for another plan' }).click();
    found['plan'] = await faultsOf(page);
    await page.getByRole('link', { name: 'What will be used' }).click();
    await page.getByRole('link', { name: 'Blonding powder' }).click();
    await page.getByRole('heading', { name: 'How this is known' }).waitFor();
    found['forecast'] = await faultsOf(page);
    await page.getByRole('link', { name: 'All products' }).click();
    await page.getByRole('link', { name: 'Blonding powder' }).waitFor();
    found['forecasts'] = await faultsOf(page);
    await page.getByRole('link', { name: 'Orders', exact: true }).click();
    await page.getByRole('heading', { name: 'Orders' }).waitFor();
    found['orders'] = await faultsOf(page);
    await page.context().close();
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  }, 60_000);

  test('axe finds no fault on quotes, earnings and rules', async () => {
    const page = await studio.openAsManager({ dark, width });
    const found: Record<string, string[]> = {};
    await page.getByRole('link', { name: 'Pricing' }).click();
    await page.getByRole('link', { name: 'Quotes' }).click();
    await page.getByText('Lights', { exact: true }).click();
    await page.getByRole('button', { name: 'Give this quote' }).waitFor();
    found['quotes'] = await faultsOf(page);
    await page.getByRole('link', { name: 'Earnings' }).click();
    await page.getByRole('heading', { name: 'Product of no client’s visit' }).waitFor();
    found['earnings'] = await faultsOf(page);
    await page.getByRole('link', { name: 'Rules of price' }).click();
    await page.getByRole('heading', { name: 'Card fee' }).waitFor();
    found['rules'] = await faultsOf(page);
    await page.context().close();
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  }, 60_000);

  test('axe finds no fault on the pages of money', async () => {
    const page = await studio.openAsManager({ dark, width });
    const found: Record<string, string[]> = {};
    await page.getByRole('link', { name: 'Pricing' }).click();
    await page.getByRole('heading', { name: /^Pricing/ }).waitFor();
    await page.getByRole('link', { name: 'Walk-in' }).waitFor();
    found['visits'] = await faultsOf(page);
    await page.getByRole('link', { name: 'Walk-in' }).click();
    await page.getByText(/Worked out as if|Final, sheet/).waitFor();
    found['sheet'] = await faultsOf(page);
    await page.getByRole('button', { name: 'Show the client' }).click();
    await page.getByRole('button', { name: 'Back to work' }).waitFor();
    found['client'] = await faultsOf(page);
    await page.context().close();
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  }, 60_000);
});

test('a visit is priced, closed with 10 % off and a tip, and goes to the till', async () => {
  const page = await studio.openAsManager();
  await openSheet(page);
  // 123.00 with 23 % within: 100.00 net. Product: 180 g at 20.00 for 2000 g is 1.80.
  // Time 60 min at 30.00, chair 120 min at 0.25; card 1 % of 123.00.
  expect(await amounts(page)).toMatchObject({
    Lights: '€123.00',
    Net: '€100.00',
    VAT: '€23.00',
    'Card fee': '€1.23',
    [manager.name]: '€30.00',
    Chair: '€30.00',
    Contribution: '€66.97',
    Profit: '€36.97',
    Margin: '37 %',
  });
  await page.getByText('a share, %').click();
  await page.getByLabel('Discount in %').fill('ten');
  await page.getByText('Type a figure such as 65 or 65.5.').waitFor();
  expect(await page.getByRole('button', { name: 'Close the visit' }).isDisabled()).toBe(true);
  await page.getByLabel('Discount in %').fill('10');
  await page.getByLabel('Tip, EUR').fill('5');
  await page.getByRole('button', { name: '5 less: Foil' }).click();
  // 123.00 less 10 % is 110.70, and the tip beside it
  await page.getByText('To the till: €115.70').waitFor();
  await page.getByRole('button', { name: 'Close the visit' }).click();
  await page.getByText(/^Final, sheet 1/).waitFor();
  expect(await amounts(page)).toMatchObject({ Gross: '€110.70', Net: '€90.00', Foil: '€1.25' });
  await studio.studio.audit();
}, 60_000);

test('a price for a margin of half stands beside the other two measures', async () => {
  const page = await studio.openAsManager();
  await openSheet(page);
  await page.getByLabel('Margin, % of net').fill('50');
  await page.getByRole('button', { name: 'Work it out' }).click();
  // product 1.80, foils 1.25, 30 and 30; net = 63.05 / (1 - 0.5 - 0.01 x 1.23) = 129.28,
  // with tax 159.01 and what rounding up adds
  await page.getByText(/^Price of this visit: €159\.0/).waitFor();
  await page.getByLabel('Margin, % of net').fill('99.5');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByText(/cannot be reached at any price/).waitFor();
}, 60_000);

test('an order slip is changed by the keyboard, written, and read out', async () => {
  const page = await studio.openAsManager();
  await page.getByRole('link', { name: 'Ordering' }).click();
  const row = page.getByRole('row', { name: /^Gloves/ });
  await row.getByText(/^One pack fewer: one sealed pack fewer than wanted/).waitFor();
  expect(await row.locator('output').innerText()).toBe('2');
  await row.getByRole('button', { name: 'One pack more of Gloves' }).focus();
  await page.keyboard.press('Enter');
  await row.getByText('Changed by hand to 3.').waitFor();
  // 3 boxes of 9.00, and freight
  await page.getByRole('rowheader', { name: 'goods €27.00, freight €4.00' }).waitFor();
  await page.getByRole('button', { name: 'Write the order to Causeway Supply' }).click();
  await page.getByRole('heading', { name: /^Order \d+ Causeway Supply/ }).waitFor();
  await page.getByRole('checkbox', { name: 'Said on the phone: Gloves' }).check();
  const { items } = await studio.studio.manager.get<{ items: object[] }>('/orders');
  expect(items).toMatchObject([{ goods: '27.00', state: 'sent', lines: [{ packs: 3 }] }]);
  await page.getByRole('button', { name: 'Cancel what has not come' }).click();
  await page.getByRole('button', { name: 'Cancel it' }).click();
  await page.getByRole('heading', { name: /cancelled$/ }).waitFor();
}, 60_000);

test('what a client is shown has no cost, and only a PIN leads out of it', async () => {
  const page = await studio.openAsManager();
  await openSheet(page);
  await page.getByRole('button', { name: 'Show the client' }).click();
  await page.getByRole('button', { name: 'Back to work' }).waitFor();
  const shown = await page.locator('body').innerText();
  expect(shown).toContain('Lights');
  expect(shown).not.toMatch(/margin|profit|contribution|Wren|Ines|left|waste/i);
  await page.goBack();
  await page.reload();
  await page.getByRole('button', { name: 'Back to work' }).click();
  await page.keyboard.type('0000');
  await page.keyboard.press('Enter');
  await page.getByText(/This PIN is not right/).waitFor();
  expect(await page.getByRole('link', { name: 'Pricing' }).count()).toBe(0);
  await page.keyboard.type(manager.pin);
  await page.keyboard.press('Enter');
  await page.getByRole('link', { name: 'Pricing' }).waitFor();
}, 60_000);

test('hands that took over the bench without a PIN are not shown money', async () => {
  const page = await studio.openAsManager();
  await page.getByRole('button', { name: manager.name }).click();
  await page.getByRole('menuitem', { name: 'Wren Tallis' }).click();
  await page.getByRole('link', { name: 'Pricing' }).click();
  await page.getByText(`Money is shown to ${manager.name}`).waitFor();
  expect(await page.getByRole('table').count()).toBe(0);
}, 60_000);

test('a stylist quotes a price and is shown no sheet, no earnings and no orders', async () => {
  const page = await studio.open();
  expect(await page.getByRole('link', { name: 'Ordering' }).count()).toBe(0);
  await page.getByRole('link', { name: 'Pricing' }).click();
  await page.getByText('Lights', { exact: true }).click();
  await page.getByRole('heading', { name: 'Lights' }).waitFor();
  expect(await page.getByRole('link', { name: 'Earnings' }).count()).toBe(0);
  await page.evaluate(`location.hash = '#/pricing/earnings'`);
  await page.getByRole('heading', { name: 'Quotes', exact: true }).waitFor();
  expect(await page.getByText('contribution').count()).toBe(0);
}, 60_000);

test('a quote is given, shown to the client with what is in it, and left by PIN', async () => {
  const page = await studio.openAsManager();
  await page.getByRole('link', { name: 'Pricing' }).click();
  await page.getByRole('link', { name: 'Quotes' }).click();
  await page.getByText('Lights', { exact: true }).click();
  await page.getByRole('button', { name: 'Give this quote' }).click();
  await page.getByRole('button', { name: 'Show the client: Lights' }).click();
  await page.getByText(/^We ask you before going above/).waitFor();
  await page.getByText(/^This holds until /).waitFor();
  const shown = await page.locator('body').innerText();
  expect(shown).toContain('about 120 minutes');
  expect(shown).not.toMatch(/margin|cost|contribution|Ines|Wren/i);
}, 60_000);

test('rules of price are read by a manager, changed by the owner', async () => {
  const page = await studio.openAsManager();
  await page.getByRole('link', { name: 'Pricing' }).click();
  await page.getByRole('link', { name: 'Rules of price' }).click();
  await page.getByText('Only the owner changes these.').waitFor();
  expect(await page.getByLabel('Tax 1 in %').inputValue()).toBe('23');
  expect(await page.getByLabel('Tax 1 in %').isDisabled()).toBe(true);
  await page.context().close();
  const owners = await studio.openAsOwner();
  await owners.getByRole('link', { name: 'Pricing' }).click();
  await owners.getByRole('link', { name: 'Rules of price' }).click();
  await owners.getByLabel('Costs a month, EUR').fill('4680');
  await owners.getByLabel('Chairs', { exact: true }).fill('3');
  await owners.getByLabel('Open hours a week').fill('40');
  await owners.getByLabel('Of which in use, %').fill('50');
  // 4680 x 12 / 52 = 1080 a week; 3 x 40 x 60 x half = 3600 minutes
  await owners.getByText('€0.30 a minute').waitFor();
  await owners.getByRole('button', { name: 'Take it' }).click();
  await owners.getByLabel('Tax 1 in %').fill('');
  await owners.getByRole('button', { name: 'Keep these rules' }).click();
  await owners.getByText(/^Nothing is kept yet: a rate is missing/).waitFor();
  await owners.getByLabel('Tax 1 in %').fill('23');
  await owners.getByRole('button', { name: 'Keep these rules' }).click();
  await owners.getByText('Kept.').waitFor();
  const { pricing } = await studio.studio.owner.get<{ pricing: object }>('/studio');
  expect(pricing).toMatchObject({
    overheadPerChairMinute: '0.3',
    taxes: [{ label: 'VAT', rate: '0.23' }],
    cardFee: { share: '0.01', fixed: '0', onTip: 'studio' },
    onTop: [],
  });
}, 60_000);

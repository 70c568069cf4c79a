/** A tablet in a real browser: told how to trust the computer, then at the bench over https. */
import { createHash, X509Certificate } from 'node:crypto';
import type { Browser, Page } from 'playwright-core';
import { hearsReadings } from '../../shared/scales/wire.js';
import { aBench, type Bench } from '../support/bench-page.js';
import { openBrowser } from '../support/browser.js';
import { faultsOf } from '../support/manager-page.js';
import { openTabletDoor, type TestDoor } from '../support/tablet-door.js';

let bench: Bench;
let door: TestDoor;
let trusting: Browser;

/** Stands in for installing the root: chains that hold this key are believed. */
function believing(certificate: string): string {
  const key = new X509Certificate(certificate).publicKey.export({ type: 'spki', format: 'der' });
  const hash = createHash('sha256').update(key).digest('base64');
  return `--ignore-certificate-errors-spki-list=${hash}`;
}

beforeAll(async () => {
  bench = await aBench();
  door = await openTabletDoor(bench.studio.service);
  trusting = await openBrowser(believing(door.leaf));
}, 60_000);
afterAll(async () => {
  await trusting.close();
  await door.close();
  await bench.close();
});

const plain = () => `http://127.0.0.1:${door.port}`;
const secure = () => `https://127.0.0.1:${door.port}`;

async function onTablet(browser: Browser, options: { dark?: boolean } = {}): Promise<Page> {
  const colorScheme = options.dark ? 'dark' : 'light';
  const viewport = { width: 1024, height: 768 };
  const userAgent =
    'Mozilla/5.0 (Linux; Android 15; Tablet) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/147.0 ' +
    'Safari/537.36';
  const context = await browser.newContext({ viewport, colorScheme, userAgent, locale: 'en-GB' });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  return page;
}

test.each([
  ['light', false],
  ['dark', true],
])(
  'the page about trust, in %s: what to do on this device first, no fault for axe',
  async (_, dark) => {
    const page = await onTablet(bench.browser, { dark });
    await page.goto(`${plain()}/`);
    await page.getByText('This device does not trust the computer yet.').waitFor();
    const open = page.locator('details[open]');
    expect(await open.locator('summary').allInnerTexts()).toEqual(['Android tablet or phone']);
    expect(await page.locator('summary').first().innerText()).toBe('Android tablet or phone');
    await page.getByText(new X509Certificate(door.root).fingerprint256).waitFor();
    const loading = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Download the certificate' }).click();
    expect((await loading).suggestedFilename()).toBe('bowlworth-root.crt');
    expect(await faultsOf(page)).toEqual([]);
    await page.context().close();
  },
  60_000,
);

test('a browser that does not trust the computer does not open its page over https', async () => {
  const page = await onTablet(bench.browser);
  await expect(page.goto(`${secure()}/`)).rejects.toThrow(/ERR_CERT_AUTHORITY_INVALID/);
  await page.context().close();
}, 60_000);

test('once trusted: from the code to the bench, with a scale, a worker and cookies', async () => {
  const page = await onTablet(trusting);
  await page.goto(`${plain()}/#device=${bench.token}`);
  await page.getByText('This device trusts the computer.').waitFor();
  await page.getByRole('link', { name: 'Open Bowlworth' }).click();
  await page.getByRole('button', { name: 'Wren Tallis' }).click();
  await page.keyboard.type('3333');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /^Today/ }).waitFor();
  expect(new URL(page.url()).origin).toBe(secure());
  expect(await page.evaluate('isSecureContext')).toBe(true);
  await page.evaluate('navigator.serviceWorker.ready');
  const cookies = await page.context().cookies();
  expect(cookies.map(({ name, secure: only, httpOnly }) => [name, only, httpOnly]).sort()).toEqual([
    ['__Host-bowlworth_device', true, true],
    ['__Host-bowlworth_session', true, true],
  ]);
  const benchId = (await bench.studio.owner.post<{ id: string }>('/benches', { name: 'Door' })).id;
  const heard = await page.evaluate<string>(`new Promise((done) => {
    const socket = new WebSocket('wss://' + location.host + '/api/v1/scales/${benchId}',
      '${hearsReadings}');
    socket.onmessage = ({ data }) => done(data);
    socket.onclose = ({ code }) => done('closed ' + code);
  })`);
  expect(JSON.parse(heard)).toMatchObject({ type: 'lost' });
  await page.context().close();
}, 60_000);

test('a browser signed in without https stays so beside one that came over https', async () => {
  const page = await onTablet(trusting);
  for (const origin of [secure(), bench.origin]) {
    await page.goto(`${origin}/#device=${bench.token}`);
    await page.getByRole('button', { name: 'Wren Tallis' }).click();
    await page.keyboard.type('3333');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Today/ }).waitFor();
  }
  await page.context().close();
}, 60_000);

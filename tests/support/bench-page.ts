/** A bench in a real browser against a real service: opened, signed in, a scale to practise on. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { instantFrom } from '../../src/platform/clock.js';
import { builtPage } from '../../src/platform/http/page.js';
import { openBrowser } from './browser.js';
import { aService, type TestStudio } from './studio.js';

/** The people and products that a page is tried with. */
export interface Bench {
  readonly studio: TestStudio;
  readonly browser: Browser;
  /** Token of the device. */
  readonly token: string;
  readonly origin: string;
  /** Ids of products by their names. */
  readonly products: Readonly<Record<string, string>>;
  /** A fresh page, signed in as Wren Tallis, on a tablet unless told. */
  open(options?: OpenOptions): Promise<Page>;
  close(): Promise<void>;
}

export interface OpenOptions {
  /** Another address of the service: through a door. */
  readonly origin?: string;
  /** Another tab of a tablet that is there already, signed in. */
  readonly on?: BrowserContext;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
}

const pin = '3333';
const person = 'Wren Tallis';
const clockMs = 200;

const powder = { kind: 'lightener', unit: 'g', line: 'Tidewater' };
const developer = { kind: 'developer', unit: 'ml', line: 'Tidewater' };
const shelf = [
  { ...powder, name: 'Blonding powder', scalpCeiling: '20', offScalpCeiling: '40' },
  { ...developer, name: 'Developer 6 vol', strength: '6' },
  { ...developer, name: 'Developer 20 vol', strength: '20' },
  { ...developer, name: 'Developer 40 vol', strength: '40' },
  { name: 'Toner pearl', kind: 'toner', unit: 'g', line: 'Tidewater' },
];

/** Opens service, studio and browser. Close it in `afterAll`. */
export async function aBench(): Promise<Bench> {
  const browser = await openBrowser();
  const service = await aService({ page: builtPage() });
  const studio = await service.studio({ demo: true });
  const runs = setInterval(() => studio.clock.set(instantFrom(Date.now())), clockMs);
  studio.clock.set(instantFrom(Date.now()));
  await studio.owner.post('/people', { name: person, role: 'stylist', kind: 'employed', pin });
  const products: Record<string, string> = {};
  for (const product of shelf) {
    const packs = [{ label: 'pack', quantity: '1000' }];
    const { id } = await studio.manager.post<{ id: string }>('/products', { ...product, packs });
    products[product.name] = id;
  }
  const lines = Object.values(products).map((productId) => ({ productId, packs: 2, cost: '20' }));
  await studio.manager.post('/openings', { lines });
  await studio.stylist.post('/purposes', { name: 'front' });
  const made = await studio.owner.post<{ token: string }>('/tokens', {
    name: 'Tablet',
    role: 'bench',
  });
  const origin = await service.app.getUrl();
  const bench = { studio, browser, token: made.token, origin, products };
  return {
    ...bench,
    open: (options) => openPage(bench, options ?? {}),
    close: async () => {
      clearInterval(runs);
      await browser.close();
      await studio.close();
    },
  };
}

async function openPage(
  bench: Pick<Bench, 'browser' | 'token' | 'origin'>,
  { width = 1024, height = 768, dark = false, origin = bench.origin, on }: OpenOptions,
): Promise<Page> {
  const tablet = () =>
    bench.browser.newContext({
      viewport: { width, height },
      colorScheme: dark ? 'dark' : 'light',
      locale: 'en-GB',
    });
  const page = await (on ?? (await tablet())).newPage();
  page.setDefaultTimeout(10_000);
  page.on('pageerror', (error) => {
    throw error;
  });
  if (on) {
    await page.goto(origin);
    return page;
  }
  await page.goto(`${origin}/#device=${bench.token}`);
  await page.getByRole('button', { name: person }).click();
  await page.keyboard.type(pin);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /^Today/ }).waitFor();
  return page;
}

/** Chooses the practice scale and plans 90 g of 1 : 2 at a strength in vol, off the scalp. */
export async function planAtTheBench(page: Page, strength: number): Promise<void> {
  await page.getByRole('link', { name: 'Plan a bowl' }).click();
  await page.getByRole('combobox', { name: 'Add a product' }).first().click();
  await page.keyboard.type('blond');
  await page.getByRole('option', { name: /Blonding powder/ }).click();
  await page.getByRole('slider').focus();
  for (let vol = 20; vol > strength; vol -= 1) await page.keyboard.press('ArrowLeft');
  for (let vol = 20; vol < strength; vol += 1) await page.keyboard.press('ArrowRight');
  await page.getByRole('textbox', { name: 'Size in g' }).fill('90');
  await page.getByRole('combobox', { name: 'Purpose' }).fill('front');
  await page.keyboard.press('Escape');
  await page.getByText('off the scalp').click();
  await page.getByText('triangle').click();
}

/** Chooses the practice scale on the page of a bowl. */
export async function practise(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Choose how this bench weighs.' }).click();
  await page.getByRole('button', { name: 'practice scale' }).click();
}

/** Every page in light and dark, held against WCAG 2.2 AA by axe; the weight of the script. */
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { aBench, planAtTheBench, practise, type Bench } from '../support/bench-page.js';

const axeFile = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const options = JSON.stringify({ runOnly: rules });
const looksForFaults = `axe.run(document, ${options}).then((found) =>
  found.violations.map(({ id, nodes: [at] }) => [id, at.html, at.failureSummary].join(' ')))`;

let bench: Bench;
beforeAll(async () => {
  bench = await aBench();
}, 60_000);
afterAll(() => bench.close());

/** What axe finds on the page as it is now. */
async function faults(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: axeFile });
  return page.evaluate<string[]>(looksForFaults);
}

describe.each([
  ['light', false, 1024],
  ['dark', true, 1440],
])('in %s', (_, dark, width) => {
  test('no page has a fault that axe can find', async () => {
    const page = await bench.open({ dark, width });
    const found: Record<string, string[]> = { bench: await faults(page) };
    for (const [name, title] of [
      ['Close the day', /^Close the day/],
      ['Shelf', /^Shelf/],
      ['Left over', /^Left over/],
    ] as const) {
      await page.getByRole('link', { name }).click();
      await page.getByRole('heading', { name: title }).waitFor();
      found[name] = await faults(page);
    }
    await page.getByRole('link', { name: 'Bench' }).click();
    await planAtTheBench(page, 13);
    found['plan'] = await faults(page);
    await page.getByRole('button', { name: 'Pour', exact: true }).click();
    await practise(page);
    await page.getByRole('button', { name: 'Set the bowl down' }).click();
    await page.getByText('Empty bowl: 182 g, taken off.').first().waitFor();
    found['pour'] = await faults(page);
    expect(await page.evaluate<number>(lowestKey)).toBeGreaterThanOrEqual(48);
    await page.getByRole('button', { name: 'Pour something else' }).click();
    await page.getByRole('dialog').waitFor();
    found['choose'] = await faults(page);
    await page.context().close();
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  }, 60_000);
});

const lowestKey = `Math.min(...[...document.querySelectorAll('button')].map(
  (key) => key.getBoundingClientRect().height))`;

test('the first load of the bench brings at most 250 kB of compressed script', async () => {
  const context = await bench.browser.newContext();
  const page = await context.newPage();
  await page.goto(`${bench.origin}/#device=${bench.token}`);
  await page.getByRole('button', { name: 'Wren Tallis' }).waitFor();
  const scripts = await page.evaluate<{ name: string; encoded: number; decoded: number }[]>(
    `performance.getEntriesByType('resource')
      .filter(({ name }) => name.endsWith('.js'))
      .map(({ name, encodedBodySize: encoded, decodedBodySize: decoded }) =>
        ({ name, encoded, decoded }))`,
  );
  await context.close();
  const sum = (of: 'encoded' | 'decoded') =>
    scripts.reduce((total, script) => total + script[of], 0);
  expect(scripts.length).toBeGreaterThan(0);
  // what travelled, and not what was unpacked of it
  expect(sum('decoded')).toBeGreaterThan(2 * sum('encoded'));
  expect(sum('encoded')).toBeGreaterThan(50_000);
  expect(sum('encoded')).toBeLessThanOrEqual(250_000);
}, 60_000);

test('parts of the page are kept for ever, the page itself is asked for', async () => {
  const whole = await fetch(`${bench.origin}/`);
  expect(whole.headers.get('cache-control')).toBe('no-cache');
  const [part] = /\/assets\/[^"]+\.js/.exec(await whole.text()) ?? [];
  const script = await fetch(`${bench.origin}${part}`);
  expect(script.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
});

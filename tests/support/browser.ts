/** A real browser for tests of the page: one that is installed, else the one that npm brings. */
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium, type Browser, type LaunchOptions } from 'playwright-core';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'microsoft-edge',
];

const elsewhere = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const plain = ['--no-sandbox', '--disable-dev-shm-usage', '--disable-gpu'];

/**
 * Opens a browser without a window, with more switches where a test needs them. Close it in
 * `afterAll`.
 * @throws Error with one sentence that says what to install
 */
export async function openBrowser(...more: string[]): Promise<Browser> {
  const installed = installedBrowser();
  if (installed !== undefined) {
    return chromium.launch({ executablePath: installed, args: [...plain, ...more] });
  }
  try {
    const { args = [], ...shipped } = await shippedBrowser();
    return await chromium.launch({ ...shipped, args: [...args, ...more] });
  } catch (cause) {
    throw new Error(
      'No browser runs here: install Chromium or Chrome (on Debian: apt-get install chromium).',
      { cause },
    );
  }
}

/**
 * The browser that npm brings, with the libraries it needs: those come out only where a variable
 * names the cloud they were made for; nobody else here is to find them.
 */
async function shippedBrowser(): Promise<LaunchOptions> {
  const before = { ...process.env };
  const node = process.versions.node.split('.')[0] ?? '';
  process.env['AWS_EXECUTION_ENV'] = `AWS_Lambda_nodejs${node}.x`;
  try {
    const { default: shipped } = await import('@sparticuz/chromium');
    const executablePath = await shipped.executablePath();
    const env = Object.entries(process.env).flatMap(([name, value]) =>
      value === undefined ? [] : [[name, value] as const],
    );
    return { executablePath, args: [...plain, '--no-zygote'], env: Object.fromEntries(env) };
  } finally {
    for (const name of Object.keys(process.env)) if (!(name in before)) delete process.env[name];
    Object.assign(process.env, before);
  }
}

function installedBrowser(): string | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const onPath = names.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...elsewhere].find(runs);
}

function runs(file: string): boolean {
  if (!existsSync(file)) return false;
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

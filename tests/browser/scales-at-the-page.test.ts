/** Real scales' bytes in a real browser: USB and serial straight, and the agent both ways. */
import type { Page } from 'playwright-core';
import { decimal } from '../../shared/decimal.js';
import type { Reading } from '../../shared/scales/reading.js';
import { hidReportOf, modeLineOf } from '../../shared/scales/simulated-bytes.js';
import { Agent } from '../support/agent.js';
import { aBench, planAtTheBench, type Bench } from '../support/bench-page.js';
import { PseudoTerminal } from '../support/pseudo-terminal.js';
import { randomFrom } from '../support/random.js';
import { bytesOf } from '../support/scale-bytes.js';
import {
  deliver,
  hidStandIn,
  noDevices,
  PlayedScale,
  serialStandIn,
} from '../support/scale-at-the-page.js';

let bench: Bench;
const toEnd: (() => unknown)[] = [];

beforeAll(async () => {
  bench = await aBench();
}, 60_000);
afterEach(async () => {
  for (const end of toEnd.splice(0).reverse()) await end();
});
afterAll(() => bench.close());

/** A pour as the service keeps it. */
interface Poured {
  readonly productId: string;
  readonly grams: string;
  readonly scale: { source: string; stable: boolean; interval: string };
}

const said = (page: Page, text: string | RegExp) =>
  page.getByText(text).first().waitFor({ timeout: 30_000 });

/** A page on a planned bowl whose browser was prepared; its pour is due. */
async function aPlannedBowl(preparation: string): Promise<Page> {
  const page = await bench.open();
  toEnd.push(() => page.context().close());
  await page.addInitScript(preparation);
  await page.reload();
  await page.getByRole('heading', { name: /^Today/ }).waitFor();
  await planAtTheBench(page, 13);
  await page.getByRole('button', { name: 'Pour', exact: true }).click();
  return page;
}

async function choose(page: Page, source: string): Promise<void> {
  await page.getByRole('button', { name: 'Choose how this bench weighs.' }).click();
  await page.getByRole('button', { name: source }).click();
}

function aScale(send: (reading: Reading) => unknown): PlayedScale {
  const scale = new PlayedScale(send);
  toEnd.push(() => scale.stop());
  return scale;
}

/** Sets the bowl down and pours the powder; what the service has of it then. */
async function pourPowder(page: Page, scale: PlayedScale): Promise<Poured> {
  scale.do({ do: 'set_down', grams: decimal('182') });
  await said(page, 'Empty bowl: 182 g, taken off.');
  scale.do({ do: 'pour', grams: decimal('30'), gramsPerSecond: decimal('30') });
  const bowl = /#\/bowl\/([0-9a-f-]{36})/.exec(page.url())?.[1];
  for (;;) {
    const [pour] = await bench.studio.service.database.asOwner<Poured>(
      'select product_id as "productId", grams::text, scale from pour where bowl_id = $1',
      [bowl],
    );
    if (pour) return pour;
    await page.waitForTimeout(200);
  }
}

test('WebHID: reports of a USB scale weigh the bowl; unplugged, plugged in, reloaded', async () => {
  const page = await aPlannedBowl(hidStandIn);
  const send = (reading: Reading) => deliver(page, hidReportOf(reading)).catch(() => undefined);
  const scale = aScale(send);
  await choose(page, 'USB scale on this tablet');

  const pour = await pourPowder(page, scale);
  expect(pour).toMatchObject({ productId: bench.products['Blonding powder'], grams: '30.000' });
  expect(pour.scale).toMatchObject({ source: 'hid', interval: '0.1', stable: true });

  await page.evaluate('window.standIn.unplug()');
  await said(page, 'The scale was unplugged.');
  await page.evaluate('window.standIn.plug()');
  await page.getByText('The scale was unplugged.').waitFor({ state: 'detached' });

  await page.reload();
  await page.getByRole('button', { name: 'Scale: USB scale on this tablet' }).waitFor();
  await said(page, /the scale’s own display: 212/);
  await bench.studio.audit();
}, 90_000);

test('WebHID: other reports, noise and states without a figure show no weight', async () => {
  const page = await aPlannedBowl(hidStandIn);
  await choose(page, 'USB scale on this tablet');
  const random = randomFrom(5);
  // status 4 stable, unit 2 g, exponent 0, 77 g: but report 4 carries no data weight
  for (let times = 0; times < 5; times += 1) await deliver(page, Uint8Array.of(4, 2, 0, 77, 0), 4);
  const noise = Array.from({ length: 300 }, () =>
    Array.from({ length: random.below(9) }, () => random.below(256)).map((byte, at) =>
      at === 0 ? byte | 0x80 : byte,
    ),
  );
  await page.evaluate(`for (const bytes of ${JSON.stringify(noise)}) window.standIn.send(bytes)`);
  for (let times = 0; times < 3; times += 1) await deliver(page, Uint8Array.of(6, 2, 0, 0, 0));
  await said(page, 'Too heavy for this scale.');
  expect(await page.getByText('the scale’s own display').count()).toBe(0);
}, 60_000);

test('Web Serial: how the scale speaks is found out, kept, and heard after a reload', async () => {
  const page = await aPlannedBowl(serialStandIn);
  const send = async (reading: Reading) => {
    const line = bytesOf(modeLineOf(reading));
    await deliver(page, line.subarray(0, 7)).catch(() => undefined);
    await deliver(page, line.subarray(7)).catch(() => undefined);
  };
  const scale = aScale(send);
  await choose(page, 'serial scale on this machine');

  const pour = await pourPowder(page, scale);
  expect(pour).toMatchObject({ productId: bench.products['Blonding powder'], grams: '30.000' });
  expect(pour.scale).toMatchObject({ source: 'serial', stable: true });
  expect(await page.evaluate('window.standIn.opens')).toEqual(['9600n', '2400e']);

  await page.evaluate('window.standIn.unplug()');
  await said(page, 'The scale was unplugged.');
  await page.evaluate('window.standIn.plug()');
  await page.getByText('The scale was unplugged.').waitFor({ state: 'detached' });

  await page.reload();
  await said(page, /the scale’s own display: 212/);
  expect(await page.evaluate('window.standIn.opens')).toEqual(['2400e']);
}, 90_000);

test.each([
  ['straight from this machine', true],
  ['through the service', false],
])(
  'the agent, %s: a serial scale on a pseudo-terminal weighs the bowl',
  async (_way, near) => {
    const terminal = await PseudoTerminal.open();
    toEnd.push(() => terminal.close());
    const scale = aScale((reading) => terminal.send(modeLineOf(reading)));
    const service = ['--service', near ? 'http://127.0.0.1:9' : bench.origin];
    const agent = await Agent.start(
      ['--serial', terminal.path, ...service, '--page', bench.origin],
      near ? '' : bench.token,
    );
    toEnd.push(() => agent.stop());
    const window = await bench.studio.owner.get<{ items: { id: string }[] }>('/benches');
    if (window.items.length === 0) await bench.studio.owner.post('/benches', { name: 'Window' });
    // the door of this test's own agent stands in for the usual one; 9 is a port nobody listens on
    const port = near ? new URL(agent.door).port : '9';
    const page = await aPlannedBowl(`window.WebSocket = class extends WebSocket {
    constructor(url, protocol) { super(String(url).replace(':4181/', ':${port}/'), protocol); }
  }`);
    await choose(page, 'scale on the studio’s computer');

    const pour = await pourPowder(page, scale);
    expect(pour).toMatchObject({ productId: bench.products['Blonding powder'], grams: '30.000' });
    expect(pour.scale).toMatchObject({ source: 'agent', interval: '0.1', stable: true });

    await terminal.close();
    await said(page, 'The scale was unplugged.');
    await agent.stop();
    await said(page, 'The bench agent does not answer.');
  },
  90_000,
);

test('a device that reads no scale says at once what to do instead', async () => {
  const page = await aPlannedBowl(noDevices);
  await said(page, /^This tablet cannot read a USB scale by itself\. Plug the scale into/);
  await page.getByRole('button', { name: 'Choose how this bench weighs.' }).click();
  const offered = await page.getByRole('dialog').getByRole('button').allInnerTexts();
  expect(offered).toContain('keypad: type what the scale shows');
  expect(offered).not.toContain('USB scale on this tablet');
  expect(offered).not.toContain('serial scale on this machine');
}, 60_000);

/** From a reading that arrives to the frame that shows it, in a real browser at the bench. */
import type { Page } from 'playwright-core';
import { decimal } from '../../shared/decimal.js';
import { hidReportOf } from '../../shared/scales/simulated-bytes.js';
import { bringsReadings, messageOf } from '../../shared/scales/wire.js';
import { aBench, planAtTheBench, type Bench } from '../support/bench-page.js';
import { readingOfGrams } from '../support/reading-of-grams.js';
import { hidStandIn } from '../support/scale-at-the-page.js';
import { ScaleSocket } from '../support/scale-socket.js';
import { table } from './table.js';

/** Grams of the bowl that stands on the plate, in tenths. */
const bowl = 1820;
/** Tenths of a gram that are poured, one a reading; 30 g are due. */
const poured = 200;
/** Readings come when they come: every 50 to 100 ms, so at any moment of a frame. */
const shortestMs = 50;
const spreadMs = 50;
const quietMs = 2_500;

interface Seen {
  /** Milliseconds from the arrival of each reading to the frame that shows it. */
  readonly late: number[];
  readonly framesPerSecond: number;
}

/** Prints median, 95 % and worst in milliseconds, and frames a second while the weight moves. */
export async function run(): Promise<void> {
  const bench = await aBench();
  try {
    const rows = [
      rowOf('USB report', await byReports(bench)),
      rowOf('agent, through the service', await bySocket(bench)),
    ];
    const head = ['reading to pixel', 'readings', 'median ms', '95 % ms', 'worst ms', 'frames/s'];
    table('The instrument (one frame is 16.7 ms; software rendering)', head, rows);
  } finally {
    await bench.close();
  }
}

function rowOf(name: string, { late, framesPerSecond }: Seen): string[] {
  const sorted = [...late].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor((sorted.length - 1) * share)] ?? Number.NaN;
  const figures = [at(0.5), at(0.95), at(1), framesPerSecond];
  return [name, `${late.length}`, ...figures.map((figure) => figure.toFixed(1))];
}

/** A page on a planned bowl whose powder, 30 g, is due. */
async function aDuePour(bench: Bench, preparation: string, source: string): Promise<Page> {
  const page = await bench.open();
  await page.addInitScript(preparation);
  await page.addInitScript(watch);
  await page.reload();
  await page.getByRole('heading', { name: /^Today/ }).waitFor();
  await planAtTheBench(page, 13);
  await page.getByRole('button', { name: 'Pour', exact: true }).click();
  await page.getByRole('button', { name: 'Choose how this bench weighs.' }).click();
  await page.getByRole('button', { name: source }).click();
  return page;
}

const readingOf = (tenths: number, stable: boolean) =>
  readingOfGrams(decimal(`${tenths}`).times('0.1'), stable);

async function byReports(bench: Bench): Promise<Seen> {
  const page = await aDuePour(bench, hidStandIn, 'USB scale on this tablet');
  const bytes = (tenths: number, stable: boolean) => [...hidReportOf(readingOf(tenths, stable))];
  const poured = tenthsPoured().map((each) => bytes(bowl + each, false));
  await page.evaluate(`(async () => {
    const pause = (ms) => new Promise((done) => setTimeout(done, ms));
    const send = (bytes) => { window.arrived(performance.now()); window.standIn.send(bytes); };
    for (let at = 0; at < ${quietMs}; at += 100) {
      window.standIn.send(${JSON.stringify(bytes(bowl, true))});
      await pause(100);
    }
    window.begin();
    for (const bytes of ${JSON.stringify(poured)}) {
      send(bytes);
      await pause(${shortestMs} + Math.random() * ${spreadMs});
    }
  })()`);
  return seenBy(page);
}

async function bySocket(bench: Bench): Promise<Seen> {
  const { items } = await bench.studio.owner.get<{ items: { id: string }[] }>('/benches');
  const id =
    items[0]?.id ?? (await bench.studio.owner.post<{ id: string }>('/benches', { name: 'One' })).id;
  const url = `${bench.origin.replace('http', 'ws')}/api/v1/scales/${id}`;
  const agent = await ScaleSocket.open(url, bringsReadings, {
    Authorization: `Bearer ${bench.token}`,
  });
  const say = (tenths: number, stable: boolean) =>
    agent.say(messageOf({ type: 'reading', reading: readingOf(tenths, stable) }));
  const page = await aDuePour(bench, watchSockets, 'scale on the studio’s computer');
  for (let at = 0; at < quietMs; at += 100) {
    say(bowl, true);
    await page.waitForTimeout(100);
  }
  await page.evaluate('window.begin()');
  for (const tenths of tenthsPoured()) {
    say(bowl + tenths, false);
    await page.waitForTimeout(shortestMs + Math.random() * spreadMs);
  }
  await agent.close();
  return seenBy(page);
}

function tenthsPoured(): number[] {
  return Array.from({ length: poured }, (_, index) => index + 1);
}

async function seenBy(page: Page): Promise<Seen> {
  const seen = await page.evaluate<Seen>('window.end()');
  await page.context().close();
  if (seen.late.length < poured * 0.95) {
    throw new Error(`Only ${seen.late.length} of ${poured} readings were seen on the page.`);
  }
  return seen;
}

/**
 * Looks at the figure to go in every frame. A reading is shown by the first frame whose figure is
 * the one that this reading makes; its moment is when the frame has been painted, told by a
 * message that was posted in it.
 */
const watch = `(() => {
  const arrivals = [];
  const late = [];
  let counting = false;
  let frames = 0;
  let from = 0;
  let done = 0;
  window.arrived = (at) => { if (counting) arrivals.push(at); };
  const painted = new MessageChannel();
  painted.port1.onmessage = ({ data }) => {
    const now = performance.now();
    // the figure to go of reading n is 30.0 less n tenths
    for (; done < Math.min(data, arrivals.length); done += 1) late.push(now - arrivals[done]);
  };
  const frame = () => {
    if (counting) {
      frames += 1;
      const text = document.querySelector('.to-go .large')?.textContent ?? '';
      const tenths = Math.round(Number(text) * 10);
      if (text !== '') painted.port2.postMessage(300 - tenths);
    }
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  window.begin = () => { counting = true; from = performance.now(); };
  window.end = () => ({ late, framesPerSecond: frames / ((performance.now() - from) / 1000) });
})()`;

/** Notes when a reading arrives: the moment the browser gives the message. */
const watchSockets = `window.WebSocket = class extends WebSocket {
  constructor(url, protocol) {
    super(String(url).replace(':4181/', ':9/'), protocol);
    this.addEventListener('message', ({ data, timeStamp }) => {
      if (data.includes('"reading"')) window.arrived(timeStamp);
    });
  }
}`;

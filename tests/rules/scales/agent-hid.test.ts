/** The agent on a USB scale: report bytes of a device that comes, goes and is refused. */
import { EventEmitter, once } from 'node:events';
import type { Ear } from '../../../src/command-line/bench-agent/agent-scale.js';
import type { HidDriver, HidInfo } from '../../../src/command-line/bench-agent/drivers.js';
import { HidScale } from '../../../src/command-line/bench-agent/hid-scale.js';
import { pauseMs } from '../../../src/command-line/bench-agent/retry.js';
import type { Told } from '../../../shared/scales/wire.js';
import { hex, inShort } from '../../support/scale-bytes.js';

const scale = { vendorId: 0x1209, productId: 1, product: 'Bench scale' };

/** A computer with one USB port. */
class UsbPort extends EventEmitter implements HidDriver {
  plugged: HidInfo | undefined = { ...scale, path: '/dev/hidraw0' };
  refuses: string | undefined;
  private hear: (report: Uint8Array) => void = () => undefined;
  private closed: () => void = () => undefined;

  list() {
    return Promise.resolve(this.plugged ? [this.plugged] : []);
  }

  open(path: string) {
    if (this.refuses !== undefined) return Promise.reject(new Error(this.refuses));
    setImmediate(() => this.emit('opened', path));
    return Promise.resolve({
      onReport: (hear: (report: Uint8Array) => void) => (this.hear = hear),
      onClose: (closed: () => void) => (this.closed = closed),
      close: () => Promise.resolve(),
    });
  }

  send(...reports: string[]): void {
    for (const report of reports) this.hear(hex(report));
  }

  unplug(): void {
    this.plugged = undefined;
    this.closed();
  }
}

function anEar() {
  const heard: string[] = [];
  const said: string[] = [];
  const inWords = (told: Told) => {
    if (told.type === 'reading') return inShort(told.reading);
    return told.type === 'lost' ? `lost ${told.trouble}` : told.type;
  };
  const ear: Ear = {
    tell: (told) => heard.push(inWords(told)),
    say: (sentence) => said.push(sentence),
  };
  return { ear, heard, said };
}

test('reports are read; unplugged it is lost, plugged in elsewhere it is found again', async () => {
  const port = new UsbPort();
  const { ear, heard, said } = anEar();
  const off = new AbortController();
  const reading = new HidScale(port, scale).read(ear, off.signal);

  expect(await once(port, 'opened')).toEqual(['/dev/hidraw0']);
  // report 3, status 4 stable or 3 in motion, unit 2 g, exponent -1: 0x071C = 1820 tenths
  port.send('03 04 02 FF 1C 07', '03 04 02 FF 1C 07', '03 03 02 FF 58 07', '03 06 02 FF 00 00');
  port.send('03 09 02 FF 1C 07', '01');
  expect(heard).toEqual([
    'back',
    'damage', // the first report may be the weighing before
    '182 g stable',
    '188 g moving',
    'over',
    'damage',
    'damage',
  ]);

  heard.length = 0;
  port.unplug();
  const found = once(port, 'opened');
  port.plugged = { ...scale, path: '/dev/hidraw3' };
  expect(await found).toEqual(['/dev/hidraw3']);
  expect(heard).toEqual(['lost unplugged', 'back']);

  off.abort();
  await reading;
  expect(said[0]).toBe('Reading the USB scale “Bench scale”.');
});

test.each([
  ['cannot open device with path /dev/hidraw0', 'not_permitted', /udev rule/],
  ['open failed: Permission denied', 'not_permitted', /udev rule/],
  ['device or resource busy', 'in_use', /Another program holds/],
])('"%s" is told as %s, once, with what to do', async (said, trouble, advice) => {
  const port = new UsbPort();
  port.refuses = said;
  const ear = anEar();
  const off = new AbortController();
  const reading = new HidScale(port, scale).read(ear.ear, off.signal);
  await new Promise((wake) => setTimeout(wake, 700)); // it was tried twice
  off.abort();
  await reading;
  expect(ear.heard).toEqual([`lost ${trouble}`]);
  expect(ear.said).toEqual([expect.stringMatching(advice)]);
});

test.each([
  [1, 500],
  [2, 1000],
  [3, 2000],
  [5, 8000],
  [6, 10_000],
  [60, 10_000],
])('after %i failures it waits %i ms', (failures, ms) => {
  expect(pauseMs(failures)).toBe(ms);
});

/** Stand-ins for a browser's devices, and a simulated scale whose bytes they deliver. */
import type { Page } from 'playwright-core';
import type { Reading } from '../../shared/scales/reading.js';
import { simulatedReading, usualSimulatedScale, type Deed } from '../../shared/scales/simulated.js';

/**
 * navigator.hid with one USB scale: report 3 carries the data weight, report 4 something else.
 * Chosen once, it is known after a reload, as browsers do it.
 */
export const hidStandIn = `(() => {
  const page = 0x8d;
  const inputReports = [
    { reportId: 3, items: [{ usages: [0x8d0070] }, { usages: [0x8d0040] }] },
    { reportId: 4, items: [{ usages: [0x8d0070] }] },
  ];
  const device = Object.assign(new EventTarget(), {
    opened: false,
    vendorId: 0x1209,
    productId: 1,
    collections: [{ usagePage: page, usage: 0x20, inputReports: [], children: [{ inputReports }] }],
    async open() {
      if (!plugged) throw new DOMException('gone', 'NotAllowedError');
      device.opened = true;
    },
    async close() { device.opened = false; },
  });
  let plugged = true;
  const tell = (target, name, facts) => target.dispatchEvent(Object.assign(new Event(name), facts));
  const hid = Object.assign(new EventTarget(), {
    getDevices: async () => (plugged && localStorage.getItem('granted') ? [device] : []),
    async requestDevice({ filters }) {
      if (!navigator.userActivation.isActive) throw new DOMException('tap', 'SecurityError');
      if (!filters.some(({ usagePage }) => usagePage === page)) return [];
      localStorage.setItem('granted', 'yes');
      return [device];
    },
  });
  Object.defineProperty(navigator, 'hid', { value: hid });
  window.standIn = {
    send(bytes, reportId = 3) {
      if (!device.opened) return;
      const data = new DataView(Uint8Array.from(bytes).buffer);
      tell(device, 'inputreport', { device, reportId, data });
    },
    unplug() { plugged = false; device.opened = false; tell(hid, 'disconnect', { device }); },
    plug() { plugged = true; tell(hid, 'connect', { device }); },
  };
})()`;

/** navigator.serial with one port, on which somebody speaks at 2400 7E1 and noise at any other. */
export const serialStandIn = `(() => {
  let plugged = true;
  let feed;
  const port = Object.assign(new EventTarget(), {
    readable: null,
    writable: null,
    opens: [],
    getInfo: () => ({ usbVendorId: 0x1209, usbProductId: 2 }),
    async open(settings) {
      if (!plugged) throw new DOMException('gone', 'NetworkError');
      if (port.readable) throw new DOMException('open', 'InvalidStateError');
      port.opens.push(settings.baudRate + settings.parity[0]);
      port.settings = settings;
      port.readable = new ReadableStream({ start(controller) { feed = controller; } });
      port.writable = new WritableStream({ write() {} });
    },
    async close() {
      if (port.readable?.locked || port.writable?.locked) throw new TypeError('locked');
      port.readable = port.writable = null;
      feed = undefined;
    },
  });
  const serial = Object.assign(new EventTarget(), {
    getPorts: async () => (plugged && localStorage.getItem('granted') ? [port] : []),
    async requestPort() {
      if (!navigator.userActivation.isActive) throw new DOMException('tap', 'SecurityError');
      localStorage.setItem('granted', 'yes');
      return port;
    },
  });
  Object.defineProperty(navigator, 'serial', { value: serial });
  window.standIn = {
    send(bytes) {
      if (!feed) return;
      const { baudRate, dataBits, parity } = port.settings;
      const right = baudRate === 2400 && dataBits === 7 && parity === 'even';
      feed.enqueue(Uint8Array.from(right ? bytes : bytes.map((byte) => (byte * 7) | 0x80)));
    },
    unplug() {
      plugged = false;
      const stream = feed;
      port.readable = null;
      stream?.error(new DOMException('gone', 'NetworkError'));
    },
    plug() { plugged = true; },
    opens: port.opens,
  };
})()`;

/** A browser that has neither. */
export const noDevices = `for (const name of ['hid', 'serial']) {
  delete Navigator.prototype[name];
}`;

/** The simulated scale, ten readings a second, until it is stopped. */
export class PlayedScale {
  private deeds: Deed[] = [];
  private readonly timer: ReturnType<typeof setInterval>;
  private readonly startedMs = performance.now();

  constructor(send: (reading: Reading) => unknown) {
    this.timer = setInterval(() => {
      const reading = simulatedReading(usualSimulatedScale, this.deeds, this.nowMs());
      if (reading) send(reading);
    }, 100);
  }

  do(deed: Deed extends infer D ? (D extends Deed ? Omit<D, 'atMs'> : never) : never): void {
    this.deeds = [...this.deeds, { ...deed, atMs: this.nowMs() }];
  }

  stop(): void {
    clearInterval(this.timer);
  }

  private nowMs(): number {
    return Math.trunc(performance.now() - this.startedMs);
  }
}

/** Hands bytes to the page's stand-in. */
export async function deliver(page: Page, bytes: Uint8Array, reportId?: number): Promise<void> {
  const words = JSON.stringify([[...bytes], ...(reportId === undefined ? [] : [reportId])]);
  await page.evaluate(`window.standIn.send(...${words})`);
}

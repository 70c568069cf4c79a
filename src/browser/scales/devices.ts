/** What of WebHID and Web Serial the sources use; browsers ship them without types. */

/** One report of a HID device, its id beside it. */
export interface HidReportEvent extends Event {
  readonly device: HidDevice;
  readonly reportId: number;
  readonly data: DataView;
}

export interface HidReportItem {
  /** Usage page in the high 16 bits, usage in the low ones. */
  readonly usages?: readonly number[];
}

export interface HidCollection {
  readonly usagePage?: number;
  readonly inputReports?: readonly { reportId?: number; items?: readonly HidReportItem[] }[];
  readonly children?: readonly HidCollection[];
}

export interface HidDevice extends EventTarget {
  readonly opened: boolean;
  readonly vendorId: number;
  readonly productId: number;
  readonly collections: readonly HidCollection[];
  open(): Promise<void>;
  close(): Promise<void>;
}

export interface Hid extends EventTarget {
  getDevices(): Promise<HidDevice[]>;
  requestDevice(options: { filters: { usagePage: number }[] }): Promise<HidDevice[]>;
}

export interface SerialSettings {
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
  readonly stopBits: 1 | 2;
}

export interface PortOfPage extends EventTarget {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  open(settings: SerialSettings): Promise<void>;
  close(): Promise<void>;
  /** Newer browsers: the page may not open it any more without being chosen. */
  forget?(): Promise<void>;
  getInfo(): { usbVendorId?: number; usbProductId?: number };
}

export interface Serial extends EventTarget {
  getPorts(): Promise<PortOfPage[]>;
  requestPort(): Promise<PortOfPage>;
}

type Navigator = { readonly hid?: Hid; readonly serial?: Serial };

/** The browser's way to HID devices; undefined where it has none. */
export function hidOfBrowser(): Hid | undefined {
  return (navigator as Navigator).hid;
}

/** Whether a browser would show its list of devices now: it does so only after a tap. */
export function mayAskNow(): boolean {
  return navigator.userActivation?.isActive ?? true;
}

/** The browser's way to serial ports; undefined where it has none. */
export function serialOfBrowser(): Serial | undefined {
  return (navigator as Navigator).serial;
}

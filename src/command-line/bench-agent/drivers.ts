/** The drivers of serial ports and USB HID devices, loaded when they are needed. */
import { readdir } from 'node:fs/promises';

/** An open serial port. */
export interface OpenPort {
  onBytes(hear: (bytes: Uint8Array) => void): void;
  onClose(closed: () => void): void;
  write(text: string): void;
  close(): Promise<void>;
}

/** A serial port of this computer. */
export interface PortInfo {
  readonly path: string;
  /** It hangs on USB. */
  readonly usb: boolean;
  readonly manufacturer?: string | undefined;
}

/** Settings of a line and where it is. */
export interface PortSettings {
  readonly path: string;
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
  readonly stopBits: 1 | 2;
}

export interface SerialDriver {
  list(): Promise<PortInfo[]>;
  /** @throws Error when it cannot be opened */
  open(settings: PortSettings): Promise<OpenPort>;
}

/** A USB HID scale of this computer. */
export interface HidInfo {
  readonly path: string;
  readonly vendorId: number;
  readonly productId: number;
  readonly product?: string | undefined;
}

/** An open HID device: one call of `hear` for each report, its id in front. */
export interface OpenHid {
  onReport(hear: (report: Uint8Array) => void): void;
  onClose(closed: () => void): void;
  close(): Promise<void>;
}

export interface HidDriver {
  /** Scales only: devices of usage page 0x8D. */
  list(): Promise<HidInfo[]>;
  /** @throws Error when it cannot be opened */
  open(path: string): Promise<OpenHid>;
}

const weighingPage = 0x8d;

/** @throws Error with a sentence when the driver cannot be used on this computer */
export async function loadSerialDriver(): Promise<SerialDriver> {
  const { SerialPort } = await loaded(import('serialport'), 'serialport', 'serial scales');
  return {
    list: async () => {
      const ports = await SerialPort.list().catch((error: unknown) => {
        if ((error as { code?: string }).code !== 'ENOENT') throw error;
        return undefined; // it asks udevadm, which a small Linux does not have
      });
      return ports?.map(portInfo) ?? usbPortsOf('/dev');
    },
    open: (settings) =>
      new Promise((done, refuse) => {
        const port = new SerialPort({ ...settings, autoOpen: false });
        // after the open: a port that breaks says so with 'close'
        port.on('error', () => undefined);
        port.open((error) => {
          if (error) return refuse(error);
          done({
            onBytes: (hear) => port.on('data', hear),
            onClose: (closed) => port.on('close', closed),
            write: (text) => port.write(text, 'latin1'),
            close: () => new Promise((closed) => port.close(() => closed())),
          });
        });
      }),
  };
}

function portInfo(port: {
  path: string;
  vendorId?: string | undefined;
  manufacturer?: string | undefined;
}): PortInfo {
  const { path, vendorId, manufacturer } = port;
  return { path, usb: vendorId !== undefined, manufacturer };
}

/** Serial ports on USB by the names that Linux gives them. */
async function usbPortsOf(folder: string): Promise<PortInfo[]> {
  const names = await readdir(folder);
  return names
    .filter((name) => /^tty(USB|ACM)\d+$/.test(name))
    .sort()
    .map((name) => ({ path: `${folder}/${name}`, usb: true }));
}

/** @throws Error with a sentence when the driver cannot be used on this computer */
export async function loadHidDriver(): Promise<HidDriver> {
  const { default: hid } = await loaded(import('node-hid'), 'node-hid', 'USB scales');
  // the program inside is started with the first call
  await loaded(
    Promise.resolve().then(() => hid.getHidapiVersion()),
    'node-hid',
    'USB scales',
  );
  return {
    list: async () =>
      (await hid.devicesAsync())
        .filter(({ usagePage }) => usagePage === weighingPage)
        .flatMap(({ path, ...info }) => (path === undefined ? [] : [{ ...info, path }])),
    open: async (path) => {
      const device = await hid.HIDAsync.open(path);
      return {
        onReport: (hear) => device.on('data', hear),
        onClose: (closed) => device.on('error', closed),
        close: () => device.close(),
      };
    },
  };
}

async function loaded<T>(loading: Promise<T>, name: string, what: string): Promise<T> {
  try {
    return await loading;
  } catch (error) {
    const why = (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';
    throw new Error(
      `This computer cannot read ${what}: the package ${name} does not start here (${why}).` +
        (why.includes('libusb') ? ' On Debian: apt-get install libusb-1.0-0.' : ''),
      { cause: error },
    );
  }
}

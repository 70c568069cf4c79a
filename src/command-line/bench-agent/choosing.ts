/** Which scale the agent reads: the one named, else the only one there is. */
import { usualLines, waysOn, type Way } from '../../../shared/scales/conversation.js';
import type { SerialLine } from '../../../shared/scales/serial-line.js';
import type { AgentScale } from './agent-scale.js';
import { loadHidDriver, loadSerialDriver, type HidInfo, type PortInfo } from './drivers.js';
import { hidName, HidScale } from './hid-scale.js';
import { SerialScale } from './serial-scale.js';

/** What was said about the scale on the command line. */
export interface ScaleWords {
  /** A serial port: "/dev/ttyUSB0", "COM3". */
  readonly serial?: string;
  /** A USB scale by its numbers. */
  readonly hid?: { readonly vendorId: number; readonly productId: number };
  readonly line?: SerialLine;
  readonly speaks?: Way['decoder'];
  /** What to send for a weight; '' for nothing. */
  readonly ask?: string;
}

/** Devices of this computer, and why a kind of them cannot be looked for. */
export interface Devices {
  readonly hid: readonly HidInfo[];
  readonly serial: readonly PortInfo[];
  readonly cannot: readonly string[];
}

/** Looks for scales and serial ports. */
export async function lookForDevices(): Promise<Devices> {
  const cannot: string[] = [];
  const listed = async <T>(driver: Promise<{ list(): Promise<T[]> }>): Promise<T[]> => {
    try {
      return await (await driver).list();
    } catch (error) {
      cannot.push(error instanceof Error ? error.message : String(error));
      return [];
    }
  };
  const [hid, serial] = await Promise.all([listed(loadHidDriver()), listed(loadSerialDriver())]);
  return { hid, serial, cannot };
}

/**
 * The scale to read.
 * @throws Error with a sentence when there is none, or several and none was named
 */
export async function chooseScale(
  words: ScaleWords,
  say: (sentence: string) => void,
): Promise<AgentScale> {
  if (words.serial !== undefined) return serialScale(words.serial, words);
  if (words.hid) return new HidScale(await loadHidDriver(), words.hid);
  const { hid, serial, cannot } = await lookForDevices();
  for (const sentence of cannot) say(sentence);
  const plugged = serial.filter(({ usb }) => usb);
  const found = [
    ...hid.map((info) => `--hid ${hidName(info.vendorId, info.productId)}`),
    ...plugged.map(({ path }) => `--serial ${path}`),
  ];
  if (found.length > 1) {
    throw new Error(`There are several devices. Say which is the scale: ${found.join(', ')}.`);
  }
  if (hid[0]) return new HidScale(await loadHidDriver(), hid[0]);
  if (plugged[0]) return serialScale(plugged[0].path, words);
  throw new Error(
    'No scale was found. Plug it in and switch it on, or name its port with --serial; ' +
      'bench-agent --list shows what there is.',
  );
}

async function serialScale(path: string, words: ScaleWords): Promise<AgentScale> {
  return new SerialScale(await loadSerialDriver(), path, waysSaid(words));
}

/** The ways to try: all, or what was said about the line, the form and the request. */
export function waysSaid({ line, speaks, ask }: ScaleWords): readonly Way[] {
  const ways = (line ? [line] : usualLines)
    .flatMap(waysOn)
    .filter(({ decoder }) => speaks === undefined || decoder === speaks);
  if (ask === undefined) return ways;
  const asked = ways.map((way) => ({
    line: way.line,
    decoder: way.decoder,
    ...(ask === '' ? {} : { ask }),
  }));
  // one question: each form once a line
  return asked.filter(
    (way, index) =>
      asked.findIndex((each) => each.line === way.line && each.decoder === way.decoder) === index,
  );
}

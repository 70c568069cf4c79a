/** The agent put together: one scale, its hub, the line to the service, the door for pages. */
import { readFile } from 'node:fs/promises';
import { answer, columns, failed } from '../terminal.js';
import { chooseScale, lookForDevices, type ScaleWords } from './choosing.js';
import { hidName } from './hid-scale.js';
import { openPageDoor, originsOf } from './page-door.js';
import { ReadingHub } from './reading-hub.js';
import { ServiceLink } from './service-link.js';

/** Everything said on the command line. */
export interface AgentWords extends ScaleWords {
  readonly service: string;
  readonly bench?: string;
  readonly tokenFile?: string;
  /** Port of the door for pages; undefined for none. */
  readonly door?: number;
  /** Origins of further pages that may hear. */
  readonly page: readonly string[];
  readonly json?: boolean;
}

/** Reads, brings and answers until Ctrl-C. */
export async function runAgent(words: AgentWords): Promise<void> {
  const say = (sentence: string) => void process.stderr.write(`${sentence}\n`);
  const scale = await chooseScale(words, say);
  const token = await tokenOf(words);
  const hub = new ReadingHub();
  const origins = [...originsOf(words.service), ...words.page];
  const door = words.door === undefined ? undefined : await openPageDoor(words.door, origins, hub);
  const off = new AbortController();
  const { signal } = off;
  for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(name, () => (signal.aborted ? process.exit(1) : off.abort()));
  }
  answer(
    { scale: scale.label, door: door?.url ?? null, service: token ? words.service : null },
    [
      `The agent reads ${scale.label}.`,
      ...(door ? [`Pages on this machine hear it at ${door.url}.`] : []),
      token
        ? `It brings the readings to ${words.service}.`
        : 'Without a token only pages on this machine hear it. Make one with: bowlworth token ' +
          '"Scale" --role bench, and give it in BOWLWORTH_TOKEN or --token-file.',
      'Ctrl-C stops it.',
    ],
    words.json,
  );
  const ear = { tell: hub.tell.bind(hub), say };
  const reading = scale.read(ear, signal).catch((error: unknown) => {
    process.exitCode = failed(error);
    off.abort();
  });
  const bringing = token
    ? new ServiceLink({ url: words.service, token, bench: words.bench }, hub, say).keep(signal)
    : Promise.resolve();
  await Promise.all([reading, bringing]);
  await door?.close();
}

async function tokenOf({ tokenFile }: AgentWords): Promise<string | undefined> {
  const text =
    tokenFile === undefined ? process.env['BOWLWORTH_TOKEN'] : await readFile(tokenFile, 'utf8');
  return text?.trim() || undefined;
}

/** Shows the devices of this computer that may be a scale. */
export async function listDevices(asJson: boolean | undefined): Promise<void> {
  const devices = await lookForDevices();
  const rows = [
    ...devices.hid.map(({ vendorId, productId, product }) => [
      `--hid ${hidName(vendorId, productId)}`,
      `USB scale${product === undefined ? '' : ` “${product}”`}`,
    ]),
    ...devices.serial.map(({ path, usb, manufacturer }) => [
      `--serial ${path}`,
      `serial port${!usb ? '' : `, on USB ${manufacturer ?? ''}`.trimEnd()}`,
    ]),
  ];
  const lines = rows.length === 0 ? ['There is no USB scale and no serial port.'] : columns(rows);
  answer(devices, [...lines, ...devices.cannot], asJson);
}

/** bowlworth bench-agent: reads the scale of a bench, for the service and for pages here. */
import { InvalidArgumentError, Option, type Command } from 'commander';
import { serialLine } from '../../../shared/scales/serial-line.js';
import { pageDoorPort } from '../../../shared/scales/wire.js';
import type { AgentWords } from '../bench-agent/running.js';

type Words = Omit<AgentWords, 'door'> & { readonly door: number | false; readonly list?: true };

export function benchAgentCommand(program: Command): void {
  program
    .command('bench-agent')
    .description('Read the scale on this computer for a bench; Ctrl-C stops it')
    .option('--list', 'show the USB scales and serial ports of this computer')
    .option('--serial <port>', 'the scale’s serial port, such as /dev/ttyUSB0 or COM3')
    .option('--hid <numbers>', 'the USB scale’s numbers, as --list shows them', hidNumbers)
    .option('--line <settings>', 'of the serial line, such as "2400 7E1"; else found out', lineOf)
    .addOption(
      new Option('--speaks <form>', 'how the serial scale answers; else found out').choices([
        'text_lines',
        'sma',
        'status_bytes',
      ]),
    )
    .option('--ask <text>', 'what to send for a weight, such as "W\\r"; "" for nothing', plainText)
    .option('--service <url>', 'where the service is', urlOf, 'http://localhost:4180')
    .option('--bench <name>', 'which bench it is, where the token does not stand at one')
    .option('--token-file <file>', 'a file with the token; else it is taken from BOWLWORTH_TOKEN')
    .option('--door <port>', 'where pages on this machine hear it', portOf, pageDoorPort)
    .option('--no-door', 'no pages on this machine')
    .option('--page <origin>', 'a further page that may hear; may be said again', pagesOf, [])
    .option('--json', 'say where it listens, or the list, as JSON')
    .action(async ({ list, door, ...words }: Words) => {
      const { listDevices, runAgent } = await import('../bench-agent/running.js');
      if (list) return listDevices(words.json);
      await runAgent({ ...words, ...(door === false ? {} : { door }) });
    });
}

function hidNumbers(text: string) {
  const [, vendor, product] = /^([0-9a-f]{4}):([0-9a-f]{4})$/i.exec(text) ?? [];
  if (vendor === undefined || product === undefined) {
    throw new InvalidArgumentError('Write two numbers as --list shows them: 1209:0001.');
  }
  return { vendorId: Number.parseInt(vendor, 16), productId: Number.parseInt(product, 16) };
}

function lineOf(text: string) {
  const line = serialLine(text);
  if (!line) throw new InvalidArgumentError('Write speed, bits, parity, stop: "9600 8N1".');
  return line;
}

function portOf(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number.parseInt(text, 10) : 65536;
  if (port > 65535) throw new InvalidArgumentError('Give a number from 0 (any free) to 65535.');
  return port;
}

function urlOf(text: string): string {
  if (/^https?:\/\//.test(text) && URL.canParse(text)) return text;
  throw new InvalidArgumentError('Write an address such as http://localhost:4180.');
}

function pagesOf(text: string, before: readonly string[]): readonly string[] {
  return [...before, new URL(urlOf(text)).origin];
}

/** Text with \r, \n, \t and \x1b written out. */
function plainText(text: string): string {
  const plain: Record<string, string> = { r: '\r', n: '\n', t: '\t', '\\': '\\' };
  return text.replace(/\\(?:x([0-9a-f]{2})|([rnt\\]))/gi, (_, hex?: string, letter = '') =>
    hex === undefined
      ? (plain[(letter as string).toLowerCase()] ?? '')
      : String.fromCharCode(Number.parseInt(hex, 16)),
  );
}

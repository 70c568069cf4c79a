/** Laws of every decoder, on 100,000 random and damaged byte sequences each. */
import { canonical } from '../../shared/decimal.js';
import { listen, type DecoderName } from '../../shared/scales/decoders.js';
import type { Decoded, Reading } from '../../shared/scales/reading.js';
import { bytesOf, heard } from '../support/scale-bytes.js';
import { randomFrom, type Random } from '../support/random.js';

const runs = 100_000;
const seed = 20_260_301;

const wholeLines = [
  'ST,+001234.5  g\r\n',
  'US,-00183.96  g\r\n',
  'QT,+00012345 PC\r\n',
  'OL,+999999.9  g\r\n',
  'ST,GS,  18.000kg\r\n',
  'US,NT,-  0.200kg\r\n',
  '    192.21 g\r\n',
  '      0.01 g     ?\r\n',
  'SI ?     12.345 g  \r\n',
  'S S    100.00 g\r\n',
  'S I\r\n',
  'Z_A\r\n',
];
const smaReplies = [
  '\n 1G       5.025lb \r',
  '\n 1N      100000lb \r',
  '\nZ1G       0.000lb \r',
  '\n 1GM      7.650kg \r',
  '\nE1G  ----------lb \r',
  '\n 1T       0.200kg \r',
  '\nCAP:kg :6000:1:0\r',
  '\n?\r',
];
const polledAnswers = [
  '\n  123.4g\r\n00\r\u0003',
  '\n  150.0g\r\n10\r\u0003',
  '\n^^^^^^^g\r\n02\r\u0003',
  '\n   12.5lb\r\n0p4\r\u0003',
  '\n00\r\u0003',
  '\n?\r\u0003',
];

const whole: Readonly<Record<Exclude<DecoderName, 'hid'>, readonly Uint8Array[]>> = {
  text_lines: wholeLines.map(bytesOf),
  sma: smaReplies.map(bytesOf),
  status_bytes: polledAnswers.map(bytesOf),
};
const telling = bytesOf('\r\n\u0003 0123456789.,+-?^_gkGNSTZOLUkb');

/** Some bytes: pure noise, or whole lines with bytes lost, changed, doubled, put in, cut. */
function someBytes(random: Random, lines: readonly Uint8Array[]): Uint8Array {
  if (random.below(4) === 0) {
    const noise = random.below(2) === 0 ? undefined : telling;
    return Uint8Array.from({ length: random.below(60) }, () =>
      noise ? random.oneOf(noise as unknown as readonly number[]) : random.below(256),
    );
  }
  const stream: number[] = [];
  const favourite = random.oneOf(lines);
  const pieces = 2 + random.below(4);
  for (let piece = 0; piece < pieces; piece += 1) {
    stream.push(...(random.below(2) === 0 ? favourite : random.oneOf(lines)));
  }
  const damages = random.below(4);
  for (let each = 0; each < damages; each += 1) damageOne(random, stream);
  return Uint8Array.from(stream.slice(random.below(2) * random.below(12)));
}

function damageOne(random: Random, stream: number[]): void {
  const at = random.below(stream.length + 1);
  switch (random.below(5)) {
    case 0:
      stream.splice(at, 1);
      break;
    case 1:
      stream.splice(at, 1, random.below(256));
      break;
    case 2:
      stream.splice(at, 0, random.oneOf(telling as unknown as readonly number[]));
      break;
    case 3:
      stream.splice(at, 0, ...stream.slice(at, at + 1 + random.below(8)));
      break;
    default:
      stream.splice(at, 1 + random.below(8));
  }
}

function latin(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes);
}

/** The complete lines or replies of a stream, found without the decoders. */
const completeOnes: Readonly<
  Record<Exclude<DecoderName, 'hid'>, (stream: string) => readonly string[]>
> = {
  // the first is dropped unless it is empty; the last has no end
  text_lines: (stream) => stream.split(/[\r\n]/).slice(1, -1),
  sma: (stream) => [...stream.matchAll(/\n([^\r\n]*)(?=\r)/g)].map((match) => match[1]!),
  status_bytes: (stream) =>
    stream
      .split('\u0003')
      .slice(0, -1)
      .filter((part) => part.includes('\n'))
      .map((part) => part.slice(part.indexOf('\n'))),
};

/** The one number of a line, read by another way: a sign somewhere before, then digits. */
function numberIn(line: string): string {
  const digits = /\d+\.?\d*(?=[^\d]*$)/.exec(line.replace(/\r\n...?\r$/, ''))?.[0] ?? '';
  const [whole_ = '', fraction = ''] = digits.split('.');
  const plain = `${whole_.replace(/^0+(?=\d)/, '')}.${fraction}`.replace(/\.?0*$/, '');
  const before = line.slice(0, line.lastIndexOf(digits));
  return plain !== '0' && /-[ 0-9]*$/.test(before) ? `-${plain}` : plain;
}

function weightsOf(found: readonly Decoded[]): Reading[] {
  return found.filter((each) => each.kind === 'reading').filter((each) => each.value);
}

/** Text by which two findings are the same. */
function traced(found: readonly Decoded[]): string {
  return found
    .map((each) =>
      each.kind === 'reading'
        ? `${each.status} ${each.value?.toFixed()} ${each.unit} ${each.stable} ${each.carriedBy}`
        : `${each.kind} ${each.carriedBy}`,
    )
    .join('|');
}

const streams = ['text_lines', 'sma', 'status_bytes'] as const;

test.each(streams)('%s: no exception, and no weight that no complete line carried', (name) => {
  const random = randomFrom(seed);
  let weights = 0;
  for (let run = 0; run < runs; run += 1) {
    const bytes = someBytes(random, whole[name]);
    const stream = latin(bytes);
    const found = heard(name, [bytes]);
    const readings = weightsOf(found);
    weights += readings.length;
    const complete = readings.length > 0 ? completeOnes[name](stream) : [];
    for (const reading of readings) {
      const told = { seed, run, stream, carriedBy: reading.carriedBy };
      if (!complete.includes(reading.carriedBy)) throw new Error(JSON.stringify(told));
      const value = canonical(reading.value!);
      const carried = numberIn(reading.carriedBy);
      // asking the test library half a million times would take longer than the decoders
      if (value !== carried) expect({ ...told, value }).toEqual({ ...told, value: carried });
    }
  }
  // the law says something only if many weights came through
  expect(weights).toBeGreaterThan(runs / 10);
});

test.each(streams)('%s: however the bytes are cut, the same is found', (name) => {
  const random = randomFrom(seed + 1);
  for (let run = 0; run < runs / 10; run += 1) {
    const bytes = someBytes(random, whole[name]);
    const pieces: Uint8Array[] = [];
    for (let at = 0; at < bytes.length;) {
      const next = at + 1 + random.below(9);
      pieces.push(bytes.subarray(at, next));
      at = next;
    }
    const told = { seed: seed + 1, run, stream: latin(bytes) };
    const found = traced(heard(name, pieces));
    const atOnce = traced(heard(name, [bytes]));
    if (found !== atOnce) expect({ ...told, found }).toEqual({ ...told, found: atOnce });
  }
});

const wholeReports = [
  [3, 4, 2, 0xff, 0xd2, 4],
  [3, 3, 2, 0xff, 0xd3, 4],
  [3, 5, 2, 0, 0, 0],
  [3, 2, 12, 0xfe, 0, 0],
];

/** Some reports of one device, some of them damaged. */
function someReports(random: Random): Uint8Array[] {
  const withId = random.below(2) === 0 ? 0 : 1;
  return Array.from({ length: 1 + random.below(6) }, () => {
    if (random.below(5) === 0) {
      return Uint8Array.from({ length: random.below(9) }, () => random.below(256));
    }
    const report = random.oneOf(wholeReports).slice(withId);
    if (random.below(3) === 0) damageOne(random, report);
    return Uint8Array.from(report);
  });
}

/** The weight of a report by a second way: a DataView and digits moved in text. */
function secondWitness(report: Uint8Array): string {
  const start = report.length - 5;
  const view = new DataView(report.buffer, report.byteOffset + start, 5);
  const exponent = view.getInt8(2);
  const digits = String(view.getUint16(3, true));
  if (digits === '0') return '0';
  if (exponent >= 0) return digits + '0'.repeat(exponent);
  const padded = digits.padStart(1 - exponent, '0');
  const point = padded.length + exponent;
  return `${padded.slice(0, point)}.${padded.slice(point)}`.replace(/\.?0*$/, '');
}

test('hid: no exception, and no weight that no complete report carried', () => {
  const random = randomFrom(seed);
  let weights = 0;
  for (let run = 0; run < runs; run += 1) {
    let decoder = listen('hid');
    for (const report of someReports(random)) {
      decoder = decoder.feed(report);
      for (const reading of weightsOf(decoder.found)) {
        weights += 1;
        const [status] = report.subarray(report.length - 5);
        const told = { seed, run, report: [...report] };
        // a report of five or six bytes is the device's own; longer ones end in zeros
        if (report.length > 6) continue;
        const value = canonical(reading.value!);
        const carried = [2, 3, 4].includes(status!) ? secondWitness(report) : 'none';
        if (value !== carried) expect({ ...told, value }).toEqual({ ...told, value: carried });
      }
    }
  }
  expect(weights).toBeGreaterThan(runs / 10);
});

test.each(['hid', ...streams] as const)(
  '%s: ten thousand bytes of noise do not pile up',
  (name) => {
    const random = randomFrom(seed + 2);
    let decoder = listen(name);
    for (let piece = 0; piece < 100; piece += 1) {
      decoder = decoder.feed(Uint8Array.from({ length: 100 }, () => 33 + random.below(90)));
    }
    const longest = decoder.found.map((each) => each.carriedBy.length);
    expect(Math.max(0, ...longest)).toBeLessThanOrEqual(400);
  },
);

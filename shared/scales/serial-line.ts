/** How a serial line is set: speed, bits, parity; written as "9600 8N1". */

/** Settings of a serial line. */
export interface SerialLine {
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
  readonly stopBits: 1 | 2;
}

const parities = { N: 'none', E: 'even', O: 'odd' } as const;
const form = /^(\d{3,6})(?: +([78])([NEO])([12]))?$/i;

/** Reads "2400 7E1", or "9600" for 9600 8N1; undefined when it is no such text. */
export function serialLine(text: string): SerialLine | undefined {
  const match = form.exec(text.trim());
  if (!match) return undefined;
  const [, baud = '', bits, parity, stop] = match;
  return {
    baudRate: Number.parseInt(baud, 10),
    dataBits: bits === '7' ? 7 : 8,
    parity: parities[(parity?.toUpperCase() ?? 'N') as keyof typeof parities],
    stopBits: stop === '2' ? 2 : 1,
  };
}

/** The settings as text: "2400 7E1". */
export function serialLineText({ baudRate, dataBits, parity, stopBits }: SerialLine): string {
  const letter = { none: 'N', even: 'E', odd: 'O' }[parity];
  return `${baudRate} ${dataBits}${letter}${stopBits}`;
}

/** Bytes of scales for tests: from text, from hex, and what a decoder found, in short words. */
import { canonical } from '../../shared/decimal.js';
import { listen, type DecoderName } from '../../shared/scales/decoders.js';
import type { Decoded } from '../../shared/scales/reading.js';

/** Bytes of a text, one a character (latin-1). */
export function bytesOf(text: string): Uint8Array {
  return Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)));
}

/** Bytes of hex: "03 04 0C FE 11 03". */
export function hex(text: string): Uint8Array {
  return Uint8Array.from(text.split(' ').map((pair) => parseInt(pair, 16)));
}

/** One finding in a line: "42.3 g stable gross", "over", "damage new_width", "reply accepted". */
export function inShort(found: Decoded): string {
  if (found.kind === 'damage') return `damage ${found.why}`;
  if (found.kind === 'reply') return `reply ${found.reply}`;
  if (found.value === undefined || found.unit === undefined) return found.status;
  const words = [canonical(found.value), found.unit];
  if (found.stable !== undefined) words.push(found.stable ? 'stable' : 'moving');
  if (found.mode !== 'unknown') words.push(found.mode);
  if (found.atZero) words.push('at zero');
  return words.join(' ');
}

/** All that a decoder finds in pieces of a stream, from the connect on. */
export function heard(name: DecoderName, pieces: readonly Uint8Array[]): Decoded[] {
  let decoder = listen(name);
  const found: Decoded[] = [];
  for (const piece of pieces) {
    decoder = decoder.feed(piece);
    found.push(...decoder.found);
  }
  return found;
}

/** Ids of the invented studio: the same on every machine, so that an example can name one. */
import { createHash } from 'node:crypto';
import type { Chance } from './chance.js';

/** What every id here begins from (RFC 9562, 5.5: a name-based id of a chosen name space). */
const space = Buffer.from('0b0c7a5e9d5c5c1e9f00b07f07a77e12', 'hex');

/** A name-based id, version 5: `idOf('product', 'Foil')`. */
export function idOf(what: string, name: string): string {
  const hash = createHash('sha1').update(space).update(`${what}/${name}`).digest();
  hash[6] = ((hash[6] ?? 0) & 0x0f) | 0x50;
  hash[8] = ((hash[8] ?? 0) & 0x3f) | 0x80;
  return written(hash.toString('hex'));
}

/** An id that sorts by time, version 7 (RFC 9562, 5.7), its chance taken from the story's. */
export function idAt(millis: number, chance: Chance): string {
  const time = millis.toString(16).padStart(12, '0');
  const digits = (count: number) =>
    Math.floor(chance.next() * 16 ** count)
      .toString(16)
      .padStart(count, '0');
  const variant = (8 + Math.floor(chance.next() * 4)).toString(16);
  return written(`${time}7${digits(3)}${variant}${digits(7)}${digits(8)}`);
}

function written(hex: string): string {
  return [
    [0, 8] as const,
    [8, 12] as const,
    [12, 16] as const,
    [16, 20] as const,
    [20, 32] as const,
  ]
    .map(([from, to]) => hex.slice(from, to))
    .join('-');
}

/** The studio itself. */
export const saltmarshRow = idOf('studio', 'Saltmarsh Row');

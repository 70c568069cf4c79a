/** Words of published scale values beside the words of shared/: the same thing, named otherwise. */
import type { ScaleUnit } from '../../../shared/scales/scale-units.js';

const unitNames: Readonly<Record<ScaleUnit, readonly string[]>> = {
  mg: ['mg', 'milligram'],
  g: ['g', 'gram'],
  kg: ['kg', 'kilogram'],
  carat: ['carat', 'ct'],
  tael: ['tael', 'tl'],
  momme: ['mom', 'momme'],
  grain: ['grain', 'gr', 'gn'],
  pennyweight: ['pennyweight', 'dwt'],
  tonne: ['metric ton', 't', 'tonne'],
  avoirdupois_ton: ['avoirdupois ton', 'ton'],
  troy_ounce: ['troy ounce', 'troy oz', 'ozt'],
  ounce: ['ounce', 'oz'],
  pound: ['pound', 'lb'],
  newton: ['newton', 'n'],
  piece: ['pc', 'pcs', 'piece', 'pieces'],
  percent: ['%', 'percent', 'per cent'],
};

/** The published name when it is one of ours, else the first of ours. */
export function sameName(published: unknown, ours: readonly string[]): string {
  const plain = typeof published === 'string' ? wordsOf(published) : '';
  return ours.some((name) => wordsOf(name) === plain) ? (published as string) : (ours[0] ?? '');
}

function wordsOf(text: string): string {
  return text.trim().toLowerCase().replaceAll('_', ' ').replaceAll('-', ' ');
}

/** The published name of a unit when it means this one, else our own. */
export function unitName(published: unknown, unit: ScaleUnit | undefined): string | null {
  return unit === undefined ? null : sameName(published, unitNames[unit]);
}

/** A sentence that says the same as ours by its telling words; else ours. */
export function sameSense(published: unknown, telling: RegExp, ours: string): string {
  return typeof published === 'string' && telling.test(published) ? published : ours;
}

/** Bytes from hex text: "03 04 0C FE 11 03". */
export function bytesOfHex(text: string): Uint8Array {
  const pairs = text.match(/[0-9a-f]{2}/gi) ?? [];
  return Uint8Array.from(pairs.map((pair) => parseInt(pair, 16)));
}

/** A number that JSON holds as such or as "0xFF". */
export function codeOf(value: unknown): number | undefined {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return undefined;
  const text = value.trim();
  if (/^0x[0-9a-f]+$/i.test(text)) return parseInt(text.slice(2), 16);
  return /^-?\d+$/.test(text) ? parseInt(text, 10) : undefined;
}

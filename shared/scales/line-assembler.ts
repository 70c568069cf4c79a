/** Cuts a stream of bytes into lines of text; bounded, and sceptical about where it came in. */
import { damage, type Damage } from './reading.js';

/** State between pieces of the stream. */
export interface LineState {
  /** Bytes of the line under way, as text. */
  readonly pending: string;
  /** `midway`: came in somewhere inside a line; `overlong`: the line already ran too long. */
  readonly standing: 'midway' | 'in_line' | 'overlong';
}

/** State right after a connect: the line under way may have begun before. */
export const lineStart: LineState = { pending: '', standing: 'midway' };

/** Longest line of any known scale is well under this; more is noise. */
export const longestLine = 96;

const carriageReturn = 0x0d;
const lineFeed = 0x0a;

/** A complete line, or why there is none. */
export type Line = { readonly kind: 'line'; readonly text: string } | Damage;

/**
 * Takes bytes as they arrive, in any pieces. A line ends with CR, LF or both; empty lines are
 * nothing. The first line after a connect is dropped, because its beginning was not seen.
 */
export function feedLines(
  state: LineState,
  bytes: Uint8Array,
): { readonly state: LineState; readonly lines: readonly Line[] } {
  const lines: Line[] = [];
  let { pending, standing } = state;
  for (const byte of bytes) {
    if (byte === carriageReturn || byte === lineFeed) {
      if (pending !== '' || standing === 'overlong') lines.push(closed(pending, standing));
      pending = '';
      standing = 'in_line';
    } else if (pending.length < longestLine) {
      pending += String.fromCharCode(byte);
    } else if (standing !== 'midway') {
      standing = 'overlong';
    }
  }
  return { state: { pending, standing }, lines };
}

function closed(text: string, standing: LineState['standing']): Line {
  if (standing === 'midway') return damage('started_midway', text);
  if (standing === 'overlong') return damage('too_long', text);
  if (!isPrintable(text)) return damage('not_text', text);
  return { kind: 'line', text };
}

/** True for blanks and visible ASCII only; anything else in a line of a scale is noise. */
export function isPrintable(text: string): boolean {
  return /^[\x20-\x7e]*$/.test(text);
}

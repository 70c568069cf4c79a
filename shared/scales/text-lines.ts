/** A stream of text lines from a serial scale, in whichever of the known forms it speaks. */
import { noLengthYet, seeLength, type KnownLength } from './believed-length.js';
import { readEchoLine, readLetterLine } from './echo-line.js';
import { readHeaderLine } from './header-line.js';
import { readLegendLine } from './legend-line.js';
import { feedLines, lineStart, type LineState } from './line-assembler.js';
import { readModeLine } from './mode-line.js';
import { damage, type Decoded, type Fed } from './reading.js';

/** State between pieces of the stream. */
export interface TextLinesState {
  readonly line: LineState;
  readonly length: KnownLength;
}

/** State right after a connect. */
export const textLinesStart: TextLinesState = { line: lineStart, length: noLengthYet };

const forms = [readModeLine, readHeaderLine, readLetterLine, readLegendLine, readEchoLine] as const;

/** One complete line without its end; damage `unreadable` when it fits no known form. */
export function readTextLine(line: string): Decoded {
  for (const read of forms) {
    const found = read(line);
    if (found) return found;
  }
  return damage('unreadable', line);
}

/**
 * Bytes as they arrive, in any pieces; readings, replies and damage in their order. A lost
 * digit or letter can leave a readable line ("18.000kg" -> "8.000kg", "kg" -> "g"), so a line
 * of a new width must come twice in a row to be believed.
 */
export function feedTextLines(state: TextLinesState, bytes: Uint8Array): Fed<TextLinesState> {
  const { state: line, lines } = feedLines(state.line, bytes);
  const found: Decoded[] = [];
  let length = state.length;
  for (const each of lines) {
    const decoded = each.kind === 'line' ? readTextLine(each.text) : each;
    if (decoded.kind !== 'reading') {
      found.push(decoded);
      continue;
    }
    const { ok, ...seen } = seeLength(length, widthOf(decoded.carriedBy));
    length = seen;
    found.push(ok ? decoded : damage('new_width', decoded.carriedBy));
  }
  return { state: { line, length }, found };
}

/** Width up to the end of the unit: the stability mark and the legend behind it come and go. */
function widthOf(line: string): number {
  return (/^.*\d\D*?[A-Za-z%]+/.exec(line)?.[0] ?? line).length;
}

/** How the serial scale of this device spoke last, so that it need not be found out again. */
import type { Way } from '../../../shared/scales/conversation.js';
import { decoderNames } from '../../../shared/scales/decoders.js';
import { serialLine, serialLineText } from '../../../shared/scales/serial-line.js';

const place = 'bowlworth.serial-way';

/** The way it spoke; undefined where nothing is kept that can be used. */
export function keptWay(): Way | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? 'null') as Record<string, unknown>;
    const line = serialLine(String(kept['line']));
    const decoder = decoderNames.find((name) => name === kept['decoder']);
    if (!line || !decoder || decoder === 'hid') return undefined;
    const { ask } = kept;
    return { line, decoder, ...(typeof ask === 'string' ? { ask } : {}) };
  } catch {
    return undefined;
  }
}

/** Keeps it, or forgets it. */
export function keepWay(way: Way | undefined): void {
  if (!way) return localStorage.removeItem(place);
  localStorage.setItem(place, JSON.stringify({ ...way, line: serialLineText(way.line) }));
}

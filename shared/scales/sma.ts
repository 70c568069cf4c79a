/** The scale protocol SMA SCP-0499 (Scale Manufacturers Association): LF, fields, CR. */
import { figureOf, readingOf } from './figure.js';
import { isPrintable, longestLine } from './line-assembler.js';
import {
  damage,
  withoutFigure,
  type Damage,
  type Decoded,
  type Fed,
  type Reading,
  type Reply,
} from './reading.js';
import { unitOfText } from './scale-units.js';

/** Requests of the protocol that the bench uses. */
export const smaRequests = { weight: '\nW\r', zero: '\nZ\r', tare: '\nT\r' } as const;

/** A weight reply as written: "\n 1G       7.025kg \r". */
export interface SmaFields {
  readonly status: 'Z' | 'O' | 'U' | 'E' | 'I' | 'T' | ' ';
  readonly range: string;
  readonly mode: 'G' | 'N' | 'T' | 'g' | 'n';
  readonly motion: boolean;
  readonly weight: string;
  readonly unit: string;
}

// the reserved column may hold anything but a part of the number: that is a shifted field
const weightForm = /^([ZOUEIT ])([1-9])([GNTgn])([M ])[^\d.+-](.{10})(.{3})$/;
const capacityForm = /^CAP:(.{1,3}):(\d{1,9}):(\d{1,4}):(\d)$/;
const diagnosticsForm = /^([R ])([E ])([C ]).$/;

/** The columns of a weight reply without its LF and CR; undefined when it is none. */
export function smaFields(text: string): SmaFields | undefined {
  const match = weightForm.exec(text);
  if (!match) return undefined;
  const [, status, range = '', mode, motion, weight = '', unit = ''] = match;
  return {
    status: status as SmaFields['status'],
    range,
    mode: mode as SmaFields['mode'],
    motion: motion === 'M',
    weight,
    unit: unit.trim(),
  };
}

/** One reply without its LF and CR: a reading, another answer, or damage `unreadable`. */
export function readSmaReply(text: string): Decoded {
  const fields = smaFields(text);
  if (fields) return readSmaWeight(fields, text);
  if (text === '?') return reply('unknown_command', {}, text);
  if (text === '!') return reply('line_error', {}, text);
  const capacity = capacityForm.exec(text);
  if (capacity) return capacityOf(capacity, text);
  const faults = diagnosticsForm.exec(text);
  if (faults) return diagnosticsOf(faults, text);
  if (/^[A-Z]{3}:/.test(text)) return reply('information', { text }, text);
  return damage('unreadable', text);
}

function reply(name: Reply['reply'], facts: Reply['facts'], carriedBy: string): Reply {
  return { kind: 'reply', reply: name, facts, carriedBy };
}

function capacityOf(
  [, unit = '', capacity = '', countBy = '', decimals = '']: RegExpExecArray,
  text: string,
): Reply {
  return reply('capacity', { unit: unit.trim(), capacity, countBy, decimals }, text);
}

function diagnosticsOf([, memory, eeprom, calibration]: RegExpExecArray, text: string): Reply {
  const facts = {
    ramOrRomError: memory === 'R',
    eepromError: eeprom === 'E',
    calibrationError: calibration === 'C',
  };
  return reply('diagnostics', facts, text);
}

function readSmaWeight(fields: SmaFields, text: string): Reading | Damage | Reply {
  const mode = modeOf(fields.mode);
  switch (fields.status) {
    case 'O':
      return withoutFigure('over', text, mode);
    case 'U':
      return withoutFigure('under', text, mode);
    case 'E':
    case 'I':
      return withoutFigure('needs_zero', text, mode);
    case 'T':
      return withoutFigure('fault', text, mode);
    case 'Z':
    case ' ':
      break;
  }
  const figure = fields.weight.endsWith(' ') ? undefined : figureOf(fields.weight);
  if (!figure) return damage('unreadable', text);
  if (fields.mode === 'T') {
    return reply('tare', { weight: fields.weight.trim(), unit: fields.unit }, text);
  }
  const unit = unitOfText(fields.unit);
  if (!unit) return damage('unknown_unit', text);
  const atZero = fields.status === 'Z';
  return readingOf(figure, { unit, stable: !fields.motion, mode, atZero, carriedBy: text });
}

function modeOf(letter: SmaFields['mode']): Reading['mode'] {
  if (letter === 'G' || letter === 'g') return 'gross';
  return letter === 'T' ? 'unknown' : 'net';
}

/** State between pieces of the stream; undefined outside a reply. */
export interface SmaState {
  readonly pending: string | undefined;
}

/** State right after a connect: nothing is a reply until an LF begins one. */
export const smaStart: SmaState = { pending: undefined };

/**
 * Bytes as they arrive, in any pieces. A reply begins with LF and ends with CR; what stands
 * outside of one, and a reply broken off by the next LF, carries nothing.
 */
export function feedSma(state: SmaState, bytes: Uint8Array): Fed<SmaState> {
  const found: Decoded[] = [];
  let pending = state.pending;
  for (const byte of bytes) {
    if (byte === 0x0a) {
      if (pending) found.push(damage('unreadable', pending));
      pending = '';
    } else if (byte === 0x0d) {
      if (pending) found.push(isPrintable(pending) ? readSmaReply(pending) : noise(pending));
      pending = undefined;
    } else if (pending !== undefined) {
      pending += String.fromCharCode(byte);
      if (pending.length > longestLine) {
        found.push(damage('too_long', pending));
        pending = undefined;
      }
    }
  }
  return { state: { pending }, found };
}

function noise(text: string): Damage {
  return damage('not_text', text);
}

/** A short polled protocol: LF weight unit CR LF status bytes CR ETX. */
import { noLengthYet, seeLength, type KnownLength } from './believed-length.js';
import { figureOf, readingOf } from './figure.js';
import { longestLine } from './line-assembler.js';
import { damage, withoutFigure, type Damage, type Decoded, type Fed } from './reading.js';
import { unitOfText } from './scale-units.js';

/** Requests of the protocol that the bench uses. */
export const polledRequests = { weight: 'W\r', zero: 'Z\r' } as const;

/** What the status bytes say; bit 7 is parity and not looked at. */
export interface StatusBits {
  readonly motion: boolean;
  readonly atZero: boolean;
  readonly ramError: boolean;
  readonly eepromError: boolean;
  readonly underCapacity: boolean;
  readonly overCapacity: boolean;
  readonly romError: boolean;
  readonly calibrationFault: boolean;
  /** From the third byte, where there is one. */
  readonly net: boolean | undefined;
  readonly zeroError: boolean;
}

const alwaysOn = 0x30;
const another = 0x40;

/** Reads two or three status bytes; undefined when bits that never vary are wrong. */
export function statusBits(bytes: readonly number[]): StatusBits | undefined {
  const [first = 0, second = 0, third] = bytes;
  if (bytes.length < 2 || bytes.length > 3) return undefined;
  if (bytes.some((byte) => (byte & alwaysOn) !== alwaysOn)) return undefined;
  if (first & another) return undefined;
  const more = (second & another) !== 0;
  if (more !== (third !== undefined) || (third !== undefined && third & another)) return undefined;
  const on = (byte: number | undefined, bit: number) => ((byte ?? 0) & (1 << bit)) !== 0;
  return {
    motion: on(first, 0),
    atZero: on(first, 1),
    ramError: on(first, 2),
    eepromError: on(first, 3),
    underCapacity: on(second, 0),
    overCapacity: on(second, 1),
    romError: on(second, 2),
    calibrationFault: on(second, 3),
    net: third === undefined ? undefined : on(third, 2),
    zeroError: on(third, 3),
  };
}

/** What a weight field filled with one sign means: "^^^^^" over capacity; else undefined. */
export function filledField(
  field: string,
): 'over_capacity' | 'under_capacity' | 'zero_error' | undefined {
  const text = field.trim();
  if (/^\^+$/.test(text)) return 'over_capacity';
  if (/^_+$/.test(text)) return 'under_capacity';
  return /^-{2,}$/.test(text) ? 'zero_error' : undefined;
}

const statusOnly = /^\n([\x00-\xff]{2,3})\r$/;
const weightForm = /^\n([ \d.^_-]+?) ?([A-Za-z]{1,3})?\r\n([^\r\n]{2,3})\r$/;

/** One answer without its ETX; damage `unreadable` when it fits no known form. */
export function readPolledAnswer(text: string): Decoded {
  if (text === '\n?\r') {
    return { kind: 'reply', reply: 'unknown_command', facts: {}, carriedBy: text };
  }
  const weight = weightForm.exec(text);
  if (weight) return readPolledWeight(weight[1]!, weight[2] ?? '', weight[3]!, text);
  const status = statusOnly.exec(text);
  const bits = status && statusBits(codes(status[1]!));
  if (!bits) return damage('unreadable', text);
  const { motion, atZero, underCapacity, overCapacity } = bits;
  const facts = { motion, atZero, underCapacity, overCapacity, fault: hasFault(bits) };
  return { kind: 'reply', reply: 'status', facts, carriedBy: text };
}

function codes(text: string): number[] {
  return [...text].map((letter) => letter.charCodeAt(0));
}

function hasFault(bits: StatusBits): boolean {
  return bits.ramError || bits.eepromError || bits.romError;
}

function readPolledWeight(field: string, unitText: string, status: string, text: string): Decoded {
  const bits = statusBits(codes(status));
  if (!bits) return damage('unknown_status', text);
  const mode = bits.net === undefined ? 'unknown' : bits.net ? 'net' : 'gross';
  const filled = filledField(field);
  if (bits.overCapacity || filled === 'over_capacity') return withoutFigure('over', text, mode);
  if (bits.underCapacity || filled === 'under_capacity') return withoutFigure('under', text, mode);
  if (bits.zeroError || filled === 'zero_error') return withoutFigure('needs_zero', text, mode);
  if (bits.calibrationFault) return withoutFigure('needs_calibration', text, mode);
  if (hasFault(bits)) return withoutFigure('fault', text, mode);
  const figure = figureOf(field);
  if (!figure) return damage('unreadable', text);
  const unit = unitOfText(unitText);
  if (!unit) return damage('unknown_unit', text);
  return readingOf(figure, {
    unit,
    stable: !bits.motion,
    mode,
    atZero: bits.atZero,
    carriedBy: text,
  });
}

/** State between pieces of the stream; `pending` is undefined outside an answer. */
export interface PolledState {
  readonly pending: string | undefined;
  readonly length: KnownLength;
}

/** State right after a connect: nothing is an answer until an LF begins one. */
export const polledStart: PolledState = { pending: undefined, length: noLengthYet };

/**
 * Bytes as they arrive, in any pieces. An answer begins with LF and ends with ETX. The width of
 * the weight is not fixed by the protocol, so a new length must come twice to be believed.
 */
export function feedPolled(state: PolledState, bytes: Uint8Array): Fed<PolledState> {
  const found: Decoded[] = [];
  let { pending, length } = state;
  for (const byte of bytes) {
    if (pending === undefined) {
      if (byte === 0x0a) pending = '\n';
    } else if (byte === 0x03) {
      const answer = readPolledAnswer(pending);
      const judged = answer.kind === 'reading' ? believed(answer, pending, length) : undefined;
      length = judged?.length ?? length;
      found.push(judged?.found ?? answer);
      pending = undefined;
    } else {
      pending += String.fromCharCode(byte);
      if (pending.length > longestLine) {
        found.push(damage('too_long', pending));
        pending = undefined;
      }
    }
  }
  return { state: { pending, length }, found };
}

function believed(
  answer: Decoded,
  text: string,
  known: KnownLength,
): { length: KnownLength; found: Decoded | Damage } {
  const { ok, ...length } = seeLength(known, text.length);
  return { length, found: ok ? answer : damage('new_width', text) };
}

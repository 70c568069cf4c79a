/** Talking with a serial scale: finding out how it speaks, asking it, hearing it; pure. */
import { listen, requestsOf, type DecoderName, type Listening } from './decoders.js';
import type { Decoded } from './reading.js';
import { serialLine, type SerialLine } from './serial-line.js';

/** How a scale may speak: the line, the form of its answers, and what makes it speak. */
export interface Way {
  readonly line: SerialLine;
  readonly decoder: Exclude<DecoderName, 'hid'>;
  /** What to send for a weight; absent: it speaks by itself. */
  readonly ask?: string;
}

/** A polled scale is asked this often, or as fast as it answers. */
export const askEveryMs = 100;
/** It is asked again when it has said nothing for so long. */
export const askAgainMs = 500;
/** So long a way is tried: four lines of a slow scale, or a question and a late answer. */
const listenMs = 1500;
const answerMs = 800;
/** A longer pause between two ticks was the program's own, and does not count against a way. */
const longestTickMs = 100;

// 2400 7E1 was seen in a bench scale's firmware; the others `memory`
const usual = ['9600 8N1', '2400 7E1', '4800 8N1', '19200 8N1', '9600 7E1', '1200 7E1'];
/** Lines worth trying, the likeliest first. */
export const usualLines: readonly SerialLine[] = usual.flatMap((text) => serialLine(text) ?? []);

// a request of the letter form: `memory`
const letterRequest = 'SI\r\n';

/** The ways to speak over one line: waiting for lines, or asking in each protocol there is. */
export function waysOn(line: SerialLine): readonly [Way, ...Way[]] {
  const asking = (['sma', 'status_bytes'] as const).flatMap((decoder) => {
    const ask = requestsOf(decoder)?.weight;
    return ask === undefined ? [] : [{ line, decoder, ask }];
  });
  const letters = { line, decoder: 'text_lines', ask: letterRequest } as const;
  return [{ line, decoder: 'text_lines' }, ...asking, letters];
}

/** Every way worth trying; a line is opened once for all of its ways. */
export const waysToTry: readonly Way[] = usualLines.flatMap(waysOn);

/** Where a conversation stands. */
export interface Conversation {
  readonly ways: readonly Way[];
  readonly index: number;
  /** A reading has come in this way. */
  readonly known: boolean;
  /** The first way is kept while the line is silent: the scale may sleep. */
  readonly trusted: boolean;
  readonly heardBytes: boolean;
  readonly sinceMs: number;
  readonly tickedAtMs: number;
  readonly listening: Listening;
  readonly askedAtMs: number | undefined;
  readonly answered: boolean;
}

/** What follows from an event: what was found, what to send, what to open. */
export interface Turn {
  readonly state: Conversation;
  readonly found: readonly Decoded[];
  readonly say?: string;
  /** Close the port and open it so; then tell `opened`. */
  readonly reopen?: SerialLine;
  /** No way was right: this does not speak as a scale does. */
  readonly gaveUp?: true;
}

/**
 * A conversation before the port is opened with the line of its first way. With `trusted` the
 * first way is left only when the line speaks and nothing of it can be believed.
 * @throws RangeError without a way
 */
export function conversation(ways: readonly Way[], trusted = false): Conversation {
  const [first] = ways;
  if (!first) throw new RangeError('A conversation without a way.');
  return {
    ways,
    index: 0,
    known: false,
    trusted,
    heardBytes: false,
    sinceMs: 0,
    tickedAtMs: 0,
    listening: listen(first.decoder),
    askedAtMs: undefined,
    answered: false,
  };
}

/** The way that is spoken, or tried, now. */
export function wayOf({ ways, index }: Conversation): Way {
  const way = ways[index];
  if (!way) throw new RangeError('A conversation without a way.');
  return way;
}

/** The port is open, at a moment of the caller's clock in ms: hears as right after a connect. */
export function opened(state: Conversation, atMs: number): Conversation {
  const listening = listen(wayOf(state).decoder);
  const silent = { heardBytes: false, askedAtMs: undefined, answered: false };
  return { ...state, ...silent, sinceMs: atMs, tickedAtMs: atMs, listening };
}

/** Bytes have come in. What is found counts once a reading has shown that the way is right. */
export function heardBytes(state: Conversation, bytes: Uint8Array): Turn {
  const listening = state.listening.feed(bytes);
  const { found } = listening;
  const known = state.known || found.some(({ kind }) => kind === 'reading');
  const answered = state.answered || found.length > 0;
  const heard = state.heardBytes || bytes.length > 0;
  return {
    state: { ...state, listening, known, answered, heardBytes: heard },
    found: known ? found : [],
  };
}

/** Time has passed, at a moment of the caller's clock in ms: ask, or try the next way. */
export function timePassed(before: Conversation, atMs: number): Turn {
  const own = Math.max(0, atMs - before.tickedAtMs - longestTickMs);
  const state = { ...before, tickedAtMs: atMs, sinceMs: before.sinceMs + own };
  const way = wayOf(state);
  if (mayLeave(state) && atMs - state.sinceMs > (way.ask === undefined ? listenMs : answerMs)) {
    return nextWay(state, way, atMs);
  }
  if (way.ask === undefined || !isDue(state, atMs)) return { state, found: [] };
  return { state: { ...state, askedAtMs: atMs, answered: false }, found: [], say: way.ask };
}

function mayLeave({ known, ways, index, trusted, heardBytes }: Conversation): boolean {
  if (known || ways.length === 1) return false;
  return index > 0 || !trusted || heardBytes;
}

function nextWay(state: Conversation, before: Way, atMs: number): Turn {
  const index = state.index + 1;
  const way = state.ways[index];
  if (!way) return { state, found: [], gaveUp: true };
  const next = opened({ ...state, index }, atMs);
  return { state: next, found: [], ...(way.line === before.line ? {} : { reopen: way.line }) };
}

function isDue({ askedAtMs, answered }: Conversation, atMs: number): boolean {
  if (askedAtMs === undefined) return true;
  return atMs - askedAtMs >= (answered ? askEveryMs : askAgainMs);
}

/** The agent's line to the service: finds its bench, brings the readings, comes back by itself. */
import { WebSocket } from 'ws';
import { bringsReadings, longestMessage } from '../../../shared/scales/wire.js';
import type { ReadingHub } from './reading-hub.js';
import { pause, pauseMs } from './retry.js';

/** Where the service is, and as whom the agent comes. */
export interface ServiceWords {
  /** "http://localhost:4180" */
  readonly url: string;
  readonly token: string;
  /** Name or id of the bench, where the token does not stand at one. */
  readonly bench: string | undefined;
}

/** The service refused: trying again at once changes nothing. */
class Refused extends Error {}

/** Another agent took this bench over. */
const replaced = 4409;
const refusedPauseMs = 60_000;
/** The service pings every 20 s; longer silence, and the line is dead. */
const silentMs = 45_000;
const openingMs = 10_000;
const waitingBytes = 32 * 1024;

export class ServiceLink {
  private benchId: string | undefined;
  private said = '';

  constructor(
    private readonly words: ServiceWords,
    private readonly hub: ReadingHub,
    private readonly say: (sentence: string) => void,
  ) {}

  /** Keeps the line open until it is called off, or another agent reads for this bench. */
  async keep(until: AbortSignal): Promise<void> {
    let failures = 0;
    while (!until.aborted) {
      let wait = pauseMs(failures + 1);
      try {
        const code = await this.bring(until);
        if (code === replaced) return this.sayOnce('Another agent reads for this bench now.');
        failures = 0;
        wait = pauseMs(1);
        if (!until.aborted) this.sayOnce('The service is away; it is tried until it answers.');
      } catch (error) {
        failures += 1;
        if (error instanceof Refused) wait = refusedPauseMs;
        const why = error instanceof Error ? error.message : String(error);
        this.sayOnce(error instanceof Refused ? why : this.unreached(error));
      }
      await pause(wait, until);
    }
  }

  /** Opens the line and brings what the hub says. @returns the code it was closed with */
  private async bring(until: AbortSignal): Promise<number> {
    const benchId = (this.benchId ??= await this.findBench(until));
    const socket = new WebSocket(addressOf(this.words.url, benchId), [bringsReadings], {
      headers: { authorization: `Bearer ${this.words.token}` },
      handshakeTimeout: openingMs,
      perMessageDeflate: false,
      maxPayload: longestMessage,
    });
    const callOff = () => socket.close(1001);
    until.addEventListener('abort', callOff);
    try {
      return await this.converse(socket);
    } finally {
      until.removeEventListener('abort', callOff);
    }
  }

  private converse(socket: WebSocket): Promise<number> {
    return new Promise((done, fail) => {
      let leave = () => undefined as unknown;
      let silence: ReturnType<typeof setTimeout> | undefined;
      const alive = () => {
        clearTimeout(silence);
        silence = setTimeout(() => socket.terminate(), silentMs);
      };
      socket.on('open', () => {
        alive();
        this.sayOnce(`Bringing readings to ${this.words.url}.`);
        leave = this.hub.join((message, passing) => {
          if (!passing || socket.bufferedAmount < waitingBytes) socket.send(message);
        });
      });
      socket.on('ping', alive);
      socket.on('error', fail);
      socket.on('unexpected-response', (_, response) => {
        let body = '';
        response.on('data', (more: Buffer) => (body += more.toString()));
        response.on('end', () => {
          this.benchId = undefined;
          fail(problem(response.statusCode ?? 0, body));
        });
      });
      socket.on('close', (code) => {
        clearTimeout(silence);
        leave();
        done(code);
      });
    });
  }

  /** The bench of the token, else the one named, else the only one. @throws Refused */
  private async findBench(until: AbortSignal): Promise<string> {
    const session = await this.ask<{ bench: { id: string } | null }>('/session', until);
    if (session.bench) return session.bench.id;
    const { items } = await this.ask<{
      items: { id: string; name: string; retiredAt: string | null }[];
    }>('/benches?limit=500', until);
    const benches = items.filter(({ retiredAt }) => retiredAt === null);
    const wanted = this.words.bench?.toLowerCase();
    const fitting = benches.filter(
      ({ id, name }) => wanted === undefined || id === wanted || name.toLowerCase() === wanted,
    );
    const [only, ...others] = fitting;
    if (only && others.length === 0) return only.id;
    const names = benches.map(({ name }) => name).join(', ') || 'none';
    throw new Refused(`Which bench is this? Say it with --bench NAME (there are: ${names}).`);
  }

  private async ask<T>(path: string, until: AbortSignal): Promise<T> {
    const response = await fetch(new URL(`/api/v1${path}`, this.words.url), {
      headers: { authorization: `Bearer ${this.words.token}` },
      signal: AbortSignal.any([until, AbortSignal.timeout(openingMs)]),
    });
    if (!response.ok) throw problem(response.status, await response.text());
    return (await response.json()) as T;
  }

  private unreached(error: unknown): string {
    const { cause } = error as { cause?: { code?: string } };
    const code = (error as { code?: string }).code ?? cause?.code;
    const why = code === undefined ? '' : ` (${code})`;
    return `The service at ${this.words.url} does not answer${why}; it is tried until it does.`;
  }

  private sayOnce(sentence: string): void {
    if (sentence === this.said) return;
    this.said = sentence;
    this.say(sentence);
  }
}

function addressOf(url: string, benchId: string): URL {
  const address = new URL(`/api/v1/scales/${benchId}`, url);
  address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';
  return address;
}

/** What the service said: a refusal with its sentence, or that it is not well. */
function problem(status: number, body: string): Error {
  if (status >= 500 || status === 429) return new Error(`HTTP ${status}`);
  try {
    const { detail } = JSON.parse(body) as { detail?: unknown };
    if (typeof detail === 'string') return new Refused(`The service says: ${detail}`);
  } catch {
    // not the service's own words
  }
  return new Refused(`The service answers with ${status}. Is --service its address?`);
}

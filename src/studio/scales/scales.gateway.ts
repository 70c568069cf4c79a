/** The WebSocket of a bench's scale: who may open one, what comes in, when it is closed. */
import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import {
  Inject,
  Injectable,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyInstance } from 'fastify';
import type { Logger } from 'pino';
import { uuidv7 } from 'uuidv7';
import { WebSocketServer, type WebSocket } from 'ws';
import { Problem } from '../../../shared/problems/problem.js';
import { bringsReadings, hearsReadings, longestMessage } from '../../../shared/scales/wire.js';
import { LOGGER } from '../../platform/http/log.js';
import { detailOf, unexpected } from '../../platform/http/problem-filter.js';
import { Callers, type Caller, type IncomingRequest } from '../../platform/http/rights.js';
import { bringing, closing, hearing } from './scale-sockets.js';
import { ScalesService } from './scales.service.js';

const address = /^\/api\/v1\/scales\/([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})\/?$/i;
const pulseMs = 20_000;

/** What was asked for and is granted. */
interface Granted {
  readonly caller: Caller;
  readonly benchId: string;
  readonly brings: boolean;
  readonly request: IncomingRequest;
}

@Injectable()
export class ScalesGateway implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly sockets = new WebSocketServer({
    noServer: true,
    maxPayload: longestMessage,
    perMessageDeflate: false,
    handleProtocols: (offered) => (offered.has(bringsReadings) ? bringsReadings : hearsReadings),
  });
  private readonly open = new Map<WebSocket, { request: IncomingRequest; alive: boolean }>();
  private pulse: ReturnType<typeof setInterval> | undefined;

  constructor(
    @Inject(HttpAdapterHost) private readonly host: HttpAdapterHost,
    @Inject(Callers) private readonly callers: Callers,
    @Inject(ScalesService) private readonly scales: ScalesService,
    @Inject(LOGGER) private readonly log: Logger,
  ) {}

  onApplicationBootstrap(): void {
    this.listenOn(this.server.server);
    this.pulse = setInterval(() => void this.feelPulses(), pulseMs);
    this.pulse.unref();
  }

  onModuleDestroy(): void {
    clearInterval(this.pulse);
    for (const socket of this.open.keys()) socket.close(closing.away, 'The service stops.');
    for (const socket of this.open.keys()) setTimeout(() => socket.terminate(), 500).unref();
  }

  /** Also takes WebSockets that are opened on another server of this service. */
  listenOn(server: Pick<Server, 'on'>): void {
    server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
      socket.on('error', () => socket.destroy());
      this.grant(request).then(
        (granted) => this.admit(granted, request, socket, head),
        (error: unknown) => this.refuse(error, socket),
      );
    });
  }

  private get server(): FastifyInstance {
    return this.host.httpAdapter.getInstance<FastifyInstance>();
  }

  /** @throws Problem when it is not granted */
  private async grant(incoming: IncomingMessage): Promise<Granted> {
    const path = (incoming.url ?? '').split('?')[0] ?? '';
    const benchId = address.exec(path)?.[1]?.toLowerCase();
    if (benchId === undefined) {
      throw new Problem('no_such_address', { method: 'WebSocket', path });
    }
    const { headers } = incoming;
    refuseForeignPage(headers);
    const request = { headers, cookies: this.server.parseCookie(headers.cookie ?? '') };
    const caller = await this.callers.find(request);
    if (!caller) throw new Problem('not_signed_in', {});
    const wishes = (headers['sec-websocket-protocol'] ?? '').split(/ *, */);
    const brings = wishes.includes(bringsReadings);
    if (!brings && !wishes.includes(hearsReadings)) {
      throw new Problem('no_subprotocol', { brings: bringsReadings, hears: hearsReadings });
    }
    if (brings && caller.personId !== undefined) throw new Problem('only_programs_bring', {});
    await this.scales.mayReach(caller, benchId);
    return { caller, benchId, brings, request };
  }

  private admit(granted: Granted, incoming: IncomingMessage, socket: Duplex, head: Buffer): void {
    this.sockets.handleUpgrade(incoming, socket, head, (opened) => {
      const standing = { request: granted.request, alive: true };
      this.open.set(opened, standing);
      opened.on('pong', () => (standing.alive = true));
      opened.on('close', () => this.open.delete(opened));
      opened.on('error', () => opened.terminate());
      const { studioId } = granted.caller;
      if (granted.brings) bringing(opened, this.scales, studioId, granted.benchId);
      else hearing(opened, this.scales, studioId, granted.benchId);
    });
  }

  private refuse(error: unknown, socket: Duplex): void {
    const id = uuidv7();
    const known = error instanceof Problem ? (error as Problem) : undefined;
    const problem = known ? detailOf(known, id) : unexpected(id);
    if (!known) this.log.error({ requestId: id, err: error }, 'no WebSocket');
    const body = JSON.stringify(problem);
    socket.end(
      `HTTP/1.1 ${problem.status} Refused\r\nConnection: close\r\n` +
        `Content-Type: application/problem+json\r\nX-Request-Id: ${id}\r\n` +
        `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
    );
  }

  /** Lets go of who is silent, and of who may no longer be here: a revoked token, a shift over. */
  private async feelPulses(): Promise<void> {
    for (const [socket, standing] of [...this.open]) {
      if (!standing.alive) {
        socket.terminate();
        continue;
      }
      standing.alive = false;
      socket.ping();
      const known = await this.callers.find(standing.request).then(
        (caller) => caller !== undefined,
        () => true, // the database is away: nobody is sent off for that
      );
      if (!known) socket.close(closing.notSignedIn, 'Nobody is signed in any more.');
    }
  }
}

/** A browser says which page opens a WebSocket; only a page of this service may. */
function refuseForeignPage({ origin, host }: IncomingMessage['headers']): void {
  if (origin === undefined) return;
  if (URL.canParse(origin) && new URL(origin).host === host) return;
  throw new Problem('foreign_page', { origin });
}

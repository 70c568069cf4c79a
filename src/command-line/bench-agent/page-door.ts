/** Where pages on this machine hear the scale without the service: a WebSocket on 127.0.0.1. */
import { once } from 'node:events';
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import { hearsReadings, longestMessage } from '../../../shared/scales/wire.js';
import { httpsPortBeside } from '../../platform/settings.js';
import type { ReadingHub } from './reading-hub.js';

const loopback = '127.0.0.1';
const waitingBytes = 32 * 1024;

/** An open door. */
export interface PageDoor {
  /** "ws://127.0.0.1:4181" */
  readonly url: string;
  close(): Promise<void>;
}

/**
 * Opens it. Only a browser's page of one of these origins is let in, and only when it calls
 * the door by a loopback name: a page from elsewhere cannot listen in.
 * @throws Error with a sentence when the port is taken
 */
export async function openPageDoor(
  port: number,
  origins: readonly string[],
  hub: ReadingHub,
): Promise<PageDoor> {
  const server = createServer((_, response) => {
    response.writeHead(426, { Connection: 'close' }).end('A WebSocket is expected here.\n');
  });
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: longestMessage,
    perMessageDeflate: false,
    handleProtocols: (offered) => (offered.has(hearsReadings) ? hearsReadings : false),
  });
  server.on('upgrade', (request, socket: Duplex, head) => {
    socket.on('error', () => socket.destroy());
    const { port: own } = server.address() as AddressInfo;
    if (!isWelcome(request, origins, own)) {
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\nContent-Length: 0\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(request, socket, head, (page) => {
      const leave = hub.join((message, passing) => {
        if (!passing || page.bufferedAmount < waitingBytes) page.send(message);
      });
      page.on('close', leave);
      page.on('error', () => page.terminate());
      page.on('message', () => page.close(1008, 'This side only hears.'));
    });
  });
  server.listen(port, loopback);
  await once(server, 'listening').catch((error: unknown) => {
    const { code } = error as { code?: string };
    if (code !== 'EADDRINUSE') throw error;
    throw new Error(`Port ${port} is taken. Is another agent running? Choose one with --door.`);
  });
  return {
    url: `ws://${loopback}:${(server.address() as AddressInfo).port}`,
    close: async () => {
      for (const page of sockets.clients) page.terminate();
      server.close();
      server.closeAllConnections();
      await once(server, 'close');
    },
  };
}

/**
 * The origins of a service's page: its own, and where that is this machine, its other names and
 * https beside it.
 */
export function originsOf(serviceUrl: string): readonly string[] {
  const { protocol, hostname, host, port } = new URL(serviceUrl);
  if (!['localhost', '127.0.0.1', '[::1]'].includes(hostname)) return [`${protocol}//${host}`];
  const names = ['localhost', '127.0.0.1', '[::1]'];
  const behind = port === '' ? '' : `:${port}`;
  const own = names.map((name) => `${protocol}//${name}${behind}`);
  if (protocol !== 'http:' || port === '') return own;
  const beside = httpsPortBeside(Number.parseInt(port, 10));
  return [...own, ...names.map((name) => `https://${name}:${beside}`)];
}

function isWelcome(request: IncomingMessage, origins: readonly string[], port: number): boolean {
  const { origin, host } = request.headers;
  const names = [`${loopback}:${port}`, `localhost:${port}`];
  return origin !== undefined && origins.includes(origin) && names.includes(host ?? '');
}

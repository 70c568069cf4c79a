/** The second way in, for tablets: https with a certificate of our own, on a port of its own. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { createServer as createSecureServer, type Server as SecureServer } from 'node:https';
import { createServer as createTcpServer, type AddressInfo, type Socket } from 'node:net';

/** How a request is answered, as a server's own listener does it. */
export type Answerer = (request: IncomingMessage, response: ServerResponse) => void;

/** Certificate and key in PEM. */
export interface Shown {
  readonly cert: string;
  readonly key: string;
}

export interface DoorOptions {
  /** 0: whichever is free. */
  readonly port: number;
  /** All addresses of the machine where undefined. */
  readonly host: string | undefined;
  readonly shown: Shown;
  /** Answers over https. */
  readonly secure: Answerer;
  /** Answers who came over plain http, to be told how to trust the certificate. */
  readonly plain: Answerer;
}

/** An open door. */
export interface HttpsDoor {
  readonly port: number;
  /** For WebSockets: emits `upgrade` for those that came over https. */
  readonly server: Pick<Server, 'on'>;
  /** Shows another certificate from now on. */
  show(shown: Shown): void;
  /** Takes nobody any more, waits a moment for those who are being answered, and shuts. */
  close(): Promise<void>;
}

/** A TLS conversation begins with a record of this type (RFC 8446, 5.1); http with a letter. */
const handshake = 22;
const silentMs = 10_000;
const idleMs = 120_000;
const patienceMs = 3_000;

/**
 * Opens the door. On its port both https and plain http are understood, told apart by the first
 * byte: an address typed without "https://" leads to an explanation and not into a void.
 * @throws Error of node:net when it cannot listen, such as EADDRINUSE
 */
export async function openHttpsDoor(options: DoorOptions): Promise<HttpsDoor> {
  const answering = new Set<ServerResponse>();
  const counted = (answer: Answerer): Answerer => {
    return (request, response) => {
      answering.add(response);
      response.on('close', () => answering.delete(response));
      answer(request, response);
    };
  };
  const secure = createSecureServer(options.shown, counted(options.secure));
  const plain = createServer(counted(options.plain));
  for (const server of [secure, plain]) server.timeout = idleMs;
  const sockets = new Set<Socket>();
  const door = createTcpServer({ noDelay: true }, (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
    listenFirst(socket, secure, plain);
  });
  await listening(door, options);
  return {
    port: (door.address() as AddressInfo).port,
    server: secure,
    show: (shown) => secure.setSecureContext(shown),
    close: async () => {
      const shut = new Promise((done) => door.close(done));
      for (const response of answering) response.shouldKeepAlive = false;
      await Promise.race([allClosed(answering), afterPatience()]);
      for (const socket of sockets) socket.destroy();
      await shut;
    },
  };
}

function listenFirst(socket: Socket, secure: SecureServer, plain: Server): void {
  const leave = () => socket.destroy();
  socket.on('error', leave);
  socket.setTimeout(silentMs, leave);
  socket.once('data', (first) => {
    socket.setTimeout(0);
    socket.off('timeout', leave);
    socket.pause();
    socket.unshift(first);
    if (first[0] === handshake) {
      secure.emit('connection', socket); // it reads what has come by itself
    } else {
      plain.emit('connection', socket);
      socket.resume();
    }
  });
}

function listening(server: ReturnType<typeof createTcpServer>, { port, host }: DoorOptions) {
  return new Promise<void>((done, fail) => {
    server.once('error', fail);
    server.listen({ port, ...(host === undefined ? {} : { host }) }, () => {
      server.off('error', fail);
      done();
    });
  });
}

async function allClosed(answering: ReadonlySet<ServerResponse>): Promise<void> {
  await Promise.all(
    [...answering].map((response) => new Promise((done) => response.once('close', done))),
  );
}

function afterPatience(): Promise<void> {
  return new Promise((done) => setTimeout(done, patienceMs).unref());
}

/** A door in front of a service: shut, nobody answers at its address; opened, all is as before. */
import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';

export interface Door {
  /** Where the service is reached through it. */
  readonly origin: string;
  /** From now on nobody answers, and whoever was being answered is cut off. */
  shut(): Promise<void>;
  open(): Promise<void>;
  close(): Promise<void>;
}

/** Puts a door in front of the service at `origin`; it is open. */
export async function doorTo(origin: string): Promise<Door> {
  const { hostname, port } = new URL(origin);
  const sockets = new Set<Socket>();
  let server: Server | undefined;
  const listen = async (at: number) => {
    server = createServer((incoming) => {
      const outgoing = connect({ host: hostname, port: Number.parseInt(port, 10) });
      for (const [from, to] of [
        [incoming, outgoing],
        [outgoing, incoming],
      ] as const) {
        sockets.add(from);
        from.on('error', () => to.destroy()).on('close', () => to.destroy());
        from.pipe(to);
      }
    });
    server.listen(at, '127.0.0.1');
    await once(server, 'listening');
    const address = server.address();
    return typeof address === 'object' && address !== null ? address.port : at;
  };
  const own = await listen(0);
  const shut = async () => {
    const closing = server;
    server = undefined;
    if (!closing) return;
    const closed = once(closing, 'close');
    closing.close();
    for (const socket of sockets) socket.destroy();
    sockets.clear();
    await closed;
  };
  return {
    origin: `http://127.0.0.1:${own}`,
    shut,
    open: async () => {
      if (!server) await listen(own);
    },
    close: shut,
  };
}

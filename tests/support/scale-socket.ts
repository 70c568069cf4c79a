/** WebSockets of scales for tests: opens one, and waits for what it says. */
import { once } from 'node:events';
import { WebSocket } from 'ws';

/** A WebSocket that keeps what it was told. */
export class ScaleSocket {
  readonly told: Record<string, unknown>[] = [];
  private readonly waiting: (() => void)[] = [];
  closedWith: number | undefined;

  private constructor(readonly socket: WebSocket) {
    socket.on('message', (data: Buffer) => {
      this.told.push(JSON.parse(data.toString()) as Record<string, unknown>);
      for (const wake of this.waiting.splice(0)) wake();
    });
    socket.on('close', (code) => {
      this.closedWith = code;
      for (const wake of this.waiting.splice(0)) wake();
    });
  }

  /** Opens it; fails with the status and body of a refusal. */
  static async open(
    url: string,
    protocol: string,
    headers: Record<string, string> = {},
    tls: { readonly ca?: string } = {},
  ): Promise<ScaleSocket> {
    const socket = new WebSocket(url, protocol, { headers, ...tls });
    const opened = new ScaleSocket(socket);
    await new Promise<void>((done, refuse) => {
      socket.once('open', () => done());
      socket.once('error', refuse);
      socket.once('unexpected-response', (_, response) => {
        let body = '';
        response.on('data', (more: Buffer) => (body += more.toString()));
        response.on('end', () => refuse(new Error(`${response.statusCode} ${body}`)));
      });
    });
    return opened;
  }

  /** Waits until something told fits, from the first on, or from a later one. */
  async until(
    fits: (told: Record<string, unknown>) => boolean,
    from = 0,
  ): Promise<Record<string, unknown>> {
    for (;;) {
      const found = this.told.slice(from).find(fits);
      if (found) return found;
      if (this.closedWith !== undefined) throw new Error(`Closed with ${this.closedWith}.`);
      await new Promise<void>((wake) => this.waiting.push(wake));
    }
  }

  /** Waits until the other side closes it. @returns why */
  async closed(): Promise<number> {
    while (this.closedWith === undefined) {
      await new Promise<void>((wake) => this.waiting.push(wake));
    }
    return this.closedWith;
  }

  say(message: unknown): void {
    this.socket.send(typeof message === 'string' ? message : JSON.stringify(message));
  }

  async close(): Promise<void> {
    if (this.socket.readyState === WebSocket.CLOSED) return;
    const end = once(this.socket, 'close');
    this.socket.close();
    await end;
  }
}

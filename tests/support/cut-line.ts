/** A line to a service that a test can cut and join again: the network is away. */
import { once } from 'node:events';
import { connect, createServer, type AddressInfo, type Server, type Socket } from 'node:net';

export class CutLine {
  private server: Server | undefined;
  private port = 0;
  private readonly ends = new Set<Socket>();

  private constructor(private readonly to: URL) {}

  /** A line that leads to this address. */
  static async to(url: string): Promise<CutLine> {
    const line = new CutLine(new URL(url));
    await line.join();
    return line;
  }

  get url(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  /** Nothing passes any more, and nobody answers. */
  async cut(): Promise<void> {
    const { server } = this;
    this.server = undefined;
    if (!server) return;
    for (const end of this.ends) end.destroy();
    const closed = once(server, 'close');
    server.close();
    await closed;
  }

  /** It is there again, at the same address. */
  async join(): Promise<void> {
    this.server = createServer((near) => {
      const far = connect({ host: this.to.hostname, port: Number.parseInt(this.to.port, 10) });
      for (const [one, other] of [
        [near, far],
        [far, near],
      ] as const) {
        this.ends.add(one);
        one.on('error', () => other.destroy());
        one.on('close', () => {
          this.ends.delete(one);
          other.destroy();
        });
        one.pipe(other);
      }
    }).listen(this.port, '127.0.0.1');
    await once(this.server, 'listening');
    this.port = (this.server.address() as AddressInfo).port;
  }
}

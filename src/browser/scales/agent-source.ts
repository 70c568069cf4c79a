/** The bench agent: straight from this machine, or through the service from any other. */
import { readTold, type Told } from '../../../shared/scales/wire.js';
import { openDoor, type Door } from './agent-doors.js';
import { ScaleTrouble, type Heard, type ScaleSource } from './source.js';

const shortestMs = 500;
const longestMs = 10_000;

export class AgentSource implements ScaleSource {
  readonly name = 'agent';
  readonly mayBook = true;
  private hear: (heard: Heard) => void = () => undefined;
  private socket: WebSocket | undefined;
  private waking: ReturnType<typeof setTimeout> | undefined;
  private failures = 0;
  private away = false;
  private closed = false;

  /** @param doors ways to the agent, the nearest first */
  constructor(private readonly doors: readonly Door[]) {}

  /**
   * @throws ScaleTrouble `nobody_there` when neither the agent nor the service answers; where
   * only the agent or its scale is away, it is open, lost at once, and comes back by itself
   */
  async open(hear: (heard: Heard) => void): Promise<void> {
    const socket = await openDoor(this.doors);
    if (!socket) throw new ScaleTrouble('nobody_there');
    this.hear = hear;
    // what it says first comes after the source counts as open
    setTimeout(() => this.listen(socket), 0);
  }

  close(): Promise<void> {
    this.closed = true;
    this.hear = () => undefined;
    clearTimeout(this.waking);
    this.socket?.close();
    return Promise.resolve();
  }

  private listen({ socket, early }: Opened): void {
    if (this.closed) return socket.close();
    this.socket = socket;
    this.failures = 0;
    socket.onmessage = ({ data }: MessageEvent<unknown>) => this.take(data);
    socket.onclose = () => this.lost();
    for (const data of early.splice(0)) this.take(data);
    if (socket.readyState === WebSocket.CLOSED) this.lost();
  }

  private take(data: unknown): void {
    const told = typeof data === 'string' ? readTold(data) : undefined;
    this.tell(told ?? { type: 'damage' });
  }

  private tell(told: Told): void {
    if (told.type === 'lost') {
      this.away = true;
      this.hear(told);
      return;
    }
    if (this.away) this.hear({ type: 'back' });
    const wasAway = this.away;
    this.away = false;
    if (told.type === 'back') {
      // the same scale under a new agent: its line begins anew
      if (!wasAway) this.hear(told);
    } else {
      this.hear(told);
    }
  }

  private lost(): void {
    if (this.closed) return;
    this.tell({ type: 'lost', trouble: 'nobody_there' });
    this.again();
  }

  private again(): void {
    const wait = Math.min(longestMs, shortestMs * 2 ** this.failures);
    this.failures += 1;
    this.waking = setTimeout(() => {
      void openDoor(this.doors).then((opened) => {
        if (opened) this.listen(opened);
        else if (!this.closed) this.again();
      });
    }, wait);
  }
}

type Opened = NonNullable<Awaited<ReturnType<typeof openDoor>>>;

/**
 * What was done at the bench and is on its way to the service: on disk before it is shown as done,
 * sent in order, each once, tried again while nobody answers. What the service refuses goes to a
 * tray; nothing is thrown away. All tabs of a device have one line, and one of them sends.
 */
import { deviceNow } from '../shell/clock.js';
import { store, type Store } from '../shell/store.js';
import { reach, Refused, send, Unreached } from './calls.js';
import { device, type Device } from './device.js';
import { Line, plain, type NewPosting } from './line.js';
import { heldBy, nextOf, type KeptPosting, type Posting, type RefusedPosting } from './queue.js';
import { tabs, type Tabs } from './tabs.js';

export type { Posting, RefusedPosting } from './queue.js';

export interface OutboxState {
  /** Not sent yet, what waits for something refused included. */
  readonly waiting: readonly KeptPosting[];
  readonly refused: readonly RefusedPosting[];
  readonly sent: readonly KeptPosting[];
  /** Id of the refused posting that one waits for, by its id. */
  readonly held: ReadonlyMap<string, string>;
  /** The last try reached nobody. */
  readonly away: boolean;
  /** The service does not know this device any more; all waits. */
  readonly unknownHere: boolean;
}

type How = Pick<OutboxState, 'away' | 'unknownHere'>;
type OnAnswer = (answer: unknown) => void;

const allIsWell: How = { away: false, unknownHere: false };
const againAfterMs = [1000, 2000, 3000, 5000, 10_000, 15_000] as const;
/** So often an answer of "something went wrong in the service" is taken as passing. */
const faultsBorne = 4;

export class Outbox {
  readonly state: Store<OutboxState> = store<OutboxState>(stateOf([], allIsWell));
  private readonly line: Line;
  private readonly onAnswers = new Map<string, OnAnswer>();
  private how = allIsWell;
  private sending = new AbortController();
  private wake: () => void = () => undefined;

  constructor(
    private readonly kept: Device = device,
    private readonly others: Tabs = tabs,
    private readonly sendNow: typeof send = send,
  ) {
    this.line = new Line(kept, others, () => this.changed());
    kept.onOpen(() => this.begin());
    others.hear('answered', (facts) => this.answered(...(facts as [string, unknown])));
    reach.listen(() => {
      if (!reach.get().away) this.wake();
    });
  }

  /** True where nothing is on its way, not even to the disk. */
  get idle(): boolean {
    return !this.line.isKeeping && this.state.get().waiting.length === 0;
  }

  /**
   * Puts a posting in line. Settled when it is on disk; `onAnswer` hears the service's answer,
   * however late it comes, as long as this page is open.
   */
  async post(posting: Posting, onAnswer?: OnAnswer): Promise<void> {
    if (onAnswer) this.onAnswers.set(posting.id, onAnswer);
    await this.line.add([{ ...posting, state: 'waiting', writtenAt: deviceNow(), tried: false }]);
  }

  /**
   * Posts something whose refusal is told to the person who still stands there; such a one is not
   * kept. Where the service does not answer, or something is in line before it, it is kept and
   * sent like any other. Returns the answer, or undefined where it was kept.
   * @throws Refused
   */
  async ask(posting: Posting): Promise<unknown> {
    if (this.idle) {
      try {
        const answer = await this.deliver(posting);
        const at = deviceNow();
        await this.line.add([
          { ...posting, state: 'sent', writtenAt: at, sentAt: at, tried: true },
        ]);
        return answer;
      } catch (error) {
        if (!(error instanceof Unreached)) throw error;
      }
    }
    await this.post(posting);
    return undefined;
  }

  /** Sends a refused posting once more. */
  async tryAgain(id: string): Promise<void> {
    const found = this.line.get(id);
    if (found?.state === 'refused') await this.line.put({ ...plain(found), state: 'waiting' });
  }

  /** Sends all again that were refused for want of a right: somebody else is signed in now. */
  async tryUnentitled(): Promise<void> {
    for (const { id, code } of this.state.get().refused) {
      if (code === 'not_your_right' || code === 'not_signed_in') await this.tryAgain(id);
    }
  }

  /** Takes a refused posting out of the tray; the person has it in a file and said yes. */
  async setAside(id: string): Promise<void> {
    if (this.line.get(id)?.state === 'refused') await this.line.remove([id]);
  }

  /** Takes back what was never tried. Returns false where it may have arrived. */
  takeBack(id: string): Promise<boolean> {
    return this.line.takeBack(id);
  }

  /** When this device sent something last, RFC 3339; undefined: never. */
  lastSentAt(): string | undefined {
    return localStorage.getItem(`bowlworth.sent.${this.kept.studio}`) ?? undefined;
  }

  /** Everything that is kept, in order. */
  all(): readonly KeptPosting[] {
    return this.line.all();
  }

  /** Adds what a file holds and is not here yet, in its order. Returns how many. */
  async readIn(postings: readonly NewPosting[]): Promise<number> {
    const fresh = postings.filter(({ id }) => !this.line.get(id));
    await this.line.add(fresh);
    return fresh.length;
  }

  private async begin(): Promise<void> {
    this.sending.abort();
    this.wake();
    const sending = new AbortController();
    this.sending = sending;
    await this.line.read();
    const name = `sends ${this.kept.studio}`;
    void this.others.oneAtATime(name, sending.signal, (left) => this.sendAll(left));
  }

  private changed(): void {
    this.state.set(stateOf(this.line.all(), this.how));
    this.wake();
  }

  private is(how: How): void {
    const { away, unknownHere } = this.how;
    if (how.away === away && how.unknownHere === unknownHere) return;
    this.how = how;
    this.state.set({ ...this.state.get(), ...how });
  }

  private answered(id: string, answer: unknown): void {
    this.onAnswers.get(id)?.(answer);
    this.onAnswers.delete(id);
  }

  private async sendAll(left: AbortSignal): Promise<void> {
    let failed = 0;
    while (!left.aborted) {
      const next = nextOf(this.line.all());
      if (!next) await this.woken();
      else if (await this.sendOne(next, failed)) failed = 0;
      else {
        const wait = againAfterMs[Math.min(failed, againAfterMs.length - 1)];
        failed += 1;
        await this.woken(wait);
      }
    }
  }

  /** Until something changes, the service is there again, or so many milliseconds have passed. */
  private woken(ms?: number): Promise<void> {
    return new Promise((go) => {
      this.wake = go;
      if (ms !== undefined) setTimeout(go, ms);
    });
  }

  private async deliver({ method, path, body }: Posting): Promise<unknown> {
    const answer = await this.sendNow(method, path, { ...body, sentAt: deviceNow() });
    localStorage.setItem(`bowlworth.sent.${this.kept.studio}`, deviceNow());
    return answer;
  }

  /** Sends one. Returns false where it has to wait. */
  private async sendOne(posting: KeptPosting, failed: number): Promise<boolean> {
    const claimed = await this.line.claim(posting);
    if (!claimed) return true;
    try {
      const answer = await this.deliver(posting);
      await this.line.put({ ...plain(claimed), state: 'sent', sentAt: deviceNow() });
      this.is(allIsWell);
      this.answered(posting.id, answer);
      this.others.tell('answered', [posting.id, answer]);
      return true;
    } catch (error) {
      if (!(error instanceof Refused) || isPassing(error, failed)) {
        const unknownHere = error instanceof Refused && error.status === 401;
        this.is({ away: !(error instanceof Refused), unknownHere });
        return false;
      }
      this.is(allIsWell);
      const { code, message: reason } = error;
      await this.line.put({ ...plain(claimed), state: 'refused', code, reason });
      return true;
    }
  }
}

function stateOf(line: readonly KeptPosting[], how: How): OutboxState {
  return {
    ...how,
    waiting: line.filter(({ state }) => state === 'waiting'),
    refused: line.filter((each): each is RefusedPosting => each.state === 'refused'),
    sent: line.filter(({ state }) => state === 'sent'),
    held: heldBy(line),
  };
}

/** Not the posting's fault: nobody knows this device, too much at once, a fault of the service. */
function isPassing({ status }: Refused, failed: number): boolean {
  return status === 401 || status === 429 || (status >= 500 && failed < faultsBorne);
}

/** The outbox of this page. */
export const outbox = new Outbox();

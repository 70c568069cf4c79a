/**
 * What was done at the bench and is on its way to the service: sent in order, each once, tried
 * again while nobody answers. What the service refuses goes to a tray; nothing is thrown away.
 */
import { deviceNow } from '../shell/clock.js';
import { store, type Store } from '../shell/store.js';
import { Refused, send } from './calls.js';

/** One posting call; its body carries an id of its own, so that sending twice books once. */
export interface Posting {
  readonly id: string;
  readonly method: 'POST' | 'PUT';
  readonly path: string;
  readonly body: Readonly<Record<string, unknown>>;
  /** What it is, for a person: "20 vol, 36 g". */
  readonly what: string;
}

/** A posting that the service refused, with the reason. */
export interface RefusedPosting extends Posting {
  readonly reason: string;
}

export interface OutboxState {
  readonly waiting: readonly Posting[];
  readonly refused: readonly RefusedPosting[];
  /** The last try reached nobody. */
  readonly away: boolean;
}

const againAfterMs = 3000;

export class Outbox {
  readonly state: Store<OutboxState> = store<OutboxState>({
    waiting: [],
    refused: [],
    away: false,
  });
  private readonly answered = new Map<string, (answer: unknown) => void>();
  private sending = false;

  constructor(private readonly sendNow: typeof send = send) {}

  /** Puts a posting in line; `onAnswer` hears the service's answer, however late it comes. */
  post(posting: Posting, onAnswer?: (answer: unknown) => void): void {
    if (onAnswer) this.answered.set(posting.id, onAnswer);
    this.change({ waiting: [...this.state.get().waiting, posting] });
    void this.sendAll();
  }

  /** Sends a refused posting once more. */
  tryAgain(id: string): void {
    const { refused } = this.state.get();
    const found = refused.find((posting) => posting.id === id);
    if (!found) return;
    const { method, path, body, what } = found;
    this.change({ refused: refused.filter((each) => each !== found) });
    this.post({ id, method, path, body, what });
  }

  private async sendAll(): Promise<void> {
    if (this.sending) return;
    this.sending = true;
    for (let next = this.first(); next; next = this.first()) {
      const sent = await this.sendOne(next);
      if (!sent) await new Promise((go) => setTimeout(go, againAfterMs));
    }
    this.sending = false;
  }

  private first(): Posting | undefined {
    return this.state.get().waiting[0];
  }

  private async sendOne(posting: Posting): Promise<boolean> {
    const { method, path, body } = posting;
    const sentAt = method === 'POST' ? { sentAt: deviceNow() } : {};
    try {
      const answer = await this.sendNow(method, path, { ...body, ...sentAt });
      this.answered.get(posting.id)?.(answer);
      this.take(posting);
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) {
        this.change({ away: true });
        return false;
      }
      const refused = { ...posting, reason: error.message };
      this.take(posting);
      this.change({ refused: [...this.state.get().refused, refused] });
      return true;
    }
  }

  private take(posting: Posting): void {
    this.answered.delete(posting.id);
    const waiting = this.state.get().waiting.filter((each) => each !== posting);
    this.change({ waiting, away: false });
  }

  private change(change: Partial<OutboxState>): void {
    this.state.set({ ...this.state.get(), ...change });
  }
}

/** The outbox of this page. */
export const outbox = new Outbox();

/** The tabs of this device among themselves: what one did, the others hear; one at a time. */

type Hear = (facts: unknown) => void;

/** Work of which only one tab at a time does any; `left` is told when it has to stop. */
export type Alone = (left: AbortSignal) => Promise<void>;

/** Something that only one tab has; `release` gives it back. */
export interface Held {
  readonly release: () => void;
}

/** So long another tab may take to put aside what is asked of it. */
const courtesyMs = 1500;

export class Tabs {
  private channel: BroadcastChannel | undefined;
  private readonly hearers = new Map<string, Hear[]>();
  private readonly wanted = new Map<string, () => void>();
  private readonly own = new Map<string, Promise<void>>();

  constructor() {
    this.hear('wanted', (what) => this.wanted.get(what as string)?.());
  }

  /** Speaks with the tabs of this studio, and no longer with those of another. */
  join(studioId: string): void {
    this.channel?.close();
    if (typeof BroadcastChannel === 'undefined') return;
    this.channel = new BroadcastChannel(`bowlworth ${studioId}`);
    this.channel.addEventListener('message', ({ data }: MessageEvent<[string, unknown]>) => {
      for (const hear of this.hearers.get(data[0]) ?? []) hear(data[1]);
    });
  }

  /** Tells the other tabs. */
  tell(topic: string, facts: unknown): void {
    this.channel?.postMessage([topic, facts]);
  }

  /** Hears what other tabs tell of a topic. */
  hear(topic: string, hear: Hear): void {
    this.hearers.set(topic, [...(this.hearers.get(topic) ?? []), hear]);
  }

  /**
   * Does work in one tab at a time; the next tab begins when this one ends or is closed. Where
   * the browser has no locks (no https), every tab does it.
   */
  async oneAtATime(what: string, signal: AbortSignal, work: Alone): Promise<void> {
    if (!('locks' in navigator)) return work(signal);
    const held = navigator.locks.request(`bowlworth ${what}`, { signal }, () => work(signal));
    await held.catch((error: unknown) => {
      if (!signal.aborted) throw error;
    });
  }

  /**
   * Takes something that one tab has at a time. Undefined where another tab has it.
   * @param asked another tab wants it, or has taken it: put it aside; it is given back after that
   */
  async hold(what: string, asked: () => Promise<void>): Promise<Held | undefined> {
    if (!('locks' in navigator)) return { release: () => undefined };
    // what this tab has just given back may still be on its way
    await this.own.get(what);
    return this.locked(what, asked, { ifAvailable: true });
  }

  /** Takes it over: asks the tab that has it, and does not wait for one that does not answer. */
  async takeOver(what: string, asked: () => Promise<void>): Promise<Held | undefined> {
    if (!('locks' in navigator)) return { release: () => undefined };
    this.tell('wanted', what);
    const signal = AbortSignal.timeout(courtesyMs);
    const given = await this.locked(what, asked, { signal }).catch(() => undefined);
    return given ?? this.locked(what, asked, { steal: true });
  }

  private locked(
    what: string,
    asked: () => Promise<void>,
    options: LockOptions,
  ): Promise<Held | undefined> {
    return new Promise((take, fail) => {
      const work = (lock: Lock | null) => {
        if (!lock) {
          take(undefined);
          return undefined;
        }
        return new Promise<void>((release) => {
          const aside = () => void asked().then(release);
          this.wanted.set(what, aside);
          take({
            release: () => {
              if (this.wanted.get(what) === aside) this.wanted.delete(what);
              release();
            },
          });
        });
      };
      const had = navigator.locks.request(`bowlworth ${what}`, options, work).then(
        () => undefined,
        (error: unknown) => {
          // before it was given: the patience is over; after it: another tab has stolen it
          fail(error instanceof Error ? error : new Error(String(error)));
          this.wanted.get(what)?.();
        },
      );
      this.own.set(what, had);
    });
  }
}

/** The tabs of this device. */
export const tabs = new Tabs();

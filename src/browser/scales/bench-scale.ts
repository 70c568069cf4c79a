/** The scale of this bench: one source, the weighing machine, and who listens to them. */
import { step } from '../../../shared/weighing.js';
import type { Happening, WeighingEvent } from '../../../shared/weighing/happenings.js';
import { weighingStart, type WeighingState } from '../../../shared/weighing/state.js';
import { store, type Store } from '../shell/store.js';
import { ScaleTrouble, type Heard, type ScaleSource, type SourceState } from './source.js';

/** An event for the machine without its moment. */
export type Said = WeighingEvent extends infer E
  ? E extends WeighingEvent
    ? Omit<E, 'atMs'>
    : never
  : never;

/** Where the source stands, with the reason where it failed or was lost. */
export interface SourceStatus {
  readonly source: ScaleSource | undefined;
  readonly state: SourceState;
  readonly trouble: ScaleTrouble['trouble'] | undefined;
}

const tickMs = 1000;

export class BenchScale {
  readonly status: Store<SourceStatus> = store<SourceStatus>({
    source: undefined,
    state: 'closed',
    trouble: undefined,
  });
  /** Changes with every reading: ten times a second. */
  readonly weighing: Store<WeighingState> = store(weighingStart());
  private readonly listeners = new Set<(happening: Happening) => void>();
  private ticking: ReturnType<typeof setInterval> | undefined;

  constructor(private readonly nowMs: () => number = () => performance.now()) {}

  /** Lets go of the source before and opens this one. Never throws: the status tells. */
  async use(source: ScaleSource): Promise<void> {
    await this.close();
    this.status.set({ source, state: 'opening', trouble: undefined });
    try {
      await source.open((heard) => this.hear(source, heard));
      this.status.set({ source, state: 'open', trouble: undefined });
      this.send({ type: 'connected' });
      this.ticking = setInterval(() => this.send({ type: 'tick' }), tickMs);
    } catch (error) {
      const trouble = error instanceof ScaleTrouble ? error.trouble : 'not_permitted';
      this.status.set({ source, state: 'failed', trouble });
    }
  }

  async close(): Promise<void> {
    const { source, state } = this.status.get();
    clearInterval(this.ticking);
    this.send({ type: 'bowl_done' });
    this.status.set({ source: undefined, state: 'closed', trouble: undefined });
    if (state === 'open' || state === 'lost') this.send({ type: 'lost' });
    await source?.close();
    this.weighing.set(weighingStart());
  }

  /** One event for the machine, now; whoever listens hears what happened. */
  send(said: Said): void {
    const weighed = step(this.weighing.get(), { ...said, atMs: this.nowMs() });
    this.weighing.set(weighed.state);
    for (const happening of weighed.happenings) {
      for (const listener of [...this.listeners]) listener(happening);
    }
  }

  /** Listens to what happens; returns how to stop. */
  listen(listener: (happening: Happening) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private hear(source: ScaleSource, heard: Heard): void {
    if (this.status.get().source !== source) return;
    if (heard.type === 'lost') {
      this.status.set({ source, state: 'lost', trouble: heard.trouble });
      this.send({ type: 'lost' });
    } else if (heard.type === 'back') {
      this.status.set({ source, state: 'open', trouble: undefined });
      this.send({ type: 'connected' });
    } else {
      this.send(heard);
    }
  }
}

/** The scale of this page. */
export const benchScale = new BenchScale();

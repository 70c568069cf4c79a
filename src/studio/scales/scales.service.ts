/** Passes the readings of each bench on to whoever hears them; keeps the latest, stores none. */
import { Inject, Injectable } from '@nestjs/common';
import type { BenchScaleView } from '../../../shared/contract/scales.js';
import { Problem } from '../../../shared/problems/problem.js';
import {
  heardAlso,
  newcomerHears,
  nothingHeard,
  type LastHeard,
} from '../../../shared/scales/last-heard.js';
import { readingView, writeTold, type Told } from '../../../shared/scales/wire.js';
import { Clock } from '../../platform/clock.js';
import type { Caller } from '../../platform/http/rights.js';
import { BenchesService } from '../people/benches.service.js';

/** Somebody who is told what a bench's scale says. */
export interface Listener {
  /** `passing`: the next one says more; it may be left out where the line is slow. */
  tell(message: string, passing: boolean): void;
}

/** The program that reads a bench's scale. */
export interface Bringer {
  /** Another one brings this bench's readings from now on. */
  replaced(): void;
}

interface Bench {
  bringer: Bringer | undefined;
  last: LastHeard;
  readonly listeners: Set<Listener>;
}

@Injectable()
export class ScalesService {
  private readonly benches = new Map<string, Bench>();

  constructor(
    @Inject(BenchesService) private readonly known: BenchesService,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  /**
   * Whether this caller may have to do with the scale of this bench; a device that stands at a
   * bench only with its own.
   * @throws Problem `other_bench`, `not_found`, `retired`
   */
  async mayReach(caller: Caller, benchId: string): Promise<void> {
    if (caller.benchId !== undefined && caller.benchId !== benchId) {
      throw new Problem('other_bench', {});
    }
    const bench = await this.known.show(caller, benchId);
    if (bench.retiredAt !== null) throw new Problem('retired', { name: bench.name });
  }

  /** Begins to hear a bench's scale: first how it stands, then what comes. Returns how to stop. */
  hear(studioId: string, benchId: string, listener: Listener): () => void {
    const bench = this.bench(studioId, benchId);
    bench.listeners.add(listener);
    for (const told of newcomerHears(bench.last, this.clock.millis())) {
      listener.tell(writeTold(told), false);
    }
    return () => {
      bench.listeners.delete(listener);
      this.forget(studioId, benchId, bench);
    };
  }

  /**
   * Begins to bring a bench's readings, in the place of whoever did. Returns where to tell them,
   * and how to stop.
   */
  bring(
    studioId: string,
    benchId: string,
    bringer: Bringer,
  ): { tell(told: Told): void; stop(): void } {
    const bench = this.bench(studioId, benchId);
    bench.bringer?.replaced();
    bench.bringer = bringer;
    this.pass(bench, { type: 'back' });
    const stands = () => bench.bringer === bringer;
    return {
      tell: (told) => {
        if (stands()) this.pass(bench, told);
      },
      stop: () => {
        if (!stands()) return;
        bench.bringer = undefined;
        this.pass(bench, { type: 'lost', trouble: 'nobody_there' });
        this.forget(studioId, benchId, bench);
      },
    };
  }

  /** How a bench's scale stands. @throws Problem as `mayReach` */
  async show(caller: Caller, benchId: string): Promise<BenchScaleView> {
    await this.mayReach(caller, benchId);
    const bench = this.benches.get(keyOf(caller.studioId, benchId));
    const last = bench?.last ?? nothingHeard;
    const [latest] = newcomerHears(last, this.clock.millis());
    const reading = latest?.type === 'reading' ? readingView(latest.reading) : undefined;
    return {
      benchId,
      agent: bench?.bringer !== undefined,
      trouble: last.trouble ?? null,
      reading: reading ?? null,
      pages: bench?.listeners.size ?? 0,
    };
  }

  private pass(bench: Bench, told: Told): void {
    bench.last = heardAlso(bench.last, told, this.clock.millis());
    const message = writeTold(told);
    const passing = told.type === 'reading' || told.type === 'damage';
    for (const listener of [...bench.listeners]) listener.tell(message, passing);
  }

  private bench(studioId: string, benchId: string): Bench {
    const key = keyOf(studioId, benchId);
    const bench = this.benches.get(key) ?? {
      bringer: undefined,
      last: nothingHeard,
      listeners: new Set(),
    };
    this.benches.set(key, bench);
    return bench;
  }

  private forget(studioId: string, benchId: string, bench: Bench): void {
    if (bench.bringer || bench.listeners.size > 0) return;
    this.benches.delete(keyOf(studioId, benchId));
  }
}

function keyOf(studioId: string, benchId: string): string {
  return `${studioId}/${benchId}`;
}

/** Plays a scale and a person in front of the weighing machine, and tells what happened. */
import { canonical, decimal, Decimal } from '../../shared/decimal.js';
import type { Reading } from '../../shared/scales/reading.js';
import { step, viewOf } from '../../shared/weighing.js';
import type { Happening, PourWanted, WeighingEvent } from '../../shared/weighing/happenings.js';
import {
  usualSettings,
  weighingStart,
  type Expected,
  type WeighingSettings,
  type WeighingState,
} from '../../shared/weighing/state.js';

type Said = WeighingEvent extends infer E
  ? E extends { atMs: number }
    ? Omit<E, 'atMs'>
    : never
  : never;

/** A happening in short: "moved_on powder 30 stable", "residue 2". */
export function told(happening: Happening): string {
  return Object.entries(happening)
    .filter(([name]) => !['targetGrams', 'intervalGrams', 'windowMs'].includes(name))
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => {
      if (name === 'stable') return value === true ? 'stable' : 'unstable';
      return value instanceof Decimal ? canonical(value) : String(value);
    })
    .join(' ');
}

/** A bench with a scale of 10 readings a second, by 1 g, that says itself when it is stable. */
export class AtTheScale {
  atMs = 0;
  state: WeighingState;
  private heard: string[] = [];

  constructor(
    settings: WeighingSettings = usualSettings,
    private readonly everyMs = 100,
    private readonly flags = true,
  ) {
    this.state = weighingStart(settings);
    this.send({ type: 'connected' });
  }

  /** What happened since the last time asked. */
  happened(): string[] {
    const heard = this.heard;
    this.heard = [];
    return heard;
  }

  send(event: Said): this {
    const weighed = step(this.state, { ...event, atMs: this.atMs });
    this.state = weighed.state;
    this.heard.push(...weighed.happenings.map(told));
    return this;
  }

  /** Lets time pass without a reading. */
  wait(ms: number): this {
    this.atMs += ms;
    return this.send({ type: 'tick' });
  }

  /** One reading of the scale's own display; "42.5" in grams. */
  shows(grams: string, more: Partial<Reading> = {}): this {
    this.atMs += this.everyMs;
    const value = decimal(grams);
    const reading: Reading = {
      kind: 'reading',
      status: 'weight',
      grams: value,
      value,
      unit: 'g',
      stable: undefined,
      mode: 'unknown',
      intervalGrams: decimal('1'),
      carriedBy: grams,
      ...more,
    };
    return this.send({ type: 'reading', reading });
  }

  /** The weight moves through these figures. */
  moves(...grams: string[]): this {
    for (const each of grams) this.shows(each, this.flags ? { stable: false } : {});
    return this;
  }

  /** The weight stands still for a time. */
  stands(grams: string, ms = 1000): this {
    for (let passed = 0; passed < ms; passed += this.everyMs) {
      this.shows(grams, this.flags ? { stable: true } : {});
    }
    return this;
  }

  /** A status of the scale without a figure. */
  says(status: Reading['status'], ms = 0): this {
    for (let passed = 0; passed <= ms; passed += this.everyMs) {
      this.atMs += this.everyMs;
      const reading: Reading = {
        kind: 'reading',
        status,
        stable: false,
        mode: 'unknown',
        carriedBy: status,
      };
      this.send({ type: 'reading', reading });
    }
    return this;
  }

  useBowl(bowl: Partial<Expected> = {}): this {
    return this.send({
      type: 'use_bowl',
      bowl: { tares: {}, contentsGrams: decimal('0'), touched: false, isPack: false, ...bowl },
    });
  }

  due(id: string, target: string, more: Partial<PourWanted> = {}): this {
    return this.send({ type: 'pour', pour: { id, targetGrams: decimal(target), ...more } });
  }

  /** An empty bowl of 120 g stands on the plate, tared, and nothing is to be told of it. */
  withBowl(): this {
    this.useBowl().moves('60', '118').stands('120');
    this.happened();
    return this;
  }

  /** Contents and what is to go, as the page shows them. */
  figures(): string {
    const { netGrams, toGoGrams } = viewOf(this.state);
    return `${netGrams?.toFixed() ?? '-'} g, ${toGoGrams?.toFixed() ?? '-'} to go`;
  }
}

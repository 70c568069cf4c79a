/** The keypad, for every scale whose display can be read. What is typed stands on the plate. */
import { canonical, decimal, sum, type Decimal } from '../../../shared/decimal.js';
import type { Reading } from '../../../shared/scales/reading.js';
import type { Heard, ScaleSource } from './source.js';

/** What is typed: the display with all that is in the bowl, or only what was added. */
export const typings = ['total', 'this pour'] as const;
export type Typing = (typeof typings)[number];

/** Stands for the bowl, whose own weight the person's scale has taken off already. */
const bowlGrams = decimal('1000');
const everyMs = 500;

export class KeypadSource implements ScaleSource {
  readonly name = 'keypad';
  readonly mayBook = true;
  readonly tareGrams = bowlGrams;
  private hear: (heard: Heard) => void = () => undefined;
  private timer: ReturnType<typeof setInterval> | undefined;
  private shown: Decimal | undefined;
  private stable = true;
  private interval = decimal('1');

  open(hear: (heard: Heard) => void): Promise<void> {
    this.hear = hear;
    this.tell(decimal('0'), false);
    this.timer = setInterval(() => this.say(), everyMs);
    return Promise.resolve();
  }

  close(): Promise<void> {
    clearInterval(this.timer);
    return Promise.resolve();
  }

  /** A bowl is set down anew, holding so many grams. */
  setDown(contentsGrams: Decimal): void {
    this.tell(decimal('0'), false);
    this.tell(bowlGrams.plus(contentsGrams));
    this.say();
  }

  /** The display shows so many grams, the bowl's own weight taken off. */
  showTotal(grams: Decimal): void {
    this.interval = grams.isInteger() ? this.interval : decimal('0.1');
    this.tell(bowlGrams.plus(grams));
  }

  /** So many grams were added to the bowl. */
  showAdded(grams: Decimal): void {
    this.showTotal(sum([this.shown ?? bowlGrams, grams]).minus(bowlGrams));
  }

  private tell(grams: Decimal, stable = true): void {
    this.shown = grams;
    this.stable = stable;
    this.say();
  }

  private say(): void {
    if (this.shown) this.hear({ type: 'reading', reading: this.reading(this.shown) });
  }

  private reading(grams: Decimal): Reading {
    return {
      kind: 'reading',
      status: 'weight',
      grams,
      value: grams,
      unit: 'g',
      stable: this.stable,
      mode: 'unknown',
      intervalGrams: this.interval,
      carriedBy: `typed ${canonical(grams)}`,
    };
  }
}

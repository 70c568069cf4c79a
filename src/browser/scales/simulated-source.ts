/** The simulated scale of the demo studio and of practice, with hands that set down and pour. */
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import {
  simulatedReading,
  usualSimulatedScale,
  type Deed,
  type SimulatedScale,
} from '../../../shared/scales/simulated.js';
import type { Heard, ScaleSource } from './source.js';

const everyMs = 100;
const pace = decimal('25');

/** A deed without its moment. */
type Hand = Deed extends infer D ? (D extends Deed ? Omit<D, 'atMs'> : never) : never;

export class SimulatedSource implements ScaleSource {
  readonly name = 'simulated';
  readonly mayBook = false;
  private deeds: Deed[] = [];
  private timer: ReturnType<typeof setInterval> | undefined;

  constructor(
    private readonly scale: SimulatedScale = usualSimulatedScale,
    private readonly nowMs: () => number = () => Math.trunc(performance.now()),
  ) {}

  open(hear: (heard: Heard) => void): Promise<void> {
    this.timer = setInterval(() => {
      const reading = simulatedReading(this.scale, this.deeds, this.nowMs());
      if (reading) hear({ type: 'reading', reading });
    }, everyMs);
    return Promise.resolve();
  }

  close(): Promise<void> {
    clearInterval(this.timer);
    return Promise.resolve();
  }

  /** Something is done to the scale now. */
  do(hand: Hand): void {
    this.deeds = [...this.deeds, { ...hand, atMs: this.nowMs() }];
  }

  /** Pours to a target and `over` grams beyond it. */
  pour(targetGrams: Decimal, over: Decimal = zero): void {
    const grams = targetGrams.plus(over);
    this.do({ do: 'pour', grams, gramsPerSecond: pace });
  }
}

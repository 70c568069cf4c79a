/** Weighing out: tub, tube or bottle stands on the scale; what goes out of it is the pour. */
import { zero } from '../../../shared/decimal.js';
import type { BenchScale } from '../scales/bench-scale.js';
import type { HandTalk } from './hand-talk.js';

const aPack = { tares: {}, contentsGrams: zero, touched: false, isPack: true };

/** The bowl whose pour is weighed out. */
export interface OwnBowl {
  /** Asks the scale for what is due, afresh. */
  readonly pourAfresh: () => void;
  /** Tells the scale that the bowl comes. */
  readonly takeUp: () => void;
}

export class WeighingOut {
  constructor(
    private readonly scale: BenchScale,
    private readonly talk: HandTalk,
    private readonly bowl: OwnBowl,
  ) {}

  /** True between two things on the scale: nothing is due. */
  get rests(): boolean {
    return this.step === 'lift the pack';
  }

  /** The due pour is weighed out; the bowl is lifted first. */
  begin(): void {
    if (this.onPlate()) this.talk.turn('lift the bowl');
    else this.packComes();
  }

  /** The bowl is weighed again; what stands on the scale is taken off first. */
  end(): void {
    const before = this.step;
    const packStands = before !== 'lift the bowl' && this.onPlate();
    this.talk.turn(packStands ? 'lift the pack' : null);
    if (packStands) this.bowl.pourAfresh();
    else if (before !== 'lift the bowl') this.bowl.takeUp();
  }

  /** A pour was moved on from. */
  poured(): void {
    if (this.step === 'on the scale') this.talk.turn('lift the pack');
  }

  /** What stood on the plate was lifted. */
  lifted(): void {
    if (this.step === 'lift the bowl') this.packComes();
    else if (this.step === 'lift the pack') this.end();
  }

  private get step() {
    return this.talk.shown.get().pack;
  }

  private onPlate(): boolean {
    const { plate } = this.scale.weighing.get();
    return plate !== 'empty' && plate !== 'lifted';
  }

  private packComes(): void {
    this.scale.send({ type: 'use_bowl', bowl: aPack });
    this.talk.turn('on the scale');
    this.bowl.pourAfresh();
  }
}

/** What went into and out of one bowl, pour by pour and lot by lot. */
import type { ContentLot, Portion } from '../../../shared/contents.js';
import { sum, zero, type Decimal } from '../../../shared/decimal.js';
import type { MovementDraft, PourAddress } from '../../../shared/moving/movement.js';

const nothing: Portion = { quantity: zero, value: zero };

/** Where a bowl's content can have gone. */
type Way = 'in' | 'head' | 'bin' | 'handedOn' | 'back';

type LotFlow = Record<Way, Portion>;

/** What a pour brought and what became of it, over all its lots. */
export type PourTotals = LotFlow;

/** Keeps a bowl's flows; booked movements add up, a reversal takes its original back. */
export class BowlFlows {
  private readonly pours = new Map<string, Map<string, LotFlow>>();

  constructor(private readonly bowlId: string) {}

  book(movements: readonly MovementDraft[]): void {
    for (const movement of movements) {
      if (movement.toPour?.bowlId === this.bowlId) this.arrive(movement, movement.toPour);
      if (movement.fromPour?.bowlId === this.bowlId) this.leave(movement, movement.fromPour);
    }
  }

  /** What of a pour is in the bowl now, by lot; empty lots are left out. */
  held(pourId: string): ContentLot[] {
    return [...(this.pours.get(pourId) ?? [])]
      .map(([lotId, flow]) => ({
        lotId,
        quantity: rest(flow, 'quantity'),
        value: rest(flow, 'value'),
      }))
      .filter((lot) => lot.quantity.greaterThan(zero));
  }

  /** What a pour brought and where it went. */
  totals(pourId: string): PourTotals {
    const flows = [...(this.pours.get(pourId)?.values() ?? [])];
    const of = (way: Way): Portion => ({
      quantity: sum(flows.map((flow) => flow[way].quantity)),
      value: sum(flows.map((flow) => flow[way].value)),
    });
    return {
      in: of('in'),
      head: of('head'),
      bin: of('bin'),
      handedOn: of('handedOn'),
      back: of('back'),
    };
  }

  /** What of a pour was handed on or went back, in its stock unit. */
  gone(pourId: string): Decimal {
    let gone = zero;
    for (const { handedOn, back } of this.pours.get(pourId)?.values() ?? []) {
      if (handedOn !== nothing) gone = gone.plus(handedOn.quantity);
      if (back !== nothing) gone = gone.plus(back.quantity);
    }
    return gone;
  }

  private arrive(movement: MovementDraft, pour: PourAddress): void {
    const undoes = movement.reverses !== undefined;
    const way: Way =
      movement.from === 'head' || movement.from === 'bin'
        ? movement.from
        : undoes && movement.from === 'shelf'
          ? 'back'
          : undoes && movement.from === 'bowl'
            ? 'handedOn'
            : 'in';
    this.add(pour.pourId, movement, way, way === 'in' ? 1 : -1);
  }

  private leave(movement: MovementDraft, pour: PourAddress): void {
    const undoes = movement.reverses !== undefined;
    const way: Way =
      movement.to === 'head' || movement.to === 'bin'
        ? movement.to
        : movement.to === 'correction' || undoes
          ? 'in'
          : movement.to === 'bowl'
            ? 'handedOn'
            : 'back';
    this.add(pour.pourId, movement, way, way === 'in' ? -1 : 1);
  }

  private add(pourId: string, movement: MovementDraft, way: Way, sign: 1 | -1): void {
    const lots = this.pours.get(pourId) ?? new Map<string, LotFlow>();
    this.pours.set(pourId, lots);
    const flow = lots.get(movement.lotId) ?? {
      in: nothing,
      head: nothing,
      bin: nothing,
      handedOn: nothing,
      back: nothing,
    };
    lots.set(movement.lotId, {
      ...flow,
      [way]: {
        quantity: flow[way].quantity.plus(movement.quantity.times(sign)),
        value: flow[way].value.plus(movement.value.times(sign)),
      },
    });
  }
}

function rest(flow: LotFlow, what: keyof Portion) {
  return flow.in[what]
    .minus(flow.head[what])
    .minus(flow.bin[what])
    .minus(flow.handedOn[what])
    .minus(flow.back[what]);
}

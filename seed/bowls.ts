/** How a bowl is mixed by a person with habits: too much, too little, not quite what was due. */
import { millisOf } from '../src/platform/clock.js';
import { later } from './calendar.js';
import type { DemoPerson, DemoProduct, DemoVariant, DemoVessel } from './catalogue.js';
import type { Chance } from './chance.js';
import type { PourBody, RecordedBody, SettlementBody, WeighingBody } from './happenings.js';
import { idAt } from './ids.js';
import { gramsOf, type SizedPlan } from './plans.js';

/** What a bowl is mixed for. */
export interface BowlOrder {
  readonly visitId: string;
  readonly variant: DemoVariant;
  readonly at: string;
  /** What the person expects to need, and what will be needed, in g. */
  readonly expected: number;
  readonly needed: number;
  readonly sizedBy: DemoPerson;
  readonly mixedBy: DemoPerson;
  readonly appliedBy: DemoPerson;
}

/** A bowl with the grams that were still missing on the head. */
export interface MixedBowl {
  readonly body: RecordedBody;
  readonly mixed: number;
  readonly missing: number;
  readonly settledAt: string;
}

/** How often a bowl was typed in, not weighed at the end, or came to nothing. */
const typedIn = 0.05;
const notWeighed = 0.06;
const accidents = { 'mixed wrong': 0.011, spilled: 0.007, stopped: 0.004 } as const;
/** The scale of the bench shows whole grams. */
const scale = { interval: '1', stable: true, source: 'serial' };

export class Mixing {
  constructor(
    private readonly chance: Chance,
    private readonly products: ReadonlyMap<string, DemoProduct>,
    private readonly vessels: readonly DemoVessel[],
    private readonly planFor: (variant: DemoVariant, grams: number) => SizedPlan,
  ) {}

  /** Mixes one bowl; a bit more is added while it is open, or something is missing at the end. */
  mix(order: BowlOrder): MixedBowl {
    const { sizedBy, variant } = order;
    const habit = 1 + sizedBy.overmix + sizedBy.scatter * this.chance.scattered();
    const size = Math.max(15, Math.ceil((order.expected * Math.max(0.7, habit)) / 5) * 5);
    const plan = this.planFor(variant, size);
    const typed = this.chance.happens(typedIn);
    const pours = this.pours(plan, order.at, typed);
    const poured = total(pours);
    const wrong = this.accident();
    const short = order.needed - poured;
    const more =
      wrong === undefined && short > 6 && this.chance.happens(0.4)
        ? this.aBitMore(order, poured, short)
        : undefined;
    const mixed = poured + (more ? total(more.pours) : 0);
    const left = wrong === undefined ? Math.max(0, Math.floor(mixed - order.needed)) : mixed;
    const settledAt = this.settledAt(order, wrong !== undefined);
    const vessel = this.chance.one(this.vessels, ({ tare }) => (tare === '46' ? 0.3 : 1));
    return {
      body: {
        bowl: {
          id: idAt(millisOf(order.at), this.chance),
          visitId: order.visitId,
          purpose: variant.purpose,
          contact: variant.contact,
          plan: plan.body,
          vesselId: vessel.id,
          mark: vessel.mark,
          plannedAt: order.at,
          sizedBy: order.sizedBy.id,
          mixedBy: order.mixedBy.id,
          appliedBy: order.appliedBy.id,
        },
        pours: [...pours.map((each) => each.body), ...(more?.pours ?? []).map(({ body }) => body)],
        weighings: more ? [more.weighing] : [],
        settlement: this.settlement(settledAt, left, mixed, wrong),
      },
      mixed,
      missing: wrong === undefined ? Math.max(0, order.needed - mixed) : order.needed,
      settledAt,
    };
  }

  private pours({ plan }: SizedPlan, from: string, typed: boolean): Poured[] {
    let seconds = 20;
    return plan.pours.map((pour) => {
      seconds += this.chance.whole(22, 65);
      const due = gramsOf(pour);
      const off = Math.max(0.4, due * 0.02) * this.chance.scattered();
      const weighed = Math.max(1, Math.round(due + off));
      const grams = typed ? Math.max(1, Math.round(due / 5) * 5) : weighed;
      return this.poured(pour.productId, grams, later(from, seconds), typed);
    });
  }

  private poured(productId: string, grams: number, pouredAt: string, typed: boolean): Poured {
    const product = this.products.get(productId);
    const id = idAt(millisOf(pouredAt), this.chance);
    if (product && product.dose > 0) {
      const doses = Math.max(1, Math.round(grams / product.dose));
      const quantity = String(doses * product.dose);
      return {
        grams: doses * product.dose,
        body: { id, productId, quantity, unit: 'ml', pouredAt },
      };
    }
    const how = typed ? { estimated: true } : { scale };
    const body = { id, productId, quantity: String(grams), unit: 'g' as const, pouredAt, ...how };
    return { grams, body };
  }

  /** The applied part is told by weighing, then more of the same goes in. */
  private aBitMore(order: BowlOrder, poured: number, short: number) {
    const at = later(order.at, this.chance.whole(14, 22) * 60);
    const net = Math.max(4, Math.floor(poured * this.chance.between(0.15, 0.35)));
    const weighing: WeighingBody = {
      id: idAt(millisOf(at), this.chance),
      net: { quantity: String(net), unit: 'g' },
      at,
    };
    const size = Math.max(15, Math.ceil((short * 1.2) / 5) * 5);
    const pours = this.pours(this.planFor(order.variant, size), at, false);
    return { weighing, pours };
  }

  private settlement(
    settledAt: string,
    left: number,
    mixed: number,
    why: keyof typeof accidents | undefined,
  ): SettlementBody {
    const id = idAt(millisOf(settledAt), this.chance);
    if (why !== undefined) {
      const part = why === 'mixed wrong' ? 1 : this.chance.between(0.35, 0.95);
      const leftover = { quantity: String(Math.floor(left * part)), unit: 'g' as const };
      return { id, settledAt, leftover, why };
    }
    if (this.chance.happens(notWeighed)) {
      const share = Math.min(19, Math.round((left / mixed) * 20)) * 5;
      return { id, settledAt, leftoverShare: canonicalShare(share) };
    }
    return { id, settledAt, leftover: { quantity: String(left), unit: 'g' } };
  }

  private accident(): keyof typeof accidents | undefined {
    let dice = this.chance.next();
    for (const [why, share] of Object.entries(accidents)) {
      dice -= share;
      if (dice < 0) return why as keyof typeof accidents;
    }
    return undefined;
  }

  private settledAt({ at, variant }: BowlOrder, wrong: boolean): string {
    const minutes = wrong
      ? this.chance.between(4, 12)
      : variant.minutes + this.chance.between(4, 12);
    return later(at, minutes * 60);
  }
}

interface Poured {
  readonly grams: number;
  readonly body: PourBody;
}

function total(pours: readonly Poured[]): number {
  return pours.reduce((sum, { grams }) => sum + grams, 0);
}

/** 15 per cent as "0.15". */
function canonicalShare(percent: number): string {
  return percent === 0 ? '0' : `0.${String(percent).padStart(2, '0').replace(/0$/, '')}`;
}

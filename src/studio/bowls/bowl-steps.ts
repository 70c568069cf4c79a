/** Requests about bowls as drafts that a bowl in the hand can take. */
import { uuidv7 } from 'uuidv7';
import { canonical, decimal, round, zero, type Decimal } from '../../../shared/decimal.js';
import { largestBowl_g } from '../../../shared/mixing.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { gramsOf, inStockUnit } from '../../../shared/units.js';
import type { Posting } from '../stock/ledger.service.js';
import { BowlFlows } from './bowl-flows.js';
import { BowlInHand, type PourDraft, type SettlementDraft } from './bowl-in-hand.js';
import { emptyHead } from './bowl-state.js';
import type { OpenBowlRequest, PourRequest, SettlementRequest } from './bowls.requests.js';
import { gramsIn } from './bowls.views.js';
import { plainProduct } from './mix-products.js';
import type { ReadyPlan } from './ready-plan.js';

/** Corrects a device's time; see platform/clock.ts. */
export type Corrected = (written: string) => { readonly at: string };

/** Who has the bowl: defaults for its three hands. */
export interface Hands {
  readonly personId: string | null;
  readonly benchId: string | null;
}

/** What stands behind a bowl: its visit, its vessel. */
export interface Backing {
  readonly visit: { readonly person_id: string | null; readonly closed: boolean } | null;
  readonly vesselTare: Decimal | null;
}

/** A bowl that is being opened, empty. */
export function newBowl(
  request: OpenBowlRequest,
  hands: Hands,
  backing: Backing,
  plan: ReadyPlan | null,
  plannedAt: string,
): BowlInHand {
  const id = request.id ?? uuidv7();
  const head = emptyHead({
    id,
    visitId: request.visitId ?? null,
    purpose: request.purpose,
    contact: request.contact ?? request.plan?.contact ?? null,
    plan,
    formulaId: request.formulaId ?? null,
    vesselId: request.vesselId ?? null,
    vesselTare: backing.vesselTare,
    tare: gramsIn(request.tare),
    maxTotal: gramsIn(request.maxTotal),
    mark: request.mark ?? null,
    sizedBy: request.sizedBy ?? backing.visit?.person_id ?? hands.personId,
    mixedBy: request.mixedBy ?? hands.personId,
    appliedBy: request.appliedBy ?? hands.personId,
    benchId: hands.benchId,
    plannedAt,
    visitClosed: backing.visit?.closed ?? false,
  });
  return new BowlInHand(head, [], [], null, new BowlFlows(id));
}

/**
 * A pour as it will be drawn: what was measured is kept beside what is booked.
 * @throws Problem of units.ts, `pour_too_large`, `quantity_too_small`, `practice_books_nothing`
 */
export function pourDraft(
  posting: Posting,
  bowl: BowlInHand,
  request: PourRequest,
  pouredAt: string,
): PourDraft {
  if (isPractice(request.scale?.source) && !posting.studio.demo) {
    throw new Problem('practice_books_nothing', {}, '/scale/source');
  }
  const product = within('/productId', () => plainProduct(posting.product(request.productId)));
  const { quantity: measured, unit } = request;
  return within('/quantity', () => {
    const { grams, assumedDensity } = gramsOf(measured, unit, product);
    const quantity = inStockUnit(measured, unit, product);
    const weight = round(grams, 3, 'half_even');
    if (weight.greaterThan(largestBowl_g)) {
      throw new Problem('pour_too_large', {
        grams: canonical(weight),
        highest: canonical(largestBowl_g),
      });
    }
    if (weight.isZero() || quantity.isZero()) {
      throw new Problem('quantity_too_small', { quantity: canonical(measured), unit });
    }
    const { interval, ...scale } = request.scale ?? {};
    return {
      id: request.id ?? uuidv7(),
      productId: request.productId,
      kind: 'poured',
      measuredQuantity: measured,
      measuredUnit: unit,
      quantity,
      unit: product.unit,
      grams: weight,
      assumedDensity: assumedDensity || (unit === 'g' && product.unit === 'ml' && !product.density),
      side: bowl.head.plan?.pours.find((pour) => pour.productId === product.id)?.side ?? null,
      pouredAt,
      estimated: request.estimated,
      scale: request.scale
        ? { ...scale, ...(interval ? { interval: canonical(interval) } : {}) }
        : null,
      fromBowlId: null,
    };
  });
}

/** The name of the simulated scale, however it is written. */
function isPractice(source: string | undefined): boolean {
  return source?.trim().toLowerCase() === 'simulated';
}

/**
 * What a bowl holds by a weighing: net, or gross less the tare told, the bowl's, or its vessel's.
 * @throws Problem `tare_unknown`, `gross_below_tare`
 */
export function netWeight(
  bowl: BowlInHand,
  told: { readonly net: Decimal | null; readonly gross: Decimal | null; tare: Decimal | null },
): Decimal {
  if (told.net) return told.net;
  if (!told.gross) throw new Problem('tare_unknown', {});
  const tare = told.tare ?? bowl.head.tare ?? bowl.head.vesselTare;
  if (!tare) throw new Problem('tare_unknown', {});
  const net = told.gross.minus(tare);
  if (net.lessThan(bowl.tolerance().negated())) {
    throw new Problem('gross_below_tare', { gross: canonical(told.gross), tare: canonical(tare) });
  }
  return net.lessThan(zero) ? zero : net;
}

/** A settlement by weight, by gross weight, or by an estimated share of what the bowl holds. */
export function settlementDraft(
  bowl: BowlInHand,
  request: SettlementRequest,
  settledAt: string,
): SettlementDraft {
  const { leftoverShare } = request;
  const leftover =
    leftoverShare && !request.leftover && !request.gross
      ? round(bowl.head.held.times(leftoverShare), 3, 'half_even')
      : netWeight(bowl, {
          net: gramsIn(request.leftover),
          gross: gramsIn(request.gross),
          tare: gramsIn(request.tare),
        });
  return {
    id: request.id ?? uuidv7(),
    leftover,
    at: settledAt,
    why: request.why,
    borneBy: request.borneBy ?? (request.why === 'left over' ? 'visit' : 'studio'),
    estimated: request.estimated || (leftoverShare !== undefined && !request.leftover),
  };
}

/** The largest interval among a bowl's readings, g. */
export function intervalOf(bowl: BowlInHand): Decimal | undefined {
  return bowl.standing
    .flatMap((pour) => (pour.scale?.interval === undefined ? [] : [decimal(pour.scale.interval)]))
    .reduce<Decimal | undefined>(
      (a, b) => (a === undefined || b.greaterThan(a) ? b : a),
      undefined,
    );
}

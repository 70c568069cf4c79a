/** Bowls as they are answered: rows and steps in the shapes of the contract. */
import { canonical, fixed, round, zero, type Decimal } from '../../../shared/decimal.js';
import type { Amount } from '../../../shared/amount.js';
import type { Caution } from '../../../shared/cautions.js';
import { asksAboutBrush, type ContentSplit } from '../../../shared/contents.js';
import type {
  BowlView,
  CautionView,
  MixPlanView,
  OfferView,
  PlannedPourView,
  PourView,
  SettlementAnswer,
  StrengthView,
  ToPourView,
  WeighingAnswer,
} from '../../../shared/contract/bowls.js';
import type { Q } from '../../../shared/contract/quantity.js';
import type { MixPlan, PlannedPour } from '../../../shared/mix.js';
import type { Strength } from '../../../shared/strength.js';
import { stockQuantityOf } from '../../../shared/units.js';
import type { Offer, ToPour } from '../../../shared/rebalancing.js';
import type { Posting } from '../stock/ledger.service.js';
import type { BowlInHand } from './bowl-in-hand.js';
import type { NotedCaution, PourLine } from './bowl-state.js';
import { plainProduct } from './mix-products.js';
import type { ReadyPlan } from './ready-plan.js';
import type { PricedPlan } from './mix-planning.service.js';

/** Quantities have at most 3 places, half-even, the last rounding before a person. */
const places = (value: Decimal) => canonical(round(value, 3, 'half_even'));
const q = <U extends string>(value: Decimal, unit: U): Q<U> => ({ quantity: places(value), unit });
const inGrams = (value: Decimal) => q(value, 'g');

export function strengthView({ volume, percent }: Strength): StrengthView {
  return { volume: places(volume), percent: places(percent) };
}

export function cautionViews(cautions: readonly Caution[]): CautionView[] {
  return cautions.map(({ code, text, manner }) => ({ code, text, manner }));
}

function plannedView(pour: PlannedPour): PlannedPourView {
  return {
    productId: pour.productId,
    side: pour.side,
    quantity: places(pour.quantity),
    unit: pour.unit,
    grams: places(pour.grams),
    ...(pour.millilitres ? { millilitres: places(pour.millilitres) } : {}),
  };
}

/** A plan; its cost only for those who may see money. */
export function planView(priced: PricedPlan, money: boolean): MixPlanView {
  const plan: MixPlan = priced.plan;
  return {
    pours: plan.pours.map(plannedView),
    total: inGrams(plan.total.value),
    contents: inGrams(plan.contents.value),
    ...(plan.strength ? { strength: strengthView(plan.strength) } : {}),
    peroxidePercent: places(plan.peroxidePercent),
    ...(money ? { cost: fixed(priced.cost, 6), noCost: [...priced.noCost] } : {}),
    cautions: cautionViews(plan.cautions),
    assumed: plan.assumed.map(({ code, productId, text }) => ({ code, productId, text })),
  };
}

export function pourView(pour: PourLine): PourView {
  return {
    id: pour.id,
    productId: pour.productId,
    kind: pour.kind,
    measured: q(pour.measuredQuantity, pour.measuredUnit),
    quantity: places(pour.quantity),
    unit: pour.unit,
    grams: places(pour.grams),
    assumedDensity: pour.assumedDensity,
    pouredAt: pour.pouredAt,
    estimated: pour.estimated,
    reversed: pour.reversed,
  };
}

export function toPourViews(list: readonly ToPour[], posting: Posting): ToPourView[] {
  return list
    .filter((each) => each.grams.greaterThan(zero))
    .map(({ productId, grams }) => {
      const product = plainProduct(posting.product(productId));
      const quantity = stockQuantityOf(grams, product);
      return { productId, quantity: places(quantity), unit: product.unit, grams: places(grams) };
    });
}

export function offerView(offer: Offer, posting: Posting): OfferView {
  return {
    kind: offer.kind,
    text: offer.text,
    toPour: toPourViews(offer.toPour, posting),
    contents: inGrams(offer.contents_g),
    ...(offer.ratio === undefined ? {} : { ratio: offer.ratio }),
    ...(offer.strength ? { strength: strengthView(offer.strength) } : {}),
    ...(offer.shades === undefined ? {} : { shades: offer.shades }),
  };
}

export function weighingAnswer(
  bowl: BowlInHand,
  weighing: { id: string; at: string },
  split: ContentSplit,
): WeighingAnswer {
  return {
    id: weighing.id,
    bowlId: bowl.head.id,
    net: inGrams(split.wasted_g),
    applied: inGrams(split.applied_g),
    at: weighing.at,
  };
}

/** What became of all that was mixed in a settled bowl, pour by pour. */
export function settlementAnswer(bowl: BowlInHand, money: boolean): SettlementAnswer {
  const { head, settlement } = bowl;
  if (!settlement) throw new Error('The bowl is not settled.');
  const pours = bowl.standing.map((pour) => ({ pour, totals: bowl.flows.totals(pour.id) }));
  const value = {
    applied: pours.reduce((total, { totals }) => total.plus(totals.head.value), zero),
    wasted: pours.reduce((total, { totals }) => total.plus(totals.bin.value), zero),
  };
  const brush = asksAboutBrush(head.wasted, head.mixed) && !settlement.estimated;
  return {
    id: settlement.id,
    bowlId: head.id,
    settledAt: settlement.at,
    why: settlement.why,
    borneBy: settlement.borneBy,
    estimated: settlement.estimated,
    mixed: inGrams(head.mixed),
    applied: inGrams(head.mixed.minus(head.wasted)),
    wasted: inGrams(head.wasted),
    wasteShare: canonical(
      round(head.mixed.isZero() ? zero : head.wasted.dividedBy(head.mixed), 6, 'half_even'),
    ),
    ...(money
      ? {
          value: {
            mixed: fixed(value.applied.plus(value.wasted), 6),
            applied: fixed(value.applied, 6),
            wasted: fixed(value.wasted, 6),
          },
        }
      : {}),
    pours: pours.map(({ pour, totals }) => ({
      pourId: pour.id,
      productId: pour.productId,
      applied: q(totals.head.quantity, pour.unit),
      wasted: q(totals.bin.quantity, pour.unit),
      ...(money
        ? { value: { applied: fixed(totals.head.value, 6), wasted: fixed(totals.bin.value, 6) } }
        : {}),
    })),
    questions: brush ? [{ code: 'brush_in_bowl', text: 'Is the brush in it?' }] : [],
  };
}

export function bowlView(
  bowl: BowlInHand,
  cautions: readonly Caution[],
  noted: readonly NotedCaution[],
): BowlView {
  const { head } = bowl;
  const maybe = (value: Decimal | null) => (value === null ? null : inGrams(value));
  return {
    id: head.id,
    visitId: head.visitId,
    purpose: head.purpose,
    contact: head.contact,
    state: head.stage,
    mark: head.mark,
    vesselId: head.vesselId,
    formulaId: head.formulaId,
    tare: maybe(head.tare),
    maxTotal: maybe(head.maxTotal),
    sizedBy: head.sizedBy,
    mixedBy: head.mixedBy,
    appliedBy: head.appliedBy,
    plannedAt: head.plannedAt,
    firstContactAt: head.firstContactAt,
    lastPourAt: head.lastPourAt,
    settledAt: head.settledAt,
    estimated: head.estimated,
    late: head.late,
    planned: head.plan ? head.plan.pours.map(readyView) : [],
    ...(head.plan?.strength ? { strength: head.plan.strength } : {}),
    pours: bowl.pours.map(pourView),
    mixed: inGrams(head.mixed),
    holds: inGrams(head.held),
    wasted: inGrams(head.wasted),
    why: head.why,
    borneBy: head.borneBy,
    cautions: cautionViews(cautions),
    noted: noted.map(({ code, answer, at }) => ({ code, answer, at })),
  };
}

function readyView({ counted: _, ...pour }: ReadyPlan['pours'][number]): PlannedPourView {
  return pour;
}

/** Grams of an amount that is in grams by its request's rule. */
export function gramsIn(amount: Amount | undefined): Decimal | null {
  return amount === undefined ? null : amount.value;
}

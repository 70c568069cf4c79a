/** Plans of bowls by recipe and size, worked out once each. */
import { amount } from '../shared/amount.js';
import type { MixPlan, MixProduct } from '../shared/mix.js';
import { planMix } from '../shared/mixing.js';
import { mixRequestOf, type MixPlanRequest } from '../src/studio/bowls/mix-plan.requests.js';
import { readyPlan, type ReadyPlan } from '../src/studio/bowls/ready-plan.js';
import type { DemoVariant } from './catalogue.js';

/** A plan as it is sent, as it is worked out, and as a bowl keeps it. */
export interface SizedPlan {
  readonly body: Readonly<Record<string, unknown>>;
  readonly plan: MixPlan;
  readonly ready: ReadyPlan;
}

export class Plans {
  private readonly known = new Map<DemoVariant, Map<number, SizedPlan>>();

  /** @param products every product of the recipes, without its shelf */
  constructor(private readonly products: readonly MixProduct[]) {}

  /** The plan for so many whole grams. */
  of(variant: DemoVariant, grams: number): SizedPlan {
    const sizes = this.known.get(variant) ?? new Map<number, SizedPlan>();
    this.known.set(variant, sizes);
    const known = sizes.get(grams);
    if (known) return known;
    const asked: MixPlanRequest = {
      ...variant.asked,
      size: { total: amount(String(grams), 'g') },
    };
    const request = mixRequestOf(asked);
    const plan = planMix(request, this.products, [], { country: 'PT' });
    const size = { total: { quantity: String(grams), unit: 'g' } };
    const made = {
      body: { ...variant.plan, size },
      plan,
      ready: readyPlan(plan, request, asked, null),
    };
    sizes.set(grams, made);
    return made;
  }
}

/** Grams of a planned pour as a bare number, for the generator. */
export function gramsOf(pour: MixPlan['pours'][number]): number {
  return pour.grams.toNumber();
}

/** True when a plan needs no more of a product than there is, beside what is spoken for. */
export function isThere(
  { plan }: SizedPlan,
  onHand: (productId: string) => number,
  spokenFor: ReadonlyMap<string, number>,
): boolean {
  return plan.pours.every(({ productId, quantity }) => {
    return quantity.toNumber() <= onHand(productId) - (spokenFor.get(productId) ?? 0);
  });
}

/** A plan as a bowl keeps it: what was asked, what to pour, in plain text numbers. */
import { canonical, decimal } from '../../../shared/decimal.js';
import type {
  Additive,
  MixPlan,
  MixRequest,
  PlannedPour,
  RatioBasis,
  Side,
} from '../../../shared/mix.js';
import type { StockUnit } from '../../../shared/amount.js';

interface ReadyPour {
  readonly productId: string;
  readonly side: Side;
  readonly quantity: string;
  readonly unit: StockUnit;
  readonly grams: string;
  readonly millilitres?: string;
  readonly counted: boolean;
}

/** Stored with the bowl; `request` is the mix-plans request it came from, for a resize. */
export interface ReadyPlan {
  readonly request: unknown;
  readonly basis: RatioBasis;
  readonly additives: readonly ReadyAdditive[];
  readonly pours: readonly ReadyPour[];
  readonly total: string;
  readonly strength?: { readonly volume: string; readonly percent: string };
  /** Only pours from this instant on are held against it; null: all of them. */
  readonly since: string | null;
}

type ReadyAdditive =
  | { readonly productId: string; readonly of: 'powder' | 'developer' | 'total'; percent: string }
  | { readonly productId: string };

/** Freezes a plan into what is stored. */
export function readyPlan(
  plan: MixPlan,
  asked: MixRequest,
  request: unknown,
  since: string | null,
): ReadyPlan {
  return {
    request,
    basis: asked.basis ?? 'weight',
    additives: (asked.additives ?? []).map((additive) =>
      'percent' in additive
        ? {
            productId: additive.productId,
            of: additive.of,
            percent: canonical(additive.percent),
          }
        : { productId: additive.productId },
    ),
    pours: plan.pours.map((pour) => ({
      productId: pour.productId,
      side: pour.side,
      quantity: canonical(pour.quantity),
      unit: pour.unit,
      grams: canonical(pour.grams),
      ...(pour.millilitres ? { millilitres: canonical(pour.millilitres) } : {}),
      counted: pour.counted,
    })),
    total: canonical(plan.total.value),
    ...(plan.strength
      ? {
          strength: {
            volume: canonical(plan.strength.volume.toDecimalPlaces(3)),
            percent: canonical(plan.strength.percent.toDecimalPlaces(3)),
          },
        }
      : {}),
    since,
  };
}

/** The pours of a stored plan as the arithmetic reads them. */
export function plannedPours(plan: ReadyPlan): PlannedPour[] {
  return plan.pours.map(({ millilitres, ...pour }) => ({
    ...pour,
    quantity: decimal(pour.quantity),
    grams: decimal(pour.grams),
    ...(millilitres === undefined ? {} : { millilitres: decimal(millilitres) }),
  }));
}

/** The additives' rules of a stored plan, as far as later targets follow them. */
export function followedAdditives(plan: ReadyPlan): Additive[] {
  return plan.additives.map((additive) =>
    'percent' in additive
      ? { productId: additive.productId, of: additive.of, percent: decimal(additive.percent) }
      : { productId: additive.productId, grams: decimal('0') },
  );
}

/** What the bench is told after a pour: what to pour next, offers, flags, cautions. */
import { cautionsOfMix } from '../../../shared/cautioning.js';
import type { Caution } from '../../../shared/cautions.js';
import type { PourAnswer } from '../../../shared/contract/bowls.js';
import { canonical, decimal, fixed } from '../../../shared/decimal.js';
import { afterPour } from '../../../shared/rebalancing.js';
import { bowlUnderway, outcomeOf } from '../../../shared/underway.js';
import type { RaisedFlag } from '../stock/stock-flags.service.js';
import type { Posting } from '../stock/ledger.service.js';
import type { BowlInHand, Drawn } from './bowl-in-hand.js';
import { intervalOf } from './bowl-steps.js';
import { cautionViews, offerView, pourView, strengthView, toPourViews } from './bowls.views.js';
import { plainProduct } from './mix-products.js';
import { followedAdditives, plannedPours } from './ready-plan.js';

/** What the bench said beside the weight. */
export interface Progress {
  readonly finished: readonly string[];
  readonly ranOut: readonly string[];
}

/** The cautions of what the bowl holds now. */
export function bowlCautions(bowl: BowlInHand, posting: Posting): Caution[] {
  const { country } = posting.studio;
  const interval = intervalOf(bowl);
  return cautionsOfMix(
    {
      parts: bowl.contents().map((line) => ({
        product: plainProduct(posting.product(line.productId)),
        grams: line.grams,
      })),
      ...(bowl.head.contact ? { contact: bowl.head.contact } : {}),
    },
    { ...(country === null ? {} : { country }), ...(interval ? { interval } : {}) },
  );
}

/** Everything that follows from one pour, as the bowl stands after it. */
export function pourAnswer(
  bowl: BowlInHand,
  drawn: Drawn,
  posting: Posting,
  told: {
    readonly flags: readonly RaisedFlag[];
    readonly money: boolean;
    readonly progress: Progress;
  },
): PourAnswer {
  const next = whatNext(bowl, posting, told.progress);
  return {
    ...pourView(drawn.pour),
    bowlId: bowl.head.id,
    ...(told.money
      ? {
          value: fixed(drawn.value, 6),
          lots: drawn.lots.map((lot) => ({
            lotId: lot.lotId,
            quantity: canonical(lot.quantity),
            value: fixed(lot.value, 6),
          })),
        }
      : {}),
    ...next,
    flags: told.flags
      .filter(({ productId }) => productId === drawn.pour.productId)
      .filter(({ flag }) => told.money || flag !== 'no_cost'),
    cautions: cautionViews(bowlCautions(bowl, posting)),
    ...(drawn.flags.has('late') ? { late: true } : {}),
  };
}

function whatNext(
  bowl: BowlInHand,
  posting: Posting,
  progress: Progress,
): Pick<PourAnswer, 'toPour' | 'offers' | 'strength'> {
  const { plan } = bowl.head;
  const pours = bowl.standing.filter((pour) => pour.pouredAt >= (plan?.since ?? ''));
  const ids = [...(plan?.pours ?? []), ...pours].map((each) => each.productId);
  const products = [...new Set(ids)].map((id) => plainProduct(posting.product(id)));
  const interval = intervalOf(bowl);
  const underway = bowlUnderway(
    { pours: plan ? plannedPours(plan) : [] },
    { basis: plan?.basis ?? 'weight', additives: plan ? followedAdditives(plan) : [] },
    products,
    pours.map(({ productId, grams }) => ({ productId, grams })),
    { ...progress, ...(interval ? { interval } : {}) },
  );
  const none = { lines: underway.lines.map(() => decimal('0')), additives: [] };
  const { strength } = outcomeOf(underway, none.lines, none.additives);
  const made = strength ? { strength: strengthView(strength) } : {};
  if (!plan || underway.lines.length === 0) return { toPour: [], offers: [], ...made };
  const largest = bowl.head.maxTotal;
  const { toPour, offers } = afterPour(underway, {
    ...(interval ? { interval } : {}),
    ...(largest ? { largest_g: largest } : {}),
  });
  const left = toPourViews(toPour, posting);
  // a bowl that is complete by the first offer has nothing more to choose
  const choices = left.length > 0 ? offers.map((offer) => offerView(offer, posting)) : [];
  return { toPour: left, offers: choices, ...made };
}

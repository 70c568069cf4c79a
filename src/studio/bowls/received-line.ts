/** What was poured over from another bowl, as a line of the one that received it. */
import { uuidv7 } from 'uuidv7';
import { zero } from '../../../shared/decimal.js';
import type { PourLine } from './bowl-state.js';

/** The line that a part of a pour becomes in the bowl it was poured into. */
export function received(
  source: PourLine,
  part: { readonly grams: PourLine['grams']; readonly quantity: PourLine['quantity'] },
  fromBowlId: string,
  journalId: string,
  at: string,
): PourLine {
  const grams = part.grams.toDecimalPlaces(3);
  return {
    ...source,
    id: uuidv7(),
    kind: 'received',
    measuredQuantity: grams.greaterThan(zero) ? grams : part.quantity,
    measuredUnit: grams.greaterThan(zero) ? 'g' : source.unit,
    quantity: part.quantity,
    grams,
    pouredAt: at,
    scale: source.scale,
    fromBowlId,
    journalId,
    reversed: false,
  };
}

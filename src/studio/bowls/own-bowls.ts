/** Whose bowl it is, for undoing it. */
import { dayIn } from '../../../shared/calendar.js';
import { Problem } from '../../../shared/problems/problem.js';
import { whoMay } from '../../platform/http/rights.js';
import type { Posting } from '../stock/ledger.service.js';
import type { BowlInHand } from './bowl-in-hand.js';
import type { Acting } from './bowls.service.js';

/**
 * A stylist undoes her own bowls of the same day; the rest is a manager's.
 * @throws Problem `not_your_right`
 */
export function refuseForeign(bowl: BowlInHand, posting: Posting, by: Acting): void {
  const { sizedBy, mixedBy, appliedBy, lastPourAt, plannedAt } = bowl.head;
  const own = by.personId !== null && [sizedBy, mixedBy, appliedBy].includes(by.personId);
  const day = (instant: string) => dayIn(posting.studio.timeZone, instant);
  if (own && day(lastPourAt ?? plannedAt) === day(by.recordedAt)) return;
  throw new Problem('not_your_right', { needs: whoMay('manager') });
}

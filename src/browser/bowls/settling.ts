/** Settling a bowl: the sheet says at once what the service will answer. */
import type { SettlementAnswer } from '../../../shared/contract/bowls.js';
import { canonical, decimal, round, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { benchScale } from '../scales/bench-scale.js';
import { deviceNow } from '../shell/clock.js';
import { bookSettlement, type Settling } from './bookings.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { sheets } from './sheets.js';

export type Why = 'left over' | 'spilled' | 'mixed wrong' | 'stopped';

/** Settles the bowl in the hand. */
export function settle(hand: BowlInHand, sheet: Sheet, settling: Settling & { why: Why }): void {
  hand.weighOnly(true);
  // a pour that may still drip is booked before the settlement
  benchScale.send({ type: 'bowl_done' });
  const now = sheets.get(sheet.id) ?? sheet;
  bookSettlement(now, settling, (answer) => sheets.put({ ...now, settled: answer }));
  sheets.put({ ...now, settled: expected(now, settling) });
}

/** Settles a bowl that nobody weighed: about this share was left. */
export function settleUnweighed(sheet: Sheet, leftoverShare: string): void {
  const settling = { leftoverShare, why: 'left over', borneBy: 'visit' } as const;
  bookSettlement(sheet, settling, () => sheets.remove(sheet.id));
  sheets.put({ ...sheet, settled: expected(sheet, settling) });
}

/** What is left, in grams: weighed, or a share of what it holds. */
function leftOf(sheet: Sheet, { leftover, leftoverShare }: Settling): Decimal {
  if (leftover) return leftover;
  return round(contentsGrams(sheet).times(decimal(leftoverShare ?? '0')), 3, 'half_even');
}

/** The sums of the settlement before the service has answered; it answers with each product. */
function expected(sheet: Sheet, settling: Settling): SettlementAnswer {
  const grams = (value: Decimal) => ({ quantity: canonical(value), unit: 'g' as const });
  const mixed = sum(sheet.pours.map((pour) => decimal(pour.grams)));
  const wasted = leftOf(sheet, settling);
  const share = mixed.isZero() ? zero : round(wasted.dividedBy(mixed), 6, 'half_even');
  return {
    id: '',
    bowlId: sheet.id,
    settledAt: deviceNow(),
    why: settling.why,
    borneBy: settling.borneBy,
    estimated: settling.leftover === undefined,
    mixed: grams(mixed),
    applied: grams(mixed.minus(wasted)),
    wasted: grams(wasted),
    wasteShare: canonical(share),
    pours: [],
    questions: [],
  };
}

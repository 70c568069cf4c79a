/** Left over: what went to the bin of what was mixed, with an interval, in grams and in money. */
import { Decimal, count, larger, one, smaller, sum, zero } from './decimal.js';

/** Why product of a bowl went to the bin. */
export type WasteReason = 'left_over' | 'spilled' | 'mixed_wrong' | 'stopped';

/** A settled bowl: grams and values mixed into it and of that to the bin. */
export interface SettledBowl {
  readonly mixed_g: Decimal;
  readonly wasted_g: Decimal;
  readonly mixedValue: Decimal;
  readonly wastedValue: Decimal;
  /** True when it was settled without weighing. */
  readonly estimated: boolean;
  readonly why: WasteReason;
}

/** Left over of a group of bowls. Sums and share are of weighed bowls that were no remakes. */
export interface LeftOver {
  /** Bowls in the share: weighed, no remake, something mixed. */
  readonly bowls: number;
  readonly estimatedBowls: number;
  readonly remadeBowls: number;
  readonly mixed_g: Decimal;
  readonly applied_g: Decimal;
  readonly wasted_g: Decimal;
  readonly mixedValue: Decimal;
  readonly wastedValue: Decimal;
  /** wasted / mixed, ratio of sums, in grams; null with nothing mixed. */
  readonly share: Decimal | null;
  /** The same in money. */
  readonly valueShare: Decimal | null;
  /** 90 % interval of the share; null under 5 bowls. */
  readonly interval: Interval | null;
  /** Beside, never in the share. */
  readonly estimatedMixed_g: Decimal;
  readonly estimatedWasted_g: Decimal;
  readonly remade_g: Decimal;
  readonly remadeValue: Decimal;
  /** Bowls not weighed, as a share of all but remakes; null without any. */
  readonly notWeighedShare: Decimal | null;
}

export interface Interval {
  readonly low: Decimal;
  readonly high: Decimal;
}

/** No interval is shown under this many bowls. */
export const fewestBowlsForInterval = 5;

/** Spilled and mixed wrong stand for a second mix; they say nothing about size. */
export function isRemake(bowl: Pick<SettledBowl, 'why'>): boolean {
  return bowl.why === 'spilled' || bowl.why === 'mixed_wrong';
}

/**
 * Left over of a group: share = sum wasted / sum mixed over weighed bowls with something mixed;
 * bowls not weighed and remakes are counted beside it.
 */
export function leftOver(bowls: readonly SettledBowl[]): LeftOver {
  const filled = bowls.filter((bowl) => bowl.mixed_g.greaterThan(zero));
  const remade = filled.filter(isRemake);
  const estimated = filled.filter((bowl) => !isRemake(bowl) && bowl.estimated);
  const weighed = filled.filter((bowl) => !isRemake(bowl) && !bowl.estimated);
  const mixed_g = sum(weighed.map((bowl) => bowl.mixed_g));
  const wasted_g = sum(weighed.map((bowl) => bowl.wasted_g));
  const mixedValue = sum(weighed.map((bowl) => bowl.mixedValue));
  const wastedValue = sum(weighed.map((bowl) => bowl.wastedValue));
  return {
    bowls: weighed.length,
    estimatedBowls: estimated.length,
    remadeBowls: remade.length,
    mixed_g,
    applied_g: mixed_g.minus(wasted_g),
    wasted_g,
    mixedValue,
    wastedValue,
    share: shareOf(wasted_g, mixed_g),
    valueShare: shareOf(wastedValue, mixedValue),
    interval: shareInterval(weighed),
    estimatedMixed_g: sum(estimated.map((bowl) => bowl.mixed_g)),
    estimatedWasted_g: sum(estimated.map((bowl) => bowl.wasted_g)),
    remade_g: sum(remade.map((bowl) => bowl.wasted_g)),
    remadeValue: sum(remade.map((bowl) => bowl.wastedValue)),
    notWeighedShare: shareOf(count(estimated.length), count(estimated.length + weighed.length)),
  };
}

function shareOf(part: Decimal, whole: Decimal): Decimal | null {
  return whole.isZero() ? null : part.dividedBy(whole);
}

/**
 * 90 % interval of a ratio of sums by the jackknife over bowls: each bowl is left out once, and
 * `jackknifeInterval` takes the spread of the shares that remain. None under 5 bowls.
 */
export function shareInterval(
  bowls: readonly Pick<SettledBowl, 'mixed_g' | 'wasted_g'>[],
): Interval | null {
  const mixed = sum(bowls.map((bowl) => bowl.mixed_g));
  const wasted = sum(bowls.map((bowl) => bowl.wasted_g));
  if (bowls.length < fewestBowlsForInterval || mixed.isZero()) return null;
  const without = bowls.map((bowl) =>
    wasted.minus(bowl.wasted_g).dividedBy(mixed.minus(bowl.mixed_g)),
  );
  return jackknifeInterval({
    share: wasted.dividedBy(mixed),
    bowls: bowls.length,
    sumOfShares: sum(without),
    sumOfSquares: sum(without.map((share) => share.times(share))),
  });
}

/** What the jackknife needs of the shares with one bowl left out; sums that SQL can give too. */
export interface JackknifeSums {
  readonly share: Decimal;
  readonly bowls: number;
  readonly sumOfShares: Decimal;
  readonly sumOfSquares: Decimal;
}

/**
 * share +- t se, within 0 to 1: se^2 = (n - 1) / n x sum((r_i - mean)^2), r_i the share without
 * bowl i, t the 95 % point of Student's t with n - 1 degrees of freedom. None under 5 bowls.
 * Source: jackknife standard error as in Efron and Tibshirani, An Introduction to the Bootstrap,
 * 11.5 (`memory`).
 */
export function jackknifeInterval(sums: JackknifeSums): Interval | null {
  if (sums.bowls < fewestBowlsForInterval) return null;
  const n = count(sums.bowls);
  const spread = sums.sumOfSquares.minus(sums.sumOfShares.pow(2).dividedBy(n));
  const variance = larger(zero, spread).times(n.minus(one)).dividedBy(n);
  const half = variance.squareRoot().times(studentT95(sums.bowls - 1));
  return {
    low: larger(zero, sums.share.minus(half)),
    high: smaller(one, sums.share.plus(half)),
  };
}

/**
 * 95 % points of Student's t by degrees of freedom. Source: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.6.7.2 (`memory`).
 */
const t95: readonly (readonly [number, string])[] = [
  [4, '2.132'],
  [5, '2.015'],
  [6, '1.943'],
  [7, '1.895'],
  [8, '1.860'],
  [9, '1.833'],
  [10, '1.812'],
  [12, '1.782'],
  [15, '1.753'],
  [20, '1.725'],
  [30, '1.697'],
  [40, '1.684'],
  [60, '1.671'],
  [100, '1.660'],
  [1000, '1.646'],
];

/** The point of the next fewer degrees of freedom in the table: never too narrow. */
function studentT95(degrees: number): Decimal {
  const row = t95.filter(([atLeast]) => atLeast <= degrees).at(-1);
  return new Decimal(row?.[1] ?? '2.132');
}

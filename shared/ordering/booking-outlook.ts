/** What the diary says of one product's use in the weeks to come, beside its forecast. */
import { dayAfter } from '../calendar.js';
import {
  combineWithVisits,
  pickUp,
  useFromVisits,
  type CombinationRecord,
  type ShrunkUse,
  type Uncertain,
} from '../forecasting/bookings.js';
import { WEEKS_AHEAD, WEEKS_BACK, weekOf, type ServiceOutlook } from './booked-visits.js';
import { usePerVisit, type VisitUse } from './use-per-visit.js';

/** One week ahead of a product, in its stock unit; week 0 begins today. */
export interface WeekAhead {
  /** By the forecast alone, and with the diary. */
  readonly statistical: number;
  readonly mean: number;
  /** Variance with the diary as a part of that without. */
  readonly spread: number;
  /** Booked visits for services that use it, and what those that are kept use. */
  readonly bookings: number;
  readonly bookedUse: number;
  /** Share of what visits use that the diary decides. */
  readonly weight: number;
}

/** A product's forecast of the weeks ahead: use by visits and all other use. */
export interface WeeksForecast {
  readonly weeks: readonly Uncertain[];
}

/** Past errors below this number do not decide how far the diary is trusted. */
const FEWEST_ERRORS = 8;
/** Weeks whose mean stands for the forecast that would have been made then. */
const LEVEL_WEEKS = 13;
const LEAST_SPREAD = 0.1;
const MOST_SPREAD = 4;
/** Use below this part of a visit's mean use is no use of a service. */
const SMALL = 0.01;

/**
 * Combines the forecast of every week ahead with what is booked (see `combineWithVisits`). Use
 * that went into no visit stays as it was forecast. `share`: part of past use that visits had.
 */
export function outlookOf(
  forecast: WeeksForecast,
  services: ReadonlyMap<string, ServiceOutlook>,
  visits: readonly VisitUse[],
  share: number,
  today: string,
): WeekAhead[] {
  const use = usePerVisit(visits, services.keys());
  const actual = useByWeek(visits, today);
  return forecast.weeks.slice(0, WEEKS_AHEAD).map((week, ahead) => {
    const coming = [...services].map(([id, outlook]) => ({
      ...{ outlook, use: use.get(id) ?? none, booked: outlook.booked[ahead] ?? 0 },
      visits: outlook.expected[ahead] ?? certainNone,
    }));
    const ofVisits = useFromVisits(coming);
    const bookedUse = coming.reduce((sum, { booked, outlook, use: each }) => {
      return sum + booked * outlook.keep * each.mean;
    }, 0);
    const combined = combineWithVisits({
      statistical: { mean: share * week.mean, variance: share * week.variance },
      visits: ofVisits,
      bookedUse,
      bookedShare: ofVisits.mean > 0 ? bookedUse / ofVisits.mean : 0,
      record: recordOf(services, use, actual, ahead),
    });
    const spread = (combined.variance + (1 - share) * week.variance) / week.variance;
    const typical = Math.max(...coming.map(({ use: each }) => each.mean), 0);
    return {
      statistical: week.mean,
      mean: combined.mean + (1 - share) * week.mean,
      spread:
        combined.weight > 0 && Number.isFinite(spread)
          ? Math.min(MOST_SPREAD, Math.max(LEAST_SPREAD, spread))
          : 1,
      bookings: coming
        .filter(({ use: each }) => each.mean > SMALL * typical)
        .reduce((sum, { booked }) => sum + booked, 0),
      ...{ bookedUse, weight: combined.weight },
    };
  });
}

const none: ShrunkUse = { mean: 0, variance: 0, weight: 0 };
const certainNone: Uncertain = { mean: 0, variance: 0 };

/** Use by visits in past weeks, by number: 0 the seven days before today. */
function useByWeek(visits: readonly VisitUse[], today: string): number[] {
  const weeks = new Array<number>(WEEKS_BACK + WEEKS_AHEAD + LEVEL_WEEKS).fill(0);
  const first = dayAfter(today, -7 * weeks.length);
  for (const { day, use } of visits) {
    if (day < first || day >= today) continue;
    const index = -1 - weekOf(today, day);
    weeks[index] = (weeks[index] ?? 0) + use;
  }
  return weeks;
}

/**
 * How the two did at this distance in past weeks: the mean of the 13 weeks known then, and the
 * bookings of then with what usually came in addition. Null with fewer than 8 weeks. The visits'
 * errors are raised by n/(n - 2), because use and additions are learned from the same weeks.
 */
function recordOf(
  services: ReadonlyMap<string, ServiceOutlook>,
  use: ReadonlyMap<string, ShrunkUse>,
  actual: readonly number[],
  ahead: number,
): CombinationRecord | null {
  const outlooks = [...services].map(([id, { keep, past }]) => {
    const seen = past[ahead] ?? [];
    return { seen, keep, more: pickUp(seen, keep).mean, use: use.get(id)?.mean ?? 0 };
  });
  const known = outlooks[0]?.seen ?? [];
  const weeks = known.length;
  if (weeks < FEWEST_ERRORS) return null;
  const errors = known.map(({ index }, position) => {
    const byVisits = outlooks.reduce((total, { seen, keep, more, use: each }) => {
      const visits = Math.max(0, keep * (seen[position]?.bookedThen ?? 0) + more);
      return total + visits * each;
    }, 0);
    const first = index + ahead + 1;
    const before = actual.slice(first, first + LEVEL_WEEKS);
    const level = before.reduce((a, b) => a + b, 0) / Math.max(1, before.length);
    const came = actual[index] ?? 0;
    return { statistical: came - level, visits: came - byVisits };
  });
  const sum = (of: (error: { statistical: number; visits: number }) => number) =>
    errors.reduce((total, error) => total + of(error), 0);
  const squares = sum(({ statistical }) => statistical ** 2);
  const visitSquares = sum(({ visits }) => visits ** 2);
  const cross = sum(({ statistical, visits }) => statistical * visits);
  const bothMissed = squares > 0 && visitSquares > 0;
  if (squares === 0 && visitSquares === 0) return null;
  return {
    statistical: Math.sqrt(squares / weeks),
    visits: Math.sqrt(visitSquares / (weeks - 2)),
    correlation: bothMissed ? cross / Math.sqrt(squares * visitSquares) : 0,
  };
}

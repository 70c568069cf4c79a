/** A price before the service: what like visits would come to today, and how far that held. */
import { minorDigits } from './currency.js';
import { sum, type Decimal } from './decimal.js';
import { roundUpToStep } from './money.js';
import { charges } from './pricing-charges.js';
import { taxRatesOf, type SheetInput } from './pricing-input.js';

/** What was charged for and how long it took in one past visit; product at today's cost. */
export interface PastVisit extends Pick<SheetInput, 'products' | 'bowls'> {
  /** Chair minutes. */
  readonly minutes: Decimal;
  readonly handsOnMinutes: Decimal;
  /** Grams mixed in its bowls. */
  readonly grams: Decimal;
  /** Number of bowls started. */
  readonly started: Decimal;
}

/** The menu, the taxes and the rules of what is on top, as they are today. */
export type PriceToday = Pick<SheetInput, 'money' | 'services' | 'onTop' | 'measuredOn'>;

/** The 10, 50 and 90 % points; each is a value that was seen. */
export interface Points {
  readonly low: Decimal;
  readonly likely: Decimal;
  readonly high: Decimal;
}

/** How visits ended beside what those before them would have had quoted. */
export interface Held {
  /** Visits with enough like ones before them. */
  readonly visits: number;
  /** Those that ended at or under the 90 % point. */
  readonly atOrUnder: number;
  /** Those that ended from the 10 to the 90 % point; 80 % are expected. */
  readonly inside: number;
}

export interface Quote {
  /** The menu alone, with its taxes; in the currency's minor digits. */
  readonly menu: { readonly net: Decimal; readonly tax: Decimal; readonly gross: Decimal };
  /** Gross; null where there is no like visit. */
  readonly price: Points | null;
  readonly grams: Points | null;
  readonly bowls: Points | null;
  readonly minutes: Points | null;
  readonly handsOnMinutes: Points | null;
  readonly visits: number;
  /** False under 9 visits: then the points are only the least and the most there was. */
  readonly enough: boolean;
  readonly held: Held;
}

/** From so many visits on, one visit in ten may lie below the lowest, and one above the highest. */
export const enoughVisits = 9;

/**
 * The 10, 50 and 90 % points of n values for the next one like them: the values at the places
 * (n + 1) / 10 rounded down, (n + 1) / 2 rounded up, 9 (n + 1) / 10 rounded up, from 1 to n. Of
 * values in no particular order the next is at or under the k-th with a chance of k / (n + 1) or
 * more. Source: S. S. Wilks, Ann. Math. Stat. 12 (1941), 91-96 (memory). Null for no values.
 * Example: 1, 2, … 9 -> 1, 5, 9; 1, 2, … 19 -> 2, 10, 18.
 */
export function pointsOf(values: readonly Decimal[]): Points | null {
  return pointsOfSorted([...values].sort((a, b) => a.comparedTo(b)));
}

function pointsOfSorted(sorted: readonly Decimal[]): Points | null {
  const n = sorted.length;
  const at = (place: number) => sorted[Math.min(Math.max(place, 1), n) - 1];
  const low = at(Math.floor((n + 1) / 10));
  const likely = at(Math.ceil((n + 1) / 2));
  const high = at(Math.ceil((9 * (n + 1)) / 10));
  return low && likely && high ? { low, likely, high } : null;
}

/**
 * How far quotes would have held: each value beside the points of those before it, as soon as
 * there are 9; the upper one as it would have been told, rounded up to the step. Values in the
 * order of time. Example: 1, 2, … 9, 5, 20 -> 2 visits, 1 at or under the 90 % point, 1 inside.
 */
export function heldBy(values: readonly Decimal[], step?: Decimal): Held {
  const before: Decimal[] = [];
  let [visits, atOrUnder, inside] = [0, 0, 0];
  for (const value of values) {
    const points = before.length < enoughVisits ? null : pointsOfSorted(before);
    if (points) {
      visits += 1;
      const under = value.lessThanOrEqualTo(step ? roundUpToStep(points.high, step) : points.high);
      if (under) atOrUnder += 1;
      if (under && value.greaterThanOrEqualTo(points.low)) inside += 1;
    }
    before.splice(placeIn(before, value), 0, value);
  }
  return { visits, atOrUnder, inside };
}

/** Points as a price is told: rounded up to a step. (9.10, 9.20, 10; 0.5) -> 9.50, 9.50, 10. */
function inSteps(points: Points | null, step: Decimal | undefined): Points | null {
  if (!points || !step) return points;
  const { low, likely, high } = points;
  const up = (price: Decimal) => roundUpToStep(price, step);
  return { low: up(low), likely: up(likely), high: up(high) };
}

/** How many of the sorted values are at or under the value. */
function placeIn(sorted: readonly Decimal[], value: Decimal): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (sorted[middle]?.lessThanOrEqualTo(value)) from = middle + 1;
    else to = middle;
  }
  return from;
}

/**
 * What a past visit would come to today, gross: today's menu, what it took on top by today's
 * rules and cost, without discounts; rounded once, in the currency's minor digits.
 * @throws Problem `unknown_currency`, `no_tax_rule`
 */
export function repriced(past: Pick<PastVisit, 'products' | 'bowls'>, today: PriceToday): Decimal {
  const { products = [], bowls = [] } = past;
  return charges({ ...today, products, bowls }).gross;
}

/**
 * A quote from like visits, in the order of time: each re-priced at today's prices; the points of
 * the price, rounded up to the step in which the studio sets prices, and of grams, bowls and
 * minutes each by themselves.
 * @throws Problem `unknown_currency`, `no_tax_rule`
 */
export function quote(past: readonly PastVisit[], today: PriceToday, step?: Decimal): Quote {
  minorDigits(today.money.currency);
  taxRatesOf(today.money);
  const { net, tax, gross } = charges(menuOnly(today));
  const prices = past.map((visit) => repriced(visit, today));
  return {
    menu: { net, tax, gross },
    price: inSteps(pointsOf(prices), step),
    grams: pointsOf(past.map((visit) => visit.grams)),
    bowls: pointsOf(past.map((visit) => visit.started)),
    minutes: pointsOf(past.map((visit) => visit.minutes)),
    handsOnMinutes: pointsOf(past.map((visit) => visit.handsOnMinutes)),
    visits: past.length,
    enough: past.length >= enoughVisits,
    held: heldBy(prices, step),
  };
}

function menuOnly({ money, services }: PriceToday): SheetInput {
  return { money, services };
}

/** Grams of a visit's product that went into bowls it bears. */
export function mixedGrams(products: NonNullable<SheetInput['products']>): Decimal {
  const own = products.filter(
    ({ bowlId, borneBy }) => (bowlId ?? null) !== null && borneBy !== 'studio',
  );
  return sum(own.flatMap(({ grams }) => grams ?? []));
}

/** The rule of the beam: what it spans, where a weight lies on it, and its graduation. */
import { decimal, larger, type Decimal } from '../../../shared/decimal.js';

/** From how many grams before the notch the rule magnifies. */
export const magnifiesAt = decimal('15');

/** What the rule shows: from, to, in grams of the pour. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A line of the graduation; `label` on the long ones. */
export interface Mark {
  readonly at: number;
  readonly label: number | undefined;
  readonly rank: 'long' | 'middle' | 'short';
}

/** A position on the screen, no amount: a float is exact enough for a pixel. */
function forPixels(value: Decimal): number {
  return Number.parseInt(value.times(1000).toFixed(0), 10) / 1000;
}

/**
 * The span for a target and what is poured: from 0 to a quarter beyond the target; within 15 g of
 * the notch only the last 15 g and 10 g beyond, so that a gram is a finger wide.
 */
export function spanFor(target: Decimal, poured: Decimal): Span {
  const near = target.minus(poured).lessThanOrEqualTo(magnifiesAt);
  const beyond = larger(poured.minus(target).plus(4), decimal('10'));
  if (near && target.greaterThan(magnifiesAt)) {
    return { from: forPixels(target.minus(magnifiesAt)), to: forPixels(target.plus(beyond)) };
  }
  const end = larger(target.times('1.25'), larger(target.plus(beyond), decimal('20')));
  return { from: 0, to: forPixels(end) };
}

/** Where grams lie on the span, 0 to 1; beyond its ends they stay at the ends. */
export function shareOf(grams: Decimal, { from, to }: Span): number {
  const at = (forPixels(grams) - from) / (to - from);
  return Math.min(1, Math.max(0, at));
}

const steps = [1, 5, 10, 50, 100, 500] as const;

/** The graduation of a span: at most about 60 lines, labels on every tenth or fifth. */
export function marksOf(span: Span): Mark[] {
  const width = span.to - span.from;
  const step = steps.find((each) => width / each <= 60) ?? 1000;
  const marks: Mark[] = [];
  for (let at = Math.ceil(span.from / step) * step; at <= span.to; at += step) {
    const tenth = at % (step * 10) === 0;
    const fifth = at % (step * 5) === 0;
    const rank = tenth ? 'long' : fifth ? 'middle' : 'short';
    const labelled = tenth || (fifth && width / step <= 40);
    marks.push({ at, rank, label: labelled ? at : undefined });
  }
  return marks;
}

/** Whether a result is the published value: rounding to its printed places, tolerance, names. */
import { Decimal, canonical, round } from '../../../shared/decimal.js';
import { asFigure } from './inputs.js';
import { Between, type Got } from './topic.js';
import { isFields } from './value-row.js';

/** Digits kept when a figure must be exact: beyond them only the noise of a division is left. */
const exactPlaces = 25;

/**
 * True when `got` is what is `expected`. A decimal in text: `got` rounded half-up to the printed
 * places; with a numeric tolerance: not further away than that; "as printed": not further than
 * one unit of the last printed place. A whole number, a name, yes or no: exactly. Lists and
 * fields: each of theirs. A result between two: the published value is one of them.
 */
export function matches(expected: unknown, got: Got, tolerance?: number | string): boolean {
  if (Array.isArray(expected)) {
    return (
      Array.isArray(got) &&
      got.length === expected.length &&
      expected.every((each, index) => matches(each, (got as Got[])[index] ?? null, tolerance))
    );
  }
  if (isFields(expected)) {
    return (
      isFields(got) &&
      Object.entries(expected).every(([name, each]) =>
        matches(each, (got as Record<string, Got>)[name] ?? null, tolerance),
      )
    );
  }
  const published = asFigure(expected);
  if (got instanceof Between) {
    const atPlaces = (bound: Decimal): Decimal =>
      round(bound, printedPlaces(String(expected)), 'half_up');
    return (
      published !== undefined &&
      published.greaterThanOrEqualTo(atPlaces(got.low)) &&
      published.lessThanOrEqualTo(atPlaces(got.high))
    );
  }
  const result = got instanceof Decimal ? got : asFigure(got);
  if (published && result) return figuresMatch(expected, published, result, tolerance);
  return expected === (got instanceof Decimal ? canonical(got) : got);
}

function figuresMatch(
  expected: unknown,
  published: Decimal,
  result: Decimal,
  tolerance: number | string | undefined,
): boolean {
  if (!result.isFinite()) return false;
  const places = printedPlaces(String(expected));
  const allowed =
    asFigure(tolerance) ?? (tolerance === undefined ? undefined : new Decimal(10).pow(-places));
  if (allowed) return result.minus(published).abs().lessThanOrEqualTo(allowed);
  if (typeof expected === 'number' && places === 0) {
    return round(result, exactPlaces, 'half_even').equals(published);
  }
  return round(result, places, 'half_up').equals(published);
}

/** Decimals as printed: "3.030" -> 3, "1e-2" -> 2, "12" -> 0. */
export function printedPlaces(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.toLowerCase().split('e');
  const decimals = mantissa.split('.')[1]?.length ?? 0;
  return Math.max(0, decimals - parseInt(exponent, 10));
}

/** A result as it is shown beside a value that it does not match. */
export function shown(got: Got | undefined): string {
  if (got === undefined) return 'nothing';
  return JSON.stringify(got, (_name, value: unknown) =>
    value instanceof Decimal ? value.toFixed() : value,
  );
}

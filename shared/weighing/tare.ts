/** Which tare counts: the one given with the request, else the bowl's, else the vessel's. */
import type { Decimal } from '../decimal.js';

/** Where a tare came from, first to last; `set_down`: the still weight of the empty bowl. */
export const tareSources = ['request', 'bowl', 'vessel', 'set_down'] as const;
export type TareSource = (typeof tareSources)[number];

/** A tare in grams and its source. */
export interface Tare {
  readonly grams: Decimal;
  readonly source: TareSource;
}

/** The tare that counts: the first that is given, else the still weight when set down. */
export function chooseTare(
  given: Readonly<Partial<Record<Exclude<TareSource, 'set_down'>, Decimal>>>,
  setDownGrams: Decimal,
): Tare {
  for (const source of tareSources) {
    const grams = source === 'set_down' ? setDownGrams : given[source];
    if (grams) return { grams, source };
  }
  return { grams: setDownGrams, source: 'set_down' };
}

/** How long a supplier takes: learned from deliveries, else as declared, with its spread. */

/** Days from order to delivery; variance in days^2. */
export interface LeadTime {
  readonly days: number;
  readonly variance: number;
  readonly from: 'deliveries' | 'declared' | 'usual';
  /** Deliveries whose order day is known. */
  readonly receipts: number;
}

/** Deliveries that it takes to learn from. */
export const FEWEST_RECEIPTS = 5;
/** Only the last ones: suppliers change. */
const MOST_RECEIPTS = 24;
/** Where nobody declared one. Common practice, no source. */
const USUAL_DAYS = 7;
/** Deviation of a declared lead time, as a part of it. Common practice, no source. */
const DECLARED_SPREAD = 0.25;

/**
 * Mean and variance of the last 24 receipts (oldest first, in days) from five on; a lead time
 * typed on the product stands, with the spread learned. Fewer: the declared one, give or take a
 * quarter. Example: 3, 4, 4, 5, 4 -> 4 days, variance 0.5.
 */
export function leadTimeOf(
  receipts: readonly number[],
  declared: { readonly product: number | null; readonly supplier: number | null },
): LeadTime {
  const last = receipts.filter((days) => days >= 0).slice(-MOST_RECEIPTS);
  const told = declared.product ?? declared.supplier;
  if (last.length >= FEWEST_RECEIPTS) {
    const mean = last.reduce((a, b) => a + b, 0) / last.length;
    const variance = last.reduce((a, d) => a + (d - mean) ** 2, 0) / (last.length - 1);
    const days = declared.product ?? mean;
    return { days, variance, from: 'deliveries', receipts: last.length };
  }
  const days = told ?? USUAL_DAYS;
  const variance = (days * DECLARED_SPREAD) ** 2;
  return { days, variance, from: told === null ? 'usual' : 'declared', receipts: last.length };
}

/** How a product sells: smooth, erratic, intermittent or lumpy. */

/** Class of a demand pattern by Syntetos, Boylan & Croston (2005). */
export type DemandClass = 'smooth' | 'erratic' | 'intermittent' | 'lumpy' | 'none';

/** What the class is made of: periods per demand and squared variation of the demands. */
export interface DemandPattern {
  demandClass: DemandClass;
  positives: number;
  /** n / number of positive periods; Infinity without any. */
  periodsPerDemand: number;
  /** (standard deviation / mean)^2 of the positive demands, n-1 in the deviation. */
  squaredVariation: number;
}

/** Cut-offs of Syntetos, Boylan & Croston (2005). */
export const ADI_CUT = 1.32;
export const CV2_CUT = 0.49;

/** Counts and classifies a series; values <= 0 are periods without demand. */
export function classifyDemand(y: ArrayLike<number>): DemandPattern {
  let positives = 0;
  let sum = 0;
  for (let t = 0; t < y.length; t++) {
    if (y[t]! > 0) {
      positives++;
      sum += y[t]!;
    }
  }
  if (positives === 0) {
    return { demandClass: 'none', positives, periodsPerDemand: Infinity, squaredVariation: 0 };
  }
  const mean = sum / positives;
  let squares = 0;
  for (let t = 0; t < y.length; t++) if (y[t]! > 0) squares += (y[t]! - mean) ** 2;
  const squaredVariation = positives > 1 ? squares / (positives - 1) / (mean * mean) : 0;
  const periodsPerDemand = y.length / positives;
  const even = squaredVariation < CV2_CUT;
  const often = periodsPerDemand < ADI_CUT;
  const demandClass = often ? (even ? 'smooth' : 'erratic') : even ? 'intermittent' : 'lumpy';
  return { demandClass, positives, periodsPerDemand, squaredVariation };
}

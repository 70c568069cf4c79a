/** A reading of so many grams, as a scale of 0.1 g would give it. */
import { decimal, type Decimal } from '../../shared/decimal.js';
import type { Reading } from '../../shared/scales/reading.js';

export function readingOfGrams(grams: Decimal, stable: boolean): Reading {
  return {
    kind: 'reading',
    status: 'weight',
    mode: 'gross',
    ...{ grams, value: grams, unit: 'g', stable },
    intervalGrams: decimal('0.1'),
    carriedBy: grams.toFixed(1),
  };
}

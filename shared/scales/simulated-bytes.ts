/** Readings of the simulated scale as the bytes a real one would send: to try a page or agent. */
import { canonical, count, decimal, fixed, round, smaller } from '../decimal.js';
import { hidLargestRaw } from './hid-report.js';
import type { Reading } from './reading.js';

const ten = decimal('10');

/**
 * A USB HID data report without its id: status, unit 2 (g), exponent -1, weight in tenths of a
 * gram rounded half-even, at most 6553.5 g; below zero and too heavy have no figure.
 */
export function hidReportOf(reading: Reading): Uint8Array {
  const grams = reading.grams;
  if (!grams) return Uint8Array.of(reading.status === 'over' ? 6 : 1, 2, 0xff, 0, 0);
  if (grams.isNegative() && !grams.isZero()) return Uint8Array.of(5, 2, 0xff, 0, 0);
  const tenths = smaller(round(grams.times(ten), 0, 'half_even'), count(hidLargestRaw));
  const raw = parseInt(canonical(tenths), 10);
  const status = reading.stable === false ? 3 : grams.isZero() ? 2 : 4;
  return Uint8Array.of(status, 2, 0xff, raw & 0xff, raw >> 8);
}

/** A line of the form status, gross, sign, weight, unit: "ST,GS,+   123.4g" with CR LF. */
export function modeLineOf(reading: Reading): string {
  const { grams, stable } = reading;
  if (!grams) return `OL,GS,+  9999.9g\r\n`;
  const digits = fixed(grams.abs(), 1).padStart(8);
  const sign = grams.isNegative() && !grams.isZero() ? '-' : '+';
  return `${stable === false ? 'US' : 'ST'},GS,${sign}${digits}g\r\n`;
}

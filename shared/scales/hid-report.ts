/** Decodes one data report of a USB HID weighing device (usage page 0x8D) into a reading. */
import { count, type Decimal } from '../decimal.js';
import { powerOfTen, readingOf } from './figure.js';
import { damage, withoutFigure, type Damage, type Reading } from './reading.js';
import type { ScaleUnit } from './scale-units.js';

/** Meaning of the status byte, 1 to 8. Source: USB-IF HID Point of Sale Usage Tables v1.02. */
export const hidStatuses = [
  'fault',
  'stable_at_centre_of_zero',
  'in_motion',
  'weight_stable',
  'under_zero',
  'over_weight_limit',
  'requires_calibration',
  'requires_rezeroing',
] as const;
export type HidStatus = (typeof hidStatuses)[number];

/** Meaning of the unit byte, 1 to 12. Source: the same tables. */
export const hidUnits: readonly ScaleUnit[] = [
  'mg',
  'g',
  'kg',
  'carat',
  'tael',
  'grain',
  'pennyweight',
  'tonne',
  'avoirdupois_ton',
  'troy_ounce',
  'ounce',
  'pound',
];

/** Output report that zeroes: report id 2, bit 0 enforced zero return (one device seen to obey). */
export const hidZeroReport = { reportId: 2, payload: [0x01] } as const;

/** Bits of the control report (id 2), low to high in the order of their usages. */
export const hidControlBits = { enforcedZeroReturn: 0x01, zeroScale: 0x02 } as const;

/** The control report (id 2): two single bits and padding to a byte, sent to the device. */
export const hidControlReport = {
  reportId: 2,
  type: 'output',
  sizeBits: 1,
  count: 2,
  paddingBits: 6,
} as const;

/** Largest raw data weight: 16 bits, unsigned. */
export const hidLargestRaw = 0xffff;

/** Where the status byte stands: straight at the front, or behind the report's id. */
export type HidLayout = 'status_first' | 'id_first';

/** The fields of a data report, as numbers. */
export interface HidFields {
  readonly statusCode: number;
  readonly unitCode: number;
  /** Power of ten, signed. */
  readonly exponent: number;
  /** 0 to 65535, low byte first. */
  readonly raw: number;
  readonly layout: HidLayout;
}

const fieldBytes = 5;
const dataReportIds: readonly number[] = [3, 4];

/** Hex of some bytes, as in the tables: "03 04 0C FE 11 03". */
export function hexOf(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join(' ');
}

/** A signed byte: 0xFE -> -2. */
export function signedByte(byte: number): number {
  return ((byte & 0xff) << 24) >> 24;
}

/** weight = raw x 10^exponent, exact, in the report's unit: (785, -2) -> 7.85. */
export function hidWeight(raw: number, exponent: number): Decimal {
  return count(raw).times(powerOfTen(exponent));
}

/**
 * The same weight from two 32-bit events of the Linux hiddev interface: usage 0x8D0041 carries
 * the signed exponent, 0x8D0040 the data weight: (0xFFFFFFFF, 0x11B) -> 28.3.
 */
export function hiddevWeight(scalingEvent: number, weightEvent: number): Decimal {
  return hidWeight(weightEvent >>> 0, scalingEvent | 0);
}

/**
 * Splits a data report into its fields. One 0x00 that some systems put in front is skipped; then
 * exactly five bytes begin with the status, six or more with the report's id (3; one library
 * also knows 4), followed by nothing but zeros. Undefined when the bytes are no such report.
 */
export function hidFields(bytes: Uint8Array): HidFields | undefined {
  const skipped = bytes.length > fieldBytes && bytes[0] === 0 ? 1 : 0;
  const rest = bytes.subarray(skipped);
  if (rest.length < fieldBytes) return undefined;
  const withId = rest.length > fieldBytes;
  if (withId && !dataReportIds.includes(rest[0]!)) return undefined;
  const fields = rest.subarray(withId ? 1 : 0);
  if (fields.subarray(fieldBytes).some((byte) => byte !== 0)) return undefined;
  return {
    statusCode: fields[0]!,
    unitCode: fields[1]!,
    exponent: signedByte(fields[2]!),
    raw: fields[3]! | (fields[4]! << 8),
    layout: withId ? 'id_first' : 'status_first',
  };
}

/**
 * The reading of one data report. A figure comes only with the statuses at zero, in motion and
 * stable; the data weight is unsigned, so under zero has none.
 */
export function readHidReport(bytes: Uint8Array): Reading | Damage {
  const fields = hidFields(bytes);
  const carriedBy = hexOf(bytes);
  if (!fields) return damage('wrong_length', carriedBy);
  const status = hidStatuses[fields.statusCode - 1];
  if (status === undefined) return damage('unknown_status', carriedBy);
  switch (status) {
    case 'fault':
      return withoutFigure('fault', carriedBy);
    case 'under_zero':
      return withoutFigure('under', carriedBy);
    case 'over_weight_limit':
      return withoutFigure('over', carriedBy);
    case 'requires_calibration':
      return withoutFigure('needs_calibration', carriedBy);
    case 'requires_rezeroing':
      return withoutFigure('needs_zero', carriedBy);
    case 'stable_at_centre_of_zero':
    case 'in_motion':
    case 'weight_stable':
      return figureOfReport(fields, status, carriedBy);
  }
}

function figureOfReport(fields: HidFields, status: HidStatus, carriedBy: string): Reading | Damage {
  const unit = hidUnits[fields.unitCode - 1];
  if (!unit) return damage('unknown_unit', carriedBy);
  const value = hidWeight(fields.raw, fields.exponent);
  return readingOf(
    { value, places: -fields.exponent },
    {
      unit,
      stable: status !== 'in_motion',
      mode: 'unknown',
      // one device keeps this status with a load on: the weight must agree
      atZero: status === 'stable_at_centre_of_zero' && fields.raw === 0,
      carriedBy,
    },
  );
}

/** Published USB HID weighing values, against shared/scales/hid-report.ts. */
import {
  hidControlBits,
  hidControlReport,
  hidFields,
  hidLargestRaw,
  hidStatuses,
  hidUnits,
  hidWeight,
  hiddevWeight,
  hidZeroReport,
  readHidReport,
  signedByte,
} from '../../../shared/scales/hid-report.js';
import { bytesOfHex, codeOf, sameName, sameSense, unitName } from './scale-wording.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

const statusNames: Readonly<Record<(typeof hidStatuses)[number], readonly string[]>> = {
  fault: ['fault'],
  stable_at_centre_of_zero: ['stable at centre of zero', 'stable at center of zero'],
  in_motion: ['in motion'],
  weight_stable: ['weight stable', 'stable'],
  under_zero: ['under zero'],
  over_weight_limit: ['over weight limit', 'over limit'],
  requires_calibration: ['requires calibration'],
  requires_rezeroing: ['requires re-zeroing', 'requires rezeroing'],
};

function statusName(published: unknown, code: number): string | null {
  const status = hidStatuses[code - 1];
  return status === undefined ? null : sameName(published, statusNames[status]);
}

function report(row: ValueRow, hex: string): Answer {
  const bytes = bytesOfHex(hex);
  const fields = hidFields(bytes);
  if (!fields) return { weight: null, error: 'no data report' };
  const reading = readHidReport(bytes);
  const { expected } = row;
  return {
    weight: hidWeight(fields.raw, fields.exponent),
    raw: fields.raw,
    exponent: fields.exponent,
    unit_code: fields.unitCode,
    status_code: fields.statusCode,
    unit: unitName(expected['unit'], hidUnits[fields.unitCode - 1]),
    status: statusName(expected['status'], fields.statusCode),
    ...(reading.kind === 'reading' && {
      stable: reading.stable ?? null,
      accepted: reading.status === 'weight',
      weight_g: reading.grams ?? null,
      grams: reading.grams ?? null,
    }),
  };
}

/** The input whose name ends like this, as a code: usage_0x8D0041. */
function event(row: ValueRow, ending: RegExp): number | undefined {
  const name = Object.keys(row.inputs).find((each) => ending.test(each));
  return name === undefined ? undefined : codeOf(row.inputs[name]);
}

function scaled(row: ValueRow): Answer | undefined {
  const byte = codeOf(row.inputs['scaling_byte']);
  const exponent = byte === undefined ? codeOf(row.inputs['exponent']) : signedByte(byte);
  if (exponent === undefined) return undefined;
  const raw = codeOf(row.inputs['raw'] ?? row.inputs['data_weight']);
  const largest = hidWeight(hidLargestRaw, exponent);
  const answers: Record<string, Got> = { exponent };
  for (const field of Object.keys(row.expected)) {
    if (/^(max|largest)/.test(field)) answers[field] = largest;
  }
  return { ...answers, ...(raw !== undefined && { weight: hidWeight(raw, exponent) }) };
}

function control(row: ValueRow): Answer {
  const payload = codeOf(row.inputs['payload']);
  const zeroes = payload === hidZeroReport.payload[0];
  const { sizeBits, count, paddingBits, type, reportId } = hidControlReport;
  return {
    size_bits: sizeBits,
    count,
    padding_bits: paddingBits,
    type,
    report_id: reportId,
    enforced_zero_return: hidControlBits.enforcedZeroReturn,
    zero_scale: hidControlBits.zeroScale,
    ...(payload !== undefined && {
      effect: zeroes
        ? sameSense(row.expected['effect'], /zero/, 'device zeroed')
        : sameSense(row.expected['effect'], /no effect|none/, 'no effect seen'),
    }),
  };
}

function answer(row: ValueRow): Answer {
  const { inputs, expected } = row;
  const hex = inputs['bytes_hex'] ?? inputs['bytes'];
  if (typeof hex === 'string') return report(row, hex);
  const unit = codeOf(inputs['unit_byte'] ?? inputs['unit_code']);
  if (unit !== undefined) return { unit: unitName(expected['unit'], hidUnits[unit - 1]) };
  const status = codeOf(inputs['status_byte'] ?? inputs['status_code']);
  if (status !== undefined) return { status: statusName(expected['status'], status) };
  const scaling = event(row, /8D0041$/i);
  const weight = event(row, /8D0040$/i);
  if (scaling !== undefined && weight !== undefined) {
    return { weight: hiddevWeight(scaling, weight), exponent: scaling | 0 };
  }
  const byScaling = scaled(row);
  if (byScaling) return byScaling;
  if (codeOf(inputs['report_id']) === hidControlReport.reportId) return control(row);
  throw new NotYetSupported('a row of another shape');
}

export const hidTopics: readonly Topic[] = [{ name: 'usb-hid', answer }];

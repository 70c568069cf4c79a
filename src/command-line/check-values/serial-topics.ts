/** Published replies of serial scales, against the line decoders of shared/scales. */
import { figureOf } from '../../../shared/scales/figure.js';
import type { Decoded, Reading } from '../../../shared/scales/reading.js';
import { unitOfText } from '../../../shared/scales/scale-units.js';
import { readSmaReply, smaFields } from '../../../shared/scales/sma.js';
import { filledField, readPolledAnswer, statusBits } from '../../../shared/scales/status-bytes.js';
import { readTextLine } from '../../../shared/scales/text-lines.js';
import { text as textOf } from './inputs.js';
import { bytesOfHex, sameName, unitName } from './scale-wording.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import type { Fields, ValueRow } from './value-row.js';

function kindNames(reading: Reading): readonly string[] {
  if (reading.unit === 'piece') return ['pieces', 'piece', 'count'];
  return reading.unit === 'percent' ? ['percent', 'per cent'] : ['weight', 'mass'];
}

/** What any reading answers, whatever carried it. */
function common(reading: Reading, expected: Fields): Answer {
  const over = reading.status === 'over';
  const under = reading.status === 'under';
  return {
    stable: reading.stable ?? null,
    motion: reading.stable === undefined ? null : !reading.stable,
    mode: reading.mode === 'unknown' ? null : reading.mode,
    value: reading.value ?? null,
    weight: reading.value ?? null,
    unit: unitName(expected['unit'], reading.unit),
    overload: over || under,
    over,
    under,
    at_zero: reading.atZero ?? null,
    kind: sameName(expected['kind'], kindNames(reading)),
    grams: reading.grams ?? null,
  };
}

function otherAnswer(found: Exclude<Decoded, Reading>, expected: Fields): Answer {
  if (found.kind === 'damage') return { value: null, error: found.why };
  const name = found.reply.replaceAll('_', ' ');
  return {
    reply: sameName(expected['reply'], [name]),
    meaning: sameName(expected['meaning'], [name]),
    error: sameName(expected['error'], [name]),
    value: null,
  };
}

function line(row: ValueRow): Answer {
  const given = textOf(row.inputs, 'line', 'response');
  if (given === undefined) throw new NotYetSupported('no line');
  const plain = given.replace(/[\r\n]+$/, '');
  const found = readTextLine(plain);
  if (found.kind !== 'reading') return otherAnswer(found, row.expected);
  const sign = /(?:^|[,\s])([+-])/.exec(plain)?.[1];
  return { ...common(found, row.expected), sign: sign ?? null };
}

const smaStatusNames: Readonly<Record<string, readonly string[]>> = {
  ' ': ['none', ''],
  Z: ['centre of zero', 'center of zero', 'zero'],
  O: ['over', 'over capacity'],
  U: ['under', 'under capacity'],
  E: ['zero error'],
  I: ['initial zero error'],
  T: ['tare error'],
};

const smaModeNames: Readonly<Record<string, readonly string[]>> = {
  G: ['gross'],
  N: ['net'],
  T: ['tare'],
  g: ['gross high resolution'],
  n: ['net high resolution'],
};

function sma(row: ValueRow): Answer {
  const given = textOf(row.inputs, 'response');
  if (given === undefined) throw new NotYetSupported('no response');
  const plain = given.replace(/^\n/, '').replace(/\r$/, '');
  const { expected } = row;
  const found = readSmaReply(plain);
  const fields = smaFields(plain);
  if (fields) {
    return {
      ...(found.kind === 'reading' ? common(found, expected) : {}),
      status: sameName(expected['status'], smaStatusNames[fields.status] ?? []),
      range: parseInt(fields.range, 10),
      mode: sameName(expected['mode'], smaModeNames[fields.mode] ?? []),
      motion: fields.motion,
      value: figureOf(fields.weight)?.value ?? null,
      unit: unitName(expected['unit'], unitOfText(fields.unit)),
    };
  }
  if (found.kind !== 'reply') throw new NotYetSupported('a reply of another shape');
  const { facts } = found;
  if (found.reply === 'diagnostics') {
    return {
      ram_rom_error: facts['ramOrRomError'] ?? null,
      eeprom_error: facts['eepromError'] ?? null,
      calibration_error: facts['calibrationError'] ?? null,
    };
  }
  if (found.reply === 'capacity') {
    return {
      unit: facts['unit'] ?? null,
      capacity: facts['capacity'] ?? null,
      count_by: facts['countBy'] ?? null,
      decimals: facts['decimals'] ?? null,
    };
  }
  return otherAnswer(found, expected);
}

function status(hex: string): Answer {
  const bits = statusBits([...bytesOfHex(hex)]);
  if (!bits) return { error: 'no status bytes' };
  return {
    motion: bits.motion,
    at_zero: bits.atZero,
    under: bits.underCapacity,
    over: bits.overCapacity,
    ram_error: bits.ramError,
    eeprom_error: bits.eepromError,
    rom_error: bits.romError,
    calibration_fault: bits.calibrationFault,
    calibration_error: bits.calibrationFault,
    net: bits.net ?? null,
    initial_zero_error: bits.zeroError,
  };
}

/** What an answer of the stated form carries, seen by decoding one filled with figures. */
function form(shape: string): Answer {
  const filled = shape
    .replace('<weight>', '   12.34')
    .replace('<unit>', 'lb')
    .replace('<hh>', '00')
    .replace('\u0003', '');
  const found = readPolledAnswer(filled);
  if (found.kind === 'damage') return { fields: [] };
  if (found.kind === 'reply') {
    return { fields: found.reply === 'status' ? ['status bytes'] : [found.reply] };
  }
  const carried = [
    found.value && 'weight',
    found.unit && 'unit',
    found.stable !== undefined && 'status bytes',
  ];
  return { fields: carried.filter((each) => typeof each === 'string') };
}

function polled(row: ValueRow): Answer {
  const { inputs, expected } = row;
  const hex = textOf(inputs, 'status_bytes_hex', 'status_hex');
  if (hex !== undefined) return status(hex);
  const field = textOf(inputs, 'weight_field');
  if (field !== undefined) {
    const meaning = filledField(field)?.replaceAll('_', ' ');
    return { meaning: meaning === undefined ? null : sameName(expected['meaning'], [meaning]) };
  }
  const shape = textOf(inputs, 'response_form');
  if (shape !== undefined) return form(shape);
  const given = textOf(inputs, 'response');
  if (given === undefined) throw new NotYetSupported('no response');
  const found = readPolledAnswer(given.replace('\u0003', ''));
  return found.kind === 'reading' ? common(found, expected) : otherAnswer(found, expected);
}

export const serialTopics: readonly Topic[] = [
  { name: 'serial-line', answer: line },
  { name: 'serial-sma', answer: sma },
  { name: 'serial-nci', answer: polled },
];

/** Published roundings, against shared/decimal.ts. */
import {
  Decimal,
  round,
  roundSignificant,
  roundToStep,
  zero,
  type Rounding,
} from '../../../shared/decimal.js';
import { figure, needed, text, whole } from './inputs.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import type { Fields, ValueRow } from './value-row.js';

/** Rounding by the names of IEEE 754 and of decimal libraries. */
const roundingNames: Readonly<Record<string, Rounding>> = {
  half_even: 'half_even',
  half_up: 'half_up',
  half_down: 'half_down',
  up: 'up',
  down: 'down',
  ceiling: 'ceiling',
  floor: 'floor',
  ceil: 'ceiling',
  bankers: 'half_even',
  trunc: 'down',
  truncate: 'down',
  roundtiestoeven: 'half_even',
  roundtiestoaway: 'half_up',
  roundtowardzero: 'down',
  roundtowardpositive: 'ceiling',
  roundtowardnegative: 'floor',
};

/** The rounding that a row names; half-up where it names none. */
export function roundingOf(inputs: Fields): Rounding {
  const name = text(inputs, 'mode', 'rounding', 'ieee754') ?? 'half_up';
  const plain = name
    .toLowerCase()
    .replace(/^round_/, '')
    .replace(/[- ]/g, '_');
  const known = roundingNames[plain] ?? roundingNames[plain.replace(/_/g, '')];
  if (!known) throw new NotYetSupported(`rounding ${name}`);
  return known;
}

type Operation = (a: Decimal, b: Decimal) => Decimal;

/** Operations of the General Decimal Arithmetic whose result is then rounded to a precision. */
const operations: Readonly<Record<string, Operation>> = {
  add: (a, b) => a.plus(b),
  subtract: (a, b) => a.minus(b),
  multiply: (a, b) => a.times(b),
  divide: (a, b) => a.dividedBy(b),
  divideint: (a, b) => a.dividedToIntegerBy(b),
  remainder: (a, b) => a.modulo(b),
  plus: (a) => a,
  minus: (a) => a.negated(),
  abs: (a) => a.abs(),
  reduce: (a) => a,
  apply: (a) => a,
  max: (a, b) => (a.greaterThan(b) ? a : b),
  min: (a, b) => (a.lessThan(b) ? a : b),
  power: (a, b) => a.pow(b),
  squareroot: (a) => a.squareRoot(),
};

/** The exponent to which a value is quantized: "0.10" -> -2, "1e+2" -> 2. */
function exponentOf(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.toLowerCase().split('e');
  return parseInt(exponent, 10) - (mantissa.split('.')[1]?.length ?? 0);
}

function toExponent(value: Decimal, exponent: number, rounding: Rounding): Decimal {
  if (exponent <= 0) return round(value, -exponent, rounding);
  return roundToStep(value, new Decimal(10).pow(exponent), rounding);
}

/** Digits that a value takes when it is written down to an exponent. */
function digitsDownTo(value: Decimal, exponent: number): number {
  return value.isZero() ? 1 : value.abs().times(new Decimal(10).pow(-exponent)).toFixed().length;
}

function quantized(row: ValueRow, value: Decimal, rounding: Rounding): Decimal | string {
  const { inputs } = row;
  const rescaledTo = inputs['op'] === 'rescale' ? whole(inputs, 'b', 'to') : undefined;
  const exponent = rescaledTo ?? exponentOf(String(inputs['to'] ?? inputs['b']));
  const result = toExponent(value, exponent, rounding);
  const precision = whole(inputs, 'precision');
  const tooLong = precision !== undefined && digitsDownTo(result, exponent) > precision;
  return tooLong ? 'NaN' : result;
}

function rounding(row: ValueRow): Answer {
  const { inputs } = row;
  const rule = roundingOf(inputs);
  const op = (text(inputs, 'op', 'operation') ?? '').toLowerCase();
  const a = needed(inputs, 'a', 'value', 'amount', 'x');
  if (op === 'quantize' || op === 'rescale' || (op === '' && 'to' in inputs)) {
    return { result: quantized(row, a, rule) };
  }
  if (op.startsWith('tointegral') || op === 'round') {
    return { result: round(a, whole(inputs, 'decimals', 'places') ?? 0, rule) };
  }
  const operation = operations[op === '' ? 'plus' : op];
  if (!operation) throw new NotYetSupported(`operation ${op}`);
  const exact = operation(a, figure(inputs, 'b', 'y') ?? zero);
  const step = figure(inputs, 'step', 'increment', 'interval');
  if (step) return { result: roundToStep(exact, step, rule) };
  const decimals = whole(inputs, 'decimals', 'places', 'digits');
  if (decimals !== undefined) return { result: toExponent(exact, -decimals, rule) };
  const precision = whole(inputs, 'precision');
  if (precision === undefined) throw new NotYetSupported('neither decimals nor a precision');
  return { result: roundSignificant(exact, precision, rule) };
}

/** A rounding by its name in IEEE 754: half of 2.5, 3.5 and -2.5 tells which it is. */
function roundingName(row: ValueRow): Answer {
  const rule = roundingOf(row.inputs);
  const samples = ['2.5', '3.5', '-2.5'].map((sample) => round(new Decimal(sample), 0, rule));
  return { common_name: rule, results: samples };
}

export const roundingTopics: readonly Topic[] = [
  { name: 'rounding', answer: rounding },
  { name: 'rounding-names', answer: roundingName },
];

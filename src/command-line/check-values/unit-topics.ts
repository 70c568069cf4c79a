/** Published units of weight and volume, against shared/units.ts. */
import { one } from '../../../shared/decimal.js';
import {
  convert,
  parseMeasure,
  roundedFactor,
  unit,
  type Dimension,
} from '../../../shared/units.js';
import { asFigure, figure, needed, text } from './inputs.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

const baseUnits: Readonly<Record<Dimension, string>> = {
  mass: 'g',
  volume: 'mL',
  length: 'cm',
  number: '1',
};

/** Significant digits to which NIST SP 811 B.8 tabulates factors. */
const tabulatedDigits = 7;

function codeOf(row: ValueRow): string {
  const code = text(row.inputs, 'ucum', 'unit', 'code', 'from');
  if (code === undefined) throw new NotYetSupported('no unit named');
  return code;
}

/** The unit in which the answer is printed; the dimension's base where none is. */
function answerUnit(row: ValueRow, code: string): string {
  return text(row.expected, 'unit') ?? text(row.inputs, 'to') ?? baseUnits[unit(code).dimension];
}

function units(row: ValueRow): Answer {
  const code = codeOf(row);
  const to = answerUnit(row, code);
  const value = convert(figure(row.inputs, 'amount', 'value') ?? one, code, to);
  return { value, factor: value, unit: to, dimension: unit(code).dimension };
}

function unitsRounded(row: ValueRow): Answer {
  const code = codeOf(row);
  const to = answerUnit(row, code);
  const rounded = roundedFactor(code, to, tabulatedDigits);
  return { rounded, value: rounded, unit: to };
}

/** "from" is a measure ("2 [foz_us]") or a unit beside a value; the fields expected are units. */
function unitsConvert(row: ValueRow): Answer {
  const from = codeOf(row);
  const beside = figure(row.inputs, 'value', 'amount');
  const measure = beside ? { value: beside, unit: unit(from) } : parseMeasure(from);
  const to = text(row.inputs, 'to');
  return Object.fromEntries(
    Object.keys(row.expected).map((field): [string, Got] => {
      if (field === 'unit') return [field, to ?? ''];
      const target = field === 'value' && to !== undefined ? to : field;
      return [field, convert(measure.value, measure.unit.code, target)];
    }),
  );
}

/** Rows that name a unit without asking for a figure have nothing to run. */
function withFigures(answer: (row: ValueRow) => Answer): (row: ValueRow) => Answer {
  return (row) => {
    const hasFigure = Object.values(row.expected).some((value) => asFigure(value) !== undefined);
    if (!hasFigure) needed(row.expected, 'value');
    return answer(row);
  };
}

export const unitTopics: readonly Topic[] = [
  { name: 'units', answer: withFigures(units) },
  { name: 'units-rounded', answer: withFigures(unitsRounded) },
  { name: 'units-convert', answer: withFigures(unitsConvert) },
];

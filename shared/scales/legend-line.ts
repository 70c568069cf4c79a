/** Lines of the form right-aligned weight, unit, stability mark, legend: "    192.21 g". */
import { figureOf, readingOf } from './figure.js';
import { damage, type Damage, type Reading } from './reading.js';
import { unitOfText } from './scale-units.js';

// the mark has a column of its own: without it the line either ends at the unit or is cut
const form = /^([ \d.+-]{10}) (?:([A-Za-z%]{1,5})|([A-Za-z% ]{5}) ([ ?])(?: (.{1,6}))?)$/;

const legends: Readonly<Record<string, Reading['mode']>> = {
  n: 'net',
  net: 'net',
  g: 'gross',
  b: 'gross',
};

/**
 * Reads one line: ten characters of weight, unit, then "?" when unstable or a blank when stable,
 * then a legend (N or NET, G or B). Undefined when the line has another form.
 */
export function readLegendLine(line: string): Reading | Damage | undefined {
  const match = form.exec(line);
  if (!match) return undefined;
  const [, number = '', bareUnit, paddedUnit = '', mark, legend = ''] = match;
  const figure = figureOf(number);
  if (!figure || number.endsWith(' ')) return damage('unreadable', line);
  const unitText = bareUnit ?? paddedUnit;
  const unit = unitText.startsWith(' ') ? undefined : unitOfText(unitText);
  if (!unit) return damage('unknown_unit', line);
  const mode = legends[legend.trim().toLowerCase()] ?? 'unknown';
  return readingOf(figure, { unit, stable: mark !== '?', mode, carriedBy: line });
}

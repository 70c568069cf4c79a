/** Lines of the form header, sign, eight digits, unit: "ST,+001234.5  g". */
import { figureOf, readingOf } from './figure.js';
import { damage, withoutFigure, type Damage, type Reading } from './reading.js';
import { unitOfText } from './scale-units.js';

const form = /^(ST|US|OL|QT|WT),([+-][\d.]{8}) {0,3}([A-Za-z%]{1,3})$/;

/**
 * Reads one line: ST and WT stable, QT a stable count, US unstable, OL out of range (over with
 * "+", under with "-"; its figure is filling). Undefined when the line has another form.
 */
export function readHeaderLine(line: string): Reading | Damage | undefined {
  const match = form.exec(line);
  if (!match) return undefined;
  const [, header, number = '', unitText = ''] = match;
  if (header === 'OL') return withoutFigure(number.startsWith('-') ? 'under' : 'over', line);
  const figure = figureOf(number);
  if (!figure) return damage('unreadable', line);
  const unit = unitOfText(unitText);
  if (!unit) return damage('unknown_unit', line);
  return readingOf(figure, { unit, stable: header !== 'US', mode: 'unknown', carriedBy: line });
}

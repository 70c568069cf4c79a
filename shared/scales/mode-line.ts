/** Lines of the form status, gross or net, sign, weight, unit: "ST,GS,  18.000kg". */
import { figureOf, readingOf } from './figure.js';
import { damage, withoutFigure, type Damage, type Reading } from './reading.js';
import { unitOfText } from './scale-units.js';

const form = /^(ST|US|OL),(GS|NT),([+\- ]?[\d. ]{7,8}),?(kg|lb|oz|g)$/;

/**
 * Reads one line: ST stable, US unstable, OL out of range (also before the scale found its zero);
 * a blank sign is positive, blanks may stand between sign and digits. Undefined when the line has
 * another form.
 */
export function readModeLine(line: string): Reading | Damage | undefined {
  const match = form.exec(line);
  if (!match) return undefined;
  const [, status, modeText, number = '', unitText = ''] = match;
  const mode = modeText === 'NT' ? 'net' : 'gross';
  if (status === 'OL') {
    return withoutFigure(number.startsWith('-') ? 'under' : 'over', line, mode);
  }
  const figure = figureOf(number);
  const unit = unitOfText(unitText);
  if (!figure || !unit) return damage('unreadable', line);
  return readingOf(figure, { unit, stable: status === 'ST', mode, carriedBy: line });
}

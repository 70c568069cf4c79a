/** Lines that begin with the command they answer: "SI ?      12.345 g  ", "Z_A", "S S 12.30 g". */
import { figureOf, readingOf } from './figure.js';
import { damage, withoutFigure, type Damage, type Reading, type Reply } from './reading.js';
import { unitOfText } from './scale-units.js';

const markForm = /^([A-Z]{1,3}) ([ ?^v]) ([ -])([ \d.]{9}) (.{3})$/;
const replyForm = /^([A-Z]{1,3})[ _]([AIE])$/;
const letterForm = /^S ([SDI+-])(?: +([+-]?[\d.]+) ([A-Za-z%]{1,4}))?$/;

const replies = { A: 'accepted', I: 'not_now', E: 'timed_out' } as const;

/**
 * Reads one line with a command in front and a mark behind it: blank stable, ? unstable, ^ over,
 * v under; or the reply accepted, not now, timed out. Undefined when the line has another form.
 */
export function readEchoLine(line: string): Reading | Damage | Reply | undefined {
  const reply = replyForm.exec(line);
  if (reply) return answered(reply[1]!, reply[2] as keyof typeof replies, line);
  const match = markForm.exec(line);
  if (!match) return undefined;
  const [, , mark, sign, number = '', unitText = ''] = match;
  if (mark === '^') return withoutFigure('over', line);
  if (mark === 'v') return withoutFigure('under', line);
  const figure = figureOf(`${sign}${number}`);
  if (!figure || number.endsWith(' ')) return damage('unreadable', line);
  const unit = unitOfText(unitText);
  if (!unit) return damage('unknown_unit', line);
  return readingOf(figure, { unit, stable: mark === ' ', mode: 'unknown', carriedBy: line });
}

function answered(command: string, code: keyof typeof replies, line: string): Reply {
  return { kind: 'reply', reply: replies[code], facts: { command }, carriedBy: line };
}

/**
 * Reads one line with a letter for its status: "S S 12.30 g" stable, "S D 12.30 g" moving,
 * "S I" no figure now, "S +" over, "S -" under. Undefined when the line has another form.
 */
export function readLetterLine(line: string): Reading | Damage | undefined {
  const match = letterForm.exec(line);
  if (!match) return undefined;
  const [, letter, number, unitText] = match;
  if (letter === '+') return withoutFigure('over', line);
  if (letter === '-') return withoutFigure('under', line);
  if (letter === 'I') return withoutFigure('not_ready', line);
  if (number === undefined || unitText === undefined) {
    return letter === 'D' ? withoutFigure('not_ready', line) : damage('unreadable', line);
  }
  const figure = figureOf(number);
  if (!figure) return damage('unreadable', line);
  const unit = unitOfText(unitText);
  if (!unit) return damage('unknown_unit', line);
  return readingOf(figure, { unit, stable: letter === 'S', mode: 'unknown', carriedBy: line });
}

/** An iCalendar file (RFC 5545) as nested parts, each line of them with its number. */
import { deserializeProperty, type Property } from 'iamcal';
import { Problem } from '../../../shared/problems/problem.js';

/** A property with the line of the file that it begins on. */
export interface CalendarLine {
  readonly line: number;
  readonly property: Property;
}

/** What stands between a BEGIN and its END. */
export interface CalendarPart {
  readonly name: string;
  readonly line: number;
  readonly lines: CalendarLine[];
  readonly parts: CalendarPart[];
}

/** Only these are ever read: descriptions, people and places are passed over unread. */
const read: ReadonlySet<string> = new Set([
  ...['METHOD', 'X-WR-TIMEZONE', 'UID', 'DTSTART', 'DTEND', 'DURATION', 'SUMMARY', 'STATUS'],
  ...['SEQUENCE', 'DTSTAMP', 'CREATED', 'RRULE', 'RDATE', 'EXDATE', 'RECURRENCE-ID'],
  ...['TZID', 'TZOFFSETFROM', 'TZOFFSETTO'],
]);

/** A file that cannot be read, and why, with the line. @throws Problem `file_damaged` always */
export function damaged(line: number, why: string): never {
  throw new Problem('file_damaged', { line, why }, '/text');
}

/**
 * The calendars of a file: folded lines joined (section 3.1), parts nested (3.6).
 * @throws Problem `file_damaged` with the line that cannot be read
 */
export function calendarsIn(text: string): CalendarPart[] {
  const file: CalendarPart = { name: 'FILE', line: 1, lines: [], parts: [] };
  const open: CalendarPart[] = [file];
  for (const { line, content } of unfolded(text)) {
    const name = /^[A-Za-z0-9-]+(?=[;:])/.exec(content)?.[0]?.toUpperCase();
    if (name === undefined) return damaged(line, `“${content.slice(0, 40)}” is no calendar line.`);
    const inside = open.at(-1) ?? file;
    if (name === 'BEGIN') {
      const part = { name: valueOf(content), line, lines: [], parts: [] };
      inside.parts.push(part);
      open.push(part);
    } else if (name === 'END') {
      if (inside === file || inside.name !== valueOf(content)) {
        return damaged(line, `It ends ${valueOf(content)}, which was not begun.`);
      }
      open.pop();
    } else if (inside === file) {
      return damaged(line, 'It stands outside of BEGIN:VCALENDAR.');
    } else if (read.has(name)) {
      inside.lines.push({ line, property: propertyOf(content, line) });
    }
  }
  const unclosed = open.at(-1);
  if (unclosed && unclosed !== file) {
    return damaged(unclosed.line, `${unclosed.name} begins here and never ends; the file is cut.`);
  }
  const calendars = file.parts.filter(({ name }) => name === 'VCALENDAR');
  return calendars.length > 0 ? calendars : damaged(1, 'There is no BEGIN:VCALENDAR in it.');
}

/** The first property of a name; undefined where there is none. */
export function lineOf(part: CalendarPart, name: string): CalendarLine | undefined {
  return part.lines.find(({ property }) => property.name.toUpperCase() === name);
}

/** All properties of a name. */
export function linesOf(part: CalendarPart, name: string): CalendarLine[] {
  return part.lines.filter(({ property }) => property.name.toUpperCase() === name);
}

function valueOf(content: string): string {
  return content
    .slice(content.indexOf(':') + 1)
    .trim()
    .toUpperCase();
}

function propertyOf(content: string, line: number): Property {
  try {
    return deserializeProperty(content);
  } catch (error) {
    return damaged(line, error instanceof Error ? error.message : 'It cannot be read.');
  }
}

function unfolded(text: string): { line: number; content: string }[] {
  const found: { line: number; content: string }[] = [];
  text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .forEach((content, index) => {
      const before = found.at(-1);
      if (/^[ \t]/.test(content) && before) before.content += content.slice(1);
      else if (content.trim() !== '') found.push({ line: index + 1, content });
    });
  return found;
}

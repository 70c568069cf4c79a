/** Bookings of a table (CSV): a line for each, with the columns that are told below. */
import { createHash } from 'node:crypto';
import { CsvError, parse } from 'csv-parse/sync';
import { keptName, splitTitle } from '../../../shared/booking-words.js';
import { bookingColumns } from './booking-columns.js';
import type { BookedSeries, BookedTime, ReadingOf } from './booked-series.js';
import { damaged } from './calendar-lines.js';
import { dayOf, wallOf } from './calendar-values.js';
import { namedZone, utc, type Zone } from './calendar-zones.js';

type Column = keyof typeof bookingColumns;
type Cells = Readonly<Record<Column, string>>;

interface Parsed {
  readonly record: string[];
  readonly info: { readonly lines: number };
}

/** @throws Problem `file_damaged` with the line */
export function bookingsOfTable(text: string, of: ReadingOf): BookedSeries[] {
  const zone = namedZone(of.timeZone) ?? utc;
  const seen = new Map<string, number>();
  return linesOf(text).flatMap(({ line, cells }): BookedSeries[] => {
    const time = timeOf(cells, line, zone, of);
    if (time.start < of.stretch.from || time.start >= of.stretch.to) return [];
    const content = `${time.start} ${cells.who} ${cells.what}`;
    const same = seen.get(content) ?? 0;
    seen.set(content, same + 1);
    // Without a number of its own, a line is known again by all that it says.
    const own = createHash('sha256').update(`${content} ${same}`).digest('hex');
    const uid = cells.id === '' ? own : cells.id;
    const { calledOff } = time;
    return [{ uid, line, calledOff, sequence: 0, stamp: 0, isWhole: true, times: [time] }];
  });
}

function timeOf(cells: Cells, line: number, zone: Zone, of: ReadingOf): BookedTime {
  const start = instantOf(cells.start, line, zone);
  const end = cells.end === '' ? null : instantOf(cells.end, line, zone).instant;
  if (end !== null && end < start.instant) damaged(line, 'It ends before it begins.');
  const whole = cells.who === '' ? splitTitle(cells.what, 'none', of.rules) : null;
  const name = cells.who === '' ? null : cells.who;
  return {
    ...{ key: '', start: start.instant, end, day: start.day, line, sequence: 0, createdAt: null },
    calledOff: /^(cancel|called off|no)/i.test(cells.state),
    ...{ name, who: keptName(name) },
    what: whole?.what ?? splitTitle(cells.what, 'none', of.rules).what,
  };
}

const written =
  /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{1,2}):(\d{2})(?::(\d{2}))?(Z|[+-]\d{2}:?\d{2})?)?$/i;

function instantOf(
  text: string,
  line: number,
  zone: Zone,
): { instant: number; day: string | null } {
  const found = written.exec(text);
  if (!found) {
    return damaged(line, `“${text}” is no time; write it as 2026-03-05 10:00.`);
  }
  const [, year, month, day, hour, minute = '00', second = '00', offset] = found;
  const date = `${year}${month}${day}`;
  if (hour === undefined) {
    const wall = wallOf(date, line);
    return { instant: zone.instantOf(wall), day: dayOf(wall) };
  }
  const wall = wallOf(`${date}T${hour.padStart(2, '0')}${minute}${second}`, line);
  if (offset === undefined) return { instant: zone.instantOf(wall), day: null };
  return { instant: Date.parse(text.trim().replace(' ', 'T')), day: null };
}

function linesOf(text: string): { line: number; cells: Cells }[] {
  const header = text.slice(0, text.search(/[\r\n]|$/));
  const count = (separator: string) => header.split(separator).length;
  const delimiter = [',', ';', '\t'].reduce((best, each) => {
    return count(each) > count(best) ? each : best;
  });
  const [first, ...others] = parsed(text, delimiter);
  const names = (first?.record ?? []).map((name) => name.trim().toLowerCase());
  const known = Object.keys(bookingColumns);
  const unknown = names.find((name) => !known.includes(name));
  if (unknown !== undefined) {
    return damaged(1, `There is no column “${unknown.slice(0, 40)}”. Known: ${known.join(', ')}.`);
  }
  const missing = ['start', 'what'].find((name) => !names.includes(name));
  if (missing) return damaged(1, `The column ${missing} is needed.`);
  return others.map(({ record, info }) => ({
    line: info.lines,
    cells: Object.fromEntries(
      known.map((name) => [name, record[names.indexOf(name)]?.trim() ?? '']),
    ) as Cells,
  }));
}

function parsed(text: string, delimiter: string): Parsed[] {
  try {
    return parse(text, {
      ...{ bom: true, delimiter, info: true, relax_column_count: true },
      skip_empty_lines: true,
    }) as unknown as Parsed[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { lines = 1 } = error as CsvError & { lines?: number };
    return damaged(lines, 'A quotation mark is not closed, or stands inside of a cell.');
  }
}

/** Bookings of a file, an iCalendar or a table, as series of times with who and what. */
import { keptName, splitTitle } from '../../../shared/booking-words.js';
import type { BookedSeries, ReadingOf } from './booked-series.js';
import { eventsIn } from './calendar-events.js';
import { seriesIn } from './calendar-occurrences.js';
import { bookingsOfTable } from './booking-table.js';

/** @throws Problem `file_damaged` */
export function bookingsIn(text: string, of: ReadingOf): BookedSeries[] {
  if (!isCalendar(text)) return bookingsOfTable(text, of);
  return seriesIn(eventsIn(text, of.timeZone), of.stretch).map(({ occurrences, ...series }) => ({
    ...series,
    times: occurrences.map(({ title, ...time }) => {
      const { name, what } = splitTitle(title, of.place, of.rules);
      return { ...time, name, who: keptName(name), what };
    }),
  }));
}

/** True where a file begins, or nearly begins, as an iCalendar does. */
export function isCalendar(text: string): boolean {
  return /^\s*BEGIN:/i.test(text.replace(/^\uFEFF/, '')) || /^BEGIN:VCALENDAR/im.test(text);
}

/** Bookings as read from a file, whatever kind of file it was. */
import type { NamePlace, WordRule } from '../../../shared/booking-words.js';
import type { Occurrence, Series, Stretch } from './calendar-occurrences.js';

/** One booked time; `name` is the whole one and goes no further than finding the client. */
export interface BookedTime extends Omit<Occurrence, 'title'> {
  readonly name: string | null;
  readonly who: string | null;
  readonly what: string;
}

export interface BookedSeries extends Omit<Series, 'occurrences'> {
  readonly times: readonly BookedTime[];
}

/** How a file is to be read. */
export interface ReadingOf {
  readonly timeZone: string;
  readonly stretch: Stretch;
  readonly place: NamePlace;
  readonly rules: readonly WordRule[];
}

/** Bookings from the file of a diary: an iCalendar, or a table with a line for each. */
import type { NamePlace } from '../../../shared/booking-words.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { BookingImportService } from '../../studio/bookings/booking-import.service.js';
import type { Imported } from './kind.js';
import { FileRefused } from './table.js';

/** Where they go, and how the file is read. */
export interface DiaryDestination {
  readonly bookings: BookingImportService;
  readonly studioId: string;
  readonly now: string;
  readonly dry: boolean;
  readonly named: NamePlace;
  readonly whole: boolean;
}

/** @throws FileRefused with the line that cannot be read; then nothing is stored */
export async function importBookings(
  content: Buffer,
  { bookings, studioId, ...options }: DiaryDestination,
): Promise<Imported> {
  try {
    const text = new TextDecoder('utf-8').decode(content);
    const taken = await bookings.take(studioId, text, { ...options, diary: 'diary' });
    const { found, added, changed, calledOff, same, older, unread } = taken;
    const called = { 'called off': calledOff, 'without a service yet': unread };
    return { 'times found': found, added, changed, same, older, ...called };
  } catch (error) {
    if (!(error instanceof Problem) || error.code !== 'file_damaged') throw error;
    const { line, why } = error.facts as { line: number; why: string };
    throw new FileRefused([{ line, detail: why }]);
  }
}

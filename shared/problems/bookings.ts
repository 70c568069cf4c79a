/** Refusals of bookings and closed days: files that cannot be read, visits begun already. */
import { refusal } from './refusal.js';

export const bookingProblems = {
  file_damaged: refusal<{ line: number; why: string }>(
    'malformed',
    'The file cannot be read',
    ({ line, why }) => `Line ${line}: ${why} Nothing of the file was taken over.`,
  ),
  booking_here_already: refusal<{ visitId: string }>(
    'conflict',
    'Here already',
    () => 'A visit was begun from this booking before. Go on with that one.',
  ),
  booking_called_off: refusal<Record<string, never>>(
    'conflict',
    'Called off',
    () => 'This booking was called off. Begin a visit without it.',
  ),
  no_words_to_match: refusal<Record<string, never>>(
    'refused',
    'No words to look for',
    () => 'A rule needs at least one word or figure to look for. Type it as the diary writes it.',
  ),
  words_twice: refusal<{ words: string }>(
    'refused',
    'The same words twice',
    ({ words }) => `Two rules look for “${words}”; the second would never match. Join them.`,
  ),
  days_back_to_front: refusal<{ from: string; to: string }>(
    'malformed',
    'Ends before it begins',
    ({ from, to }) => `From ${from} to ${to} there is no day. Give the last day as \`to\`.`,
  ),
  replaces_itself: refusal<Record<string, never>>(
    'refused',
    'A product cannot replace itself',
    () => 'Name another product that it replaces, or none.',
  ),
  replaced_already: refusal<{ by: string }>(
    'conflict',
    'Replaced already',
    ({ by }) => `That product is replaced by ${by} already. Its use can count for one only.`,
  ),
  replaced_in_a_ring: refusal<Record<string, never>>(
    'refused',
    'They would replace each other',
    () => 'That product replaces this one, directly or by others between. Take that back first.',
  ),
};

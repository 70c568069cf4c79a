/** Columns of a table of bookings. */

/** Columns of the table and what is in them. */
export const bookingColumns = {
  start: { needed: true, about: 'day and time, 2026-03-05 10:00; only the day for a whole day' },
  what: { needed: true, about: 'what is booked, as the diary writes it' },
  who: { needed: false, about: 'the client; kept as first name and initial' },
  end: { needed: false, about: 'day and time of the end' },
  id: { needed: false, about: 'the diary’s own number; so that a changed booking is known again' },
  state: { needed: false, about: '“cancelled” for one that was called off; else empty' },
} as const;

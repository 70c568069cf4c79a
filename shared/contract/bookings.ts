/** Bookings, the rules that read their words, and closed days, as they travel. */

export interface BookedServiceView {
  serviceId: string;
  name: string;
}

/** One booked time. Names are first name and initial. */
export interface BookingView {
  id: string;
  day: string;
  /** Null for an event of the whole day. */
  startsAt: string | null;
  endsAt: string | null;
  who: string | null;
  clientId: string | null;
  /** The diary's words, the name taken out. */
  what: string;
  services: BookedServiceView[];
  /** booked: to come, or past and nobody came; here: a visit was begun from it. */
  state: 'booked' | 'here' | 'called off';
  visitId: string | null;
}

export interface ImportedBookingsView {
  /** Times that the file has between a year ago and 400 days from now. */
  found: number;
  added: number;
  changed: number;
  calledOff: number;
  same: number;
  /** Older than what is kept, by the number of its revision. */
  older: number;
  /** Times to come whose words mean no service yet. */
  unread: number;
  /** What the first times to come are kept as; names are first name and initial. */
  examples: { day: string; who: string | null; what: string; services: string[] }[];
  dry?: boolean;
}

export interface BookingRuleView {
  words: string;
  /** None: not a visit. */
  serviceIds: string[];
}

/** Words of the diary with all that they are booked for. */
export interface DiaryWordsView {
  what: string;
  bookings: number;
  upcoming: number;
  services: BookedServiceView[];
  /** The words that were recognised in it. */
  found: string[];
  notAVisit: boolean;
}

export interface BookingRulesView {
  rules: BookingRuleView[];
  words: DiaryWordsView[];
  dry?: boolean;
}

/** Days on which the studio is closed; both ends are closed. */
export interface ClosureView {
  id: string;
  from: string;
  to: string;
  name: string;
}

export interface ImportedClosuresView {
  found: number;
  added: number;
  same: number;
  closures: { from: string; to: string; name: string }[];
  dry?: boolean;
}

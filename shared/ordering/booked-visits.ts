/** Visits that a diary promises: how many of a service are to come, and how many are kept. */

/** A booking as far as it tells of use. Days are studio days, YYYY-MM-DD. */
export interface BookedVisit {
  readonly day: string;
  readonly serviceIds: readonly string[];
  /** A visit was begun from it. */
  readonly came: boolean;
  /** When it came into the diary. */
  readonly bookedOn: string;
  readonly calledOffOn: string | null;
}

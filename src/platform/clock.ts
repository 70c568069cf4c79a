/** The one clock of the service, and the correction of clocks that are not ours. */

/** Tells the time; injected, so that a test can set it. Instants are RFC 3339 text in UTC. */
export abstract class Clock {
  /** Milliseconds since 1970-01-01 UTC. */
  abstract millis(): number;

  /** This instant: "2026-03-02T09:15:00.000Z". */
  now(): string {
    return instantFrom(this.millis());
  }
}

/** The machine's clock. */
export class SystemClock extends Clock {
  override millis(): number {
    return Date.now();
  }
}

/** Instant text from milliseconds since 1970-01-01 UTC. */
export function instantFrom(millis: number): string {
  return new Date(millis).toISOString();
}

/** A Date from milliseconds since 1970-01-01 UTC, for libraries that take nothing else. */
export function dateFrom(millis: number): Date {
  return new Date(millis);
}

/** Milliseconds since 1970-01-01 UTC of instant text; NaN when it is none. */
export function millisOf(instant: string): number {
  return Date.parse(instant);
}

/** A device's clock may be so far off, in milliseconds, before its times are corrected. */
const tolerated = 2 * 60_000;

/** When something happened, and whether a device's clock had to be corrected for it. */
export interface Happened {
  readonly at: string;
  readonly flags: readonly 'clock'[];
}

/**
 * Corrects times that a device wrote down: its clock at sending against ours at receiving. A skew
 * above 2 minutes shifts them; what would then lie in the future happened on receipt.
 * @param sentAt the device's clock when it sent the request; undefined: taken as right
 * @param receivedAt our clock
 */
export function deviceTimes(
  sentAt: string | undefined,
  receivedAt: string,
): (written: string) => Happened {
  const received = millisOf(receivedAt);
  const skew = sentAt === undefined ? 0 : received - millisOf(sentAt);
  const shift = Math.abs(skew) > tolerated ? skew : 0;
  return (written) => {
    const shifted = millisOf(written) + shift;
    const at = Math.min(shifted, received);
    return { at: instantFrom(at), flags: at === millisOf(written) ? [] : ['clock'] };
  };
}

/** Reports of a USB HID scale as they come: the first after an open is dropped, its length kept. */
import { noLengthYet, seeLength, type KnownLength } from './believed-length.js';
import { hexOf, hidFields, readHidReport } from './hid-report.js';
import { damage, type Fed } from './reading.js';

/** State between reports: how long a report of this device is, so that a cut one is told. */
export interface HidStreamState {
  readonly length: KnownLength;
  readonly opened: boolean;
}

/** State right after the device was opened. */
export const hidStreamStart: HidStreamState = { length: noLengthYet, opened: false };

/**
 * One report as the system delivered it (with its id in front or without, always the same way).
 * The first after an open may still be the weighing before and is dropped; it tells how long a
 * report of this device is, so that a cut one is never read as one of another form.
 */
export function feedHidReport(state: HidStreamState, report: Uint8Array): Fed<HidStreamState> {
  const carriedBy = hexOf(report);
  if (!hidFields(report)) return { state, found: [damage('wrong_length', carriedBy)] };
  const { ok, ...length } = seeLength(state.length, report.length);
  const found = ok
    ? readHidReport(report)
    : damage(state.opened ? 'wrong_length' : 'first_report', carriedBy);
  return { state: { length, opened: true }, found: [found] };
}

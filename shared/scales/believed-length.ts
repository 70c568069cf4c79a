/** A length is believed when it comes twice: how a line or report that lost a byte is told. */

/** What is known of the lengths so far. */
export interface KnownLength {
  /** The length that is believed. */
  readonly believed: number | undefined;
  /** Another length, seen last and once. */
  readonly candidate: number | undefined;
}

export const noLengthYet: KnownLength = { believed: undefined, candidate: undefined };

/**
 * Looks at one more length. It is believed when it is the one known, or the same new one a
 * second time in a row; a single odd one changes nothing.
 */
export function seeLength(known: KnownLength, length: number): KnownLength & { ok: boolean } {
  if (length === known.believed) return { believed: length, candidate: undefined, ok: true };
  if (length === known.candidate) return { believed: length, candidate: undefined, ok: true };
  return { believed: known.believed, candidate: length, ok: false };
}
